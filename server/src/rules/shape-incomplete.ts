/** A shape that lacks a line without which it says nothing. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'shape-incomplete',
  severity: 'error',
  topic: 'shapes',
  title: 'A shape without strings',
  why: 'A shape is known by the strings that carry it. Without them anything would do, and no voicing can be looked for.',
  bad: `shape lamp
  reach 2
`,
  good: `shape lamp
  strings 4 2 1
  reach 2
`,
  problem: {
    message: ({ name, missing }) =>
      `Shape ${quoted(name)} does not say its ${missing}; add a line such as ${quoted('strings 4 2 1')}.`,
  },
};
