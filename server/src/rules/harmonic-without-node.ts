/** A string touched where no harmonic rings. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'harmonic-without-node',
  severity: 'error',
  topic: 'playing',
  title: 'A harmonic that does not ring',
  why: 'A string rings as a harmonic where it divides evenly: over the 12th fret in two, the 7th and 19th in three, the 5th and 24th in four, the 4th, 9th and 16th in five, about the 3rd in six, all counted from the fret that is pressed. Touched elsewhere it is only damped.',
  bad: `melody bells on 1
  each 1/4
  <12> <11> <7> <5>
`,
  good: `melody bells on 1
  each 1/4
  <12> <12> <7> <5>
`,
  problem: {
    message: ({ touched, right }) =>
      `No harmonic rings where the string is touched at ${touched}; the nearest place is ${quoted(right)}.`,
    fixes: ({ right }, span) => (right ? [replaceWith(span, right)] : []),
  },
};
