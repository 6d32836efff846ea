/** Two parts of one kind that a section calls for in the same bars. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { capitalised, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bars-called-twice',
  severity: 'error',
  topic: 'music',
  title: 'Bars that two parts share',
  why: 'A bar has one shape, one cell and one contour. Where two lines of a section name the same bar, the first has it and the second is not played there. What has no bars fills those that are left, so that only the exceptions need any.',
  bad: `progression quay
  G | D | Em | G

cell ripple
  p(bass) i3 m2 i3 p(bass) i3 m2 i3

cell drops
  p(bass) - m2 - p(bass) - m2 -

section verse
  progression quay
  cell ripple bars 1 to 3
  cell drops bars 3 to 4
`,
  good: `progression quay
  G | D | Em | G

cell ripple
  p(bass) i3 m2 i3 p(bass) i3 m2 i3

cell drops
  p(bass) - m2 - p(bass) - m2 -

section verse
  progression quay
  cell ripple bars 1 to 3
  cell drops bar 4
`,
  problem: {
    message: ({ name, first, last }) =>
      `${capitalised(range(first, last))} ${first === last ? 'has' : 'have'} ${quoted(name)} already, which is what will be played; give this part other bars.`,
    fixes: ({ from, to, whole }, span, text) => {
      // The words from the number on: `bars`, `bar` or `at bar` stands before them.
      const before = /\bbars?[ \t]+$/.exec(text.slice(0, span.start));
      if (!before || whole === '' || Number(from) > Number(to) || /\bat[ \t]+$/.test(text.slice(0, before.index)))
        return [];
      return [replaceWith({ start: before.index, end: span.end }, range(from, to))];
    },
  },
};

const range = (first: string, last: string): string => (first === last ? `bar ${first}` : `bars ${first} to ${last}`);
