/** A bend that goes down, too far, or is let down elsewhere. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bend-goes-wrong',
  severity: 'error',
  topic: 'playing',
  title: 'A bend that no string makes',
  why: 'A bend presses a fret and pulls the string up to the pitch of a higher one, `7b9`; let down, `7b9r7`, it is back where it was pressed. An open string has no finger to bend it, and no string goes up by more than a few frets.',
  bad: `melody landing on 2
  each 1/4
  7 9b7 5 7
`,
  good: `melody landing on 2
  each 1/4
  7 7b9 5 7
`,
  problem: {
    message({ found, wrong, fret, to, right }) {
      if (wrong === 'open')
        return `${quoted(found)} bends an open string; nothing presses it, so write a fret to bend.`;
      if (wrong === 'down')
        return `${quoted(found)} bends from fret ${fret} to ${to}, and a string only bends up; name a higher fret.`;
      if (wrong === 'far')
        return `${quoted(found)} bends up by ${Number(to) - Number(fret)} frets, which a string does not give; bend less.`;
      return `${quoted(found)} is let down to another fret than it is pressed at; write ${quoted(right)}.`;
    },
    fixes: ({ right }, span) => (right ? [replaceWith(span, right)] : []),
  },
};
