/** A number that is no tone of a chord. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

/** What players mean by the numbers that repeat others an octave up. */
const SAME: Readonly<Record<string, string>> = { '8': 'R', '10': '3', '12': '5', '14': '7', '15': 'R' };

export const rule: Rule = {
  code: 'unknown-tone',
  severity: 'error',
  topic: 'shapes',
  title: 'A tone that chords do not have',
  why: 'Tones are counted from the root: R, 2, 3, 4, 5, 6, 7, 9, 11 and 13, with an accidental where they are meant whatever the chord. An octave is the root again, a tenth the third.',
  sure: true,
  bad: `shape lamp
  strings 4 2 1
  tones 3 8 5
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5
`,
  problem: {
    message({ found }) {
      const right = SAME[found];
      if (right) return `${quoted(found)} is ${quoted(right)} again; write it so.`;
      return `${quoted(found)} is no tone of a chord; there are R, 2 to 7, 9, 11 and 13, with # or b before them.`;
    },
    fixes: ({ found }, span) => (SAME[found] ? [replaceWith(span, SAME[found])] : []),
  },
};
