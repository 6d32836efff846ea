/** The lesson that the examples of the language come from, and what is found in it with one of them in its place. */
import { analyze, Session, type Analysis } from '../../server/src/analyze.ts';
import { ruleNamed } from '../../server/src/rules/findings.ts';
import type { Topic } from '../../server/src/rules/rule.ts';
import type { LineForm, StatementForm } from '../../server/src/syntax/statements.ts';

/** What the examples speak of: the lesson that they all come from. An example stands in place of the part of its name. */
const AROUND: readonly string[] = [
  'lesson "Harbour lamps"\n  level 3\n  minutes 60',
  'key G major',
  'meter 3/4',
  'tempo 84',
  'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n  frets 1 to 12\n  reach 2',
  'shape bell\n  strings 3 2 1\n  spacing close',
  'progression quay\n  G | D | Em | Am | Em | D | G at 8 | G held',
  'progression back\n  D | G',
  'progression harbour\n  G | D | G | D',
  'cell ripple\n  each 1/8\n  p4 i3 m2 i3 m2 i3',
  'cell waves\n  each 1/4\n  p4 i3 m2',
  'contour swell on 1\n  each 1/4\n  from 5: 0 -1 0',
  'contour tide on 1\n  each 1/4\n  from 5: 0 0 -1',
  'melody landing on 1\n  each 1/4\n  10 8 10',
  'melody leaving on 1\n  each 1/4\n  10 8 7',
  'tab coda\n  each 1/4\n  1 | 3 - 2 |\n  6 | 3 - - |',
  'tab farewell\n  each 1/4\n  1 | 3 2 - |\n  6 | 3 - - |',
  'section verse "The quay at dusk"\n  progression quay\n  shape lamp\n  cell ripple\n  contour swell',
  'section coda\n  tab coda',
];

const headOf = (statement: string): string => statement.split(/\n/)[0].split(/\s+/).slice(0, 2).join(' ');

/** Files beside the lesson, for the examples that speak of one. */
const beside = (path: string): string =>
  path.endsWith('library.lesson')
    ? 'lesson "No library here"\n'
    : AROUND.filter((one) => /^(shape|cell|contour|progression|melody|tab) /.test(one)).join('\n\n');

/** A text that has the files beside it that the examples speak of. */
export const analyzeBeside = (text: string, session: Session = new Session()): Analysis =>
  analyze(text, session, {
    path: text.startsWith('library ') ? 'library.lesson' : 'lessons/evening.lesson',
    files: { read: beside },
  });

/** A lesson with this statement at its end. */
export function textWith(example: string): string {
  const alone = /^(course|library) /.test(example);
  const others = alone
    ? []
    : AROUND.filter(
        (one) => headOf(one) !== headOf(example) && !isSameSetting(one, example) && !isBrought(one, example),
      );
  return `${[...others, example].join('\n\n')}\n`;
}

/** A line of a statement's body in place of the one that its example has. */
export function statementWith(form: StatementForm, line: LineForm, text: string): string {
  const [head, ...rest] = form.example.split('\n');
  // The other lines of the statement's example stay, so that what it needs is there.
  const others = rest.filter((one) => one.trim().split(/\s+/)[0] !== line.keyword && line.keyword);
  const all = others.includes(`  ${text}`) ? others : [...others, ...text.split('\n').map((one) => `  ${one}`)];
  return [head, ...all].join('\n');
}

/** The errors that a lesson with this statement in it has; `topics` leaves out what speaks of other things. */
export function errorsWith(example: string, topics?: readonly Topic[]): readonly string[] {
  const { findings } = analyzeBeside(textWith(example));
  return findings
    .filter(({ severity, code }) => severity === 'error' && (!topics || topics.includes(ruleNamed(code)!.topic)))
    .map(({ code, message }) => `${code}: ${message}`);
}

/** What a `use` line brings, the lesson has no need to have itself. */
const isBrought = (one: string, example: string): boolean =>
  example.startsWith('use ') &&
  example
    .split(' from ')[0]
    .split(/[\s,]+/)
    .includes(one.split(/\s+/)[1]);

const isSameSetting = (one: string, example: string): boolean =>
  /^(lesson|key|meter|tempo) /.test(one) && one.split(' ')[0] === example.split(' ')[0];
