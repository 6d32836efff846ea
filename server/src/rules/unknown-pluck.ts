/** A word in a cell that says no pluck. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-pluck',
  severity: 'error',
  topic: 'playing',
  title: 'A pluck that cannot be read',
  why: 'A pluck is a finger and its string: `p6` is the thumb on the sixth, `a1` the ring finger on the first; `p(bass)` takes the lowest string that sounds, `p6+a1` plucks two at once. Strokes are `down`, `up`, `roll` and `mute`, `r` is a rest.',
  bad: `cell ripple
  p4 3i m2 i3
`,
  good: `cell ripple
  p4 i3 m2 i3
`,
  problem: {
    message({ found }) {
      const right = meant(found);
      const mend = right
        ? `do you mean ${quoted(right)}?`
        : `write a finger p, i, m, a or c and its string, as in ${quoted('p6')}.`;
      return `${quoted(found)} is no pluck or stroke; ${mend}`;
    },
    fixes({ found }, span) {
      const right = meant(found);
      return right ? [replaceWith(span, right)] : [];
    },
  },
};

/** Strokes as players draw and shorten them. */
const STROKES: Readonly<Record<string, string>> = { d: 'down', u: 'up', '\u2193': 'down', '\u2191': 'up', x: 'mute' };

/** Each word of a row as it was meant; undefined where one is not to be understood. */
function meant(found: string): string | undefined {
  const words = found.split(' ').flatMap((word) => (/^[^-]+(?:-[^-]+)+$/.test(word) ? word.split('-') : [word]));
  const right = words.map((word) => (PLUCK.test(word) ? word : meantPluck(word)));
  return right.includes(undefined) ? undefined : right.join(' ');
}

const PLUCK = /^[pimac]\d{1,2}$/;

/** `3i`, or `I3`, for `i3`; `D` for `down`; `>m2` for `m2>`; `(p6+a1)` for `p6+a1`. */
function meantPluck(found: string): string | undefined {
  const stroke = STROKES[found.toLowerCase()];
  if (stroke) return stroke;
  if (/^>[pimac]\d{1,2}$/.test(found)) return `${found.slice(1)}>`;
  const pinch = /^[([]([pimac]\d{1,2}(?:\+[pimac]\d{1,2})+)[)\]]$/.exec(found);
  if (pinch) return pinch[1];
  const split = /^(?:(\d{1,2})([pimac])|([pimac])(\d{1,2}))$/i.exec(found);
  return split ? `${(split[2] ?? split[3]).toLowerCase()}${split[1] ?? split[4]}` : undefined;
}
