/** A length that cannot swing. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bad-swing',
  severity: 'error',
  topic: 'playing',
  title: 'A length that cannot swing',
  why: 'Swing plays notes in pairs, a long one and a short one in the time of two. That can be said of quarters, eighths and sixteenths; until it says one of these the lesson is played straight.',
  bad: `lesson "A slow shuffle"

swing 1/7
`,
  good: `lesson "A slow shuffle"

swing 1/8
`,
  problem: {
    message: ({ found }) =>
      `Notes of ${quoted(found)} cannot swing in pairs; write ${quoted('1/8')} for eighths, ${quoted('1/16')} for sixteenths or ${quoted('1/4')} for quarters.`,
    fixes: (_, span) => [replaceWith(span, '1/8')],
  },
};
