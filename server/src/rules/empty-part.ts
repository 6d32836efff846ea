/** A part with nothing in it. */
import type { Rule } from './rule.ts';
import { capitalised, quoted } from './shared/words.ts';

/** What each kind of part cannot do without. */
const NEEDS: Readonly<Record<string, string>> = {
  cell: 'plucks, as in `p4 i3 m2 i3`',
  contour: 'a line such as `from 5: 0 -1 0`',
  melody: 'frets, as in `7 8 5 7`',
  progression: 'bars of chords, as in `G | C`',
  section: 'a line such as `progression quay`',
  tab: 'a row for each string, as in `1 | 0 - 3 - |`',
};

export const rule: Rule = {
  code: 'empty-part',
  severity: 'error',
  topic: 'playing',
  title: 'A part with nothing in it',
  why: 'It has a name and could be called for, but there is nothing to play. Perhaps its lines have lost their indent, or are still to be written.',
  bad: `cell ripple
`,
  good: `cell ripple
  p4 i3 m2 i3
`,
  problem: {
    message: ({ kind, name }) =>
      `${capitalised(kind)} ${quoted(name)} has nothing to play; it needs ${NEEDS[kind] ?? 'something to play'}.`,
  },
};
