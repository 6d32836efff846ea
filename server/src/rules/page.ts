/** The page of the reference that lists every finding: what it says, why it matters, and how a lesson is mended. */
import { CARE } from '../util/care.ts';
import type { Finding } from '../util/finding.ts';
import { LineMap } from '../util/line-map.ts';
import type { Location } from '../lesson/neighbours.ts';
import { exampleLocation, exampleText, type Rule, type Topic } from './rule.ts';

const TOPICS: Readonly<Record<Topic, string>> = {
  words: 'Words and lines',
  names: 'Names',
  files: 'Files, libraries and courses',
  music: 'Keys, meters, chords and bars',
  shapes: 'Shapes and voicings',
  hands: 'The fretting hand',
  playing: 'Cells and contours',
  claims: 'Claims',
};

/** Examples longer than these are cut, so that the page stays readable. */
const MOST_LINES = 24;
const LONGEST_LINE = 100;

/** The whole page. `findingsIn` analyses an example, so that the page shows what is really said. */
export function rulesPage(
  rules: readonly Rule[],
  findingsIn: (text: string, location?: Location) => readonly Finding[],
): string {
  const parts = [
    '# Findings',
    'What Stringcourse may say about a lesson, with the reason and an example. An *error* stands for what cannot be read, found or ' +
      'played; a *warning* for what will surprise a student; a *hint* for what is worth a second look; an *information* needs no ' +
      'mending. A comment `; allow CODE` at the end of a line, or alone on the line before, silences a finding there.',
    'This page is written by `npm run docs` from the rules themselves.',
  ];
  for (const [topic, title] of Object.entries(TOPICS)) {
    parts.push(`## ${title}`);
    for (const rule of rules.filter((one) => one.topic === topic)) parts.push(...sectionOf(rule, findingsIn));
  }
  return `${parts.join('\n\n')}\n`;
}

function sectionOf(
  rule: Rule,
  findingsIn: (text: string, location?: Location) => readonly Finding[],
): readonly string[] {
  const bad = exampleText(rule.bad);
  const said = findingsIn(bad, exampleLocation(rule)).find((finding) => finding.code === rule.code);
  return [
    `### ${rule.code}`,
    `**${rule.title}** · ${rule.severity}`,
    rule.why,
    ...(rule.care ? [CARE] : []),
    fenced(withMark(bad, said)),
    ...(said?.fixes.length ? [`Quick fix: ${said.fixes.map((fix) => fix.title).join('; ')}.`] : []),
    ...Object.entries(rule.beside ?? {}).flatMap(([path, text]) => [
      `Beside it, \`${path}\`:`,
      fenced(text.trimEnd().split('\n')),
    ]),
    'Mended:',
    fenced(exampleText(rule.good).trimEnd().split('\n')),
  ];
}

/** The example's lines, with the finding under the line that it is about. */
function withMark(text: string, said: Finding | undefined): readonly string[] {
  const lines = text.trimEnd().split('\n');
  if (!said) return lines;
  const map = new LineMap(text);
  const { line, character } = map.positionAt(said.span.start);
  const width = Math.min(said.span.end, said.span.start + map.line(line).length - character) - said.span.start;
  const indent = ' '.repeat(Math.min(character, LONGEST_LINE));
  const marked = [...lines];
  marked.splice(line + 1, 0, `${indent}${'^'.repeat(Math.max(1, Math.min(width, LONGEST_LINE)))}`, said.message);
  return marked;
}

function fenced(lines: readonly string[]): string {
  const shown = lines.length > MOST_LINES ? [...lines.slice(0, 3), '…', ...lines.slice(-3)] : lines;
  const safe = shown.map((line) => shortened(line).replace(/\p{Cc}/gu, '\ufffd'));
  return ['```lesson', ...safe, '```'].join('\n');
}

const shortened = (line: string): string =>
  line.length > LONGEST_LINE * 2 ? `${line.slice(0, LONGEST_LINE)} …` : line;
