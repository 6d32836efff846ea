/** A word in a melody or a tab that says no note. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-sign',
  severity: 'error',
  topic: 'playing',
  title: 'A sign that cannot be read',
  why: 'A melody or a tab is written in the signs of plain-text tab: a fret, `-` for nothing new, `r` for silence, `x` for a dead note, `h3` and `p1` for the fretting hand, `/7` and `\\\\5` for slides, `7b9` for a bend. What is none of them stands for nothing, and the notes around it are played.',
  sure: true,
  bad: `melody landing on 1
  each 1/4
  7 8 [12] 7
`,
  good: `melody landing on 1
  each 1/4
  7 8 <12> 7
`,
  problem: {
    message({ found, right, fret, string }) {
      if (fret) return `${quoted(found)} is a note, and a melody is written in frets: ${fret} on string ${string}.`;
      const mend = right
        ? `do you mean ${quoted(right)}?`
        : (HELP.find(([form]) => form.test(found))?.[1] ?? `write a fret, or ${quoted('-')} where nothing is new.`);
      return `${quoted(found)} is no sign of a tab; ${mend}`;
    },
    fixes: ({ right, fret }, span) => (right || fret ? [replaceWith(span, right || fret)] : []),
  },
};

/** What is missing in words that are half a sign. */
const HELP: readonly (readonly [RegExp, string])[] = [
  [/^\d*[hpst]$/, 'write the fret it goes to, as in `h3`.'],
  [/^\d*[/\\]$/, 'a slide names the fret it goes to, as in `/7`.'],
  [/^\d+p?b(r\d*)?$/, 'a bend names the fret whose pitch it reaches, as in `7b9`.'],
  [/^b\d+/, 'a bend begins with the fret it is pressed at, as in `7b9`.'],
  [/^\(|\)$/, 'a ghost note stands in brackets, as in `(5)`.'],
  [/^[A-Ga-g][#b\u266f\u266d]?\d?$/, 'write the note’s fret, with its string on the melody’s first line.'],
  [/^%$/, 'the bar before is repeated by `...`.'],
];
