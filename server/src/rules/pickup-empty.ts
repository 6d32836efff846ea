/** A pick-up with nothing to play. */
import type { Rule } from './rule.ts';
import { deleteLines } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'pickup-empty',
  severity: 'error',
  topic: 'playing',
  title: 'A pick-up that nothing fills',
  why: 'The pick-up, bar 0, stands before the chords: the first bar of a melody or a tab without bars of its own is played in it, or one that says `at bar 0`.',
  bad: `progression quay
  G | C

section verse
  progression quay
  pickup 1/4
`,
  good: `progression quay
  G | C

melody landing on 1
  7 1/4 | 3 1/1 | 5 1/1

section verse
  progression quay
  melody landing
  pickup 1/4
`,
  problem: {
    message: ({ pickup }) =>
      `No melody or tab fills this pick-up, so nothing is played in it; write a melody whose first bar lasts ${pickup}, or delete the line.`,
    fixes: (_, span, text) => [deleteLines(span, text, 'Delete the pick-up')],
  },
};
