/** A brace in a prose that is opened and not closed on its line. */
import type { Rule } from './rule.ts';
import { insertAt } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'unclosed-brace',
  severity: 'error',
  topic: 'words',
  title: 'A brace that is not closed',
  why: 'What stands in braces is worked out from the lesson and put in their place. A brace that nothing closes on its line leaves it open where the fact ends, so nothing is filled in, and a student reads the brace itself.',
  bad: `progression quay
  G | D

section verse
  progression quay

text
  Bar 1 is the chord {verse.1.chord and bar 2 the chord {verse.2.chord}.
`,
  good: `progression quay
  G | D

section verse
  progression quay

text
  Bar 1 is the chord {verse.1.chord} and bar 2 the chord {verse.2.chord}.
`,
  problem: {
    message: () => 'This brace is not closed on its line; close it with `}`, or write `\\{` for a plain brace.',
    fixes: (_data, span) => [insertAt(span.start, '\\', 'Write `\\{`, a plain brace')],
  },
};
