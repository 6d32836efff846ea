/** A word in a contour that says no step. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-step',
  severity: 'error',
  topic: 'playing',
  title: 'A step that cannot be read',
  why: 'A contour moves by steps of the scale, counted from where it starts: `0` is the start, `-1` the step below, `+1#` the step above raised by a fret. A number without a sign is a tone of the chord, `-` holds and `r` rests.',
  sure: true,
  bad: `contour swell on 1
  each 1/4
  from 5: 0 –1 0
`,
  good: `contour swell on 1
  each 1/4
  from 5: 0 -1 0
`,
  problem: {
    message({ found }) {
      if (found === '1')
        return `A bare ${quoted('1')} is no step; write ${quoted('+1')} for a step up, or ${quoted('R')} for the root.`;
      const right = straightened(found);
      if (right) return `${quoted(found)} is no step; do you mean ${quoted(right)}, with a plain hyphen?`;
      return `${quoted(found)} is no step; write ${quoted('0')}, ${quoted('+1')} or ${quoted('-2')}, or a tone such as ${quoted('3')}.`;
    },
    fixes({ found }, span) {
      const right = straightened(found);
      return right ? [replaceWith(span, right)] : [];
    },
  },
};

/** A dash or minus sign as editors put in place of a hyphen. */
function straightened(found: string): string | undefined {
  const right = found.replace(/^[\u2010-\u2015\u2212]/, '-');
  return right !== found && /^-\d{0,2}[#b]?$/.test(right) ? right : undefined;
}
