/** A string that a shape or a capo names twice. */
import type { Rule } from './rule.ts';
import { deleteSpan } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'string-said-twice',
  severity: 'error',
  topic: 'shapes',
  title: 'A string said twice',
  why: 'A string sounds one note at a time, and it either carries the chord or rings open. Where it is named twice, one of the two must mean another string.',
  bad: `shape lamp
  strings 4 2 1
  open 2
`,
  good: `shape lamp
  strings 4 2 1
  open 3
`,
  problem: {
    message: ({ string, of }) =>
      of === 'capo'
        ? `The capo lies on string ${quoted(string)} already; name another one, or take it out.`
        : `String ${quoted(string)} has its part in this shape already; name another one, or take it out.`,
    // A shape's tones stand in the order of its strings, so that only its author knows which to take out.
    fixes: ({ of, string }, { start, end }, text) =>
      of === 'capo' && /\s/.test(text[start - 1] ?? '')
        ? [deleteSpan({ start: start - 1, end }, `Take out the second ${quoted(string)}`)]
        : [],
  },
};
