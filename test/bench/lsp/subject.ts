/** What is measured: a server, the text it is given, and the edits made to it. */
import { resolve } from 'node:path';

export interface Place {
  readonly line: number;
  readonly character: number;
}

export interface Subject {
  readonly name: string;
  /** Arguments of Node. */
  readonly command: readonly string[];
  readonly languageId: string;
  readonly ending: string;
  /** A text of about so many lines, the same every time. */
  readonly text: (lines: number) => string;
  /** Where one letter makes an error and its removal mends it; also where requests are made. */
  readonly place: (text: string) => Place;
  readonly letter: string;
  /** Whether the letter changes the number of findings, so that an answer to it can be told from one before it. */
  readonly changesFindings: boolean;
}

const HEAD = `lesson "An evening on the quay"

key C major
meter 4/4
tempo 84
hand large

shape bell
  strings 5 4 3
  tones R 3 5
  frets 0 to 15

cell sway
  each 1/8
  p5 i4 m3 i4 p5 i4 m3 i4
`;

const LINES: readonly string[] = ['C | F | G | C', 'F | C | G | F', 'C | G | F | C', 'G | F | C | G'];

/** Progressions of eight bars, with every tenth of them played in a section: what a growing book of lessons looks like. */
function lessonOf(lines: number): string {
  const parts = [HEAD];
  let count = HEAD.split('\n').length;
  for (let index = 1; count < lines; index++) {
    parts.push(`progression path${index}\n  ${LINES[index % 4]}\n  ${LINES[(index + 1) % 4]}\n`);
    count += 4;
    if (index % 10 !== 1) continue;
    parts.push(`section verse${index}\n  progression path${index}\n  shape bell\n  cell sway\n`);
    count += 5;
  }
  return parts.join('\n');
}

/** Behind the first chord of the progression in the middle of the text, one that a section plays. */
function middleChord(text: string): Place {
  const lines = text.split('\n');
  const played = lines.flatMap((line, index) => (/^progression path\d*1$/.test(line) ? [index] : []));
  return { line: played[played.length >> 1] + 1, character: 3 };
}

export const stringcourse: Subject = {
  name: 'stringcourse',
  command: [resolve('dist/stringcourse-server.cjs'), '--stdio'],
  languageId: 'stringcourse',
  ending: '.lesson',
  text: lessonOf,
  place: middleChord,
  letter: 'H',
  changesFindings: true,
};

export const floor: Subject = {
  ...stringcourse,
  name: 'floor',
  command: [resolve('test/bench/lsp/null-server.cjs'), '--stdio'],
  changesFindings: false,
};
