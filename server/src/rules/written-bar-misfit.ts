/** A bar of a melody or a tab that does not have the length of the bar it fills. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'written-bar-misfit',
  severity: 'error',
  topic: 'playing',
  title: 'Notes that do not fill the bar',
  why: 'The bars of a melody or a tab are played in the bars of the section, so that each needs the length of the meter; the first may be a pick-up, if the section says how long. What is too long is cut at the bar line, what is too short ends in silence.',
  bad: `melody landing on 1
  each 1/4
  7 8 5 7 | 5 3/4

section verse
  melody landing
`,
  good: `melody landing on 1
  each 1/4
  7 8 5 7 | 5 3/4 r

section verse
  melody landing
`,
  problem: {
    message({ kind, found, needed, wrong }) {
      if (wrong === 'pickup')
        return `This bar is the pick-up and lasts ${found}, and the section gives it ${needed}; make them agree.`;
      const mend =
        wrong === 'first'
          ? `if it is a pick-up, the section needs a line ${quoted(`pickup ${found}`)}`
          : compared(found, needed) > 0
            ? 'take something out, or set a bar line'
            : `add notes, ${quoted('-')} or ${quoted('r')}`;
      return `This bar of the ${kind} lasts ${found} and the meter’s bar ${needed}; ${mend}.`;
    },
  },
};

/** Below, at or above 0, as the first fraction is less, equal or more than the second. */
function compared(a: string, b: string): number {
  const [over, under = 1] = a.split('/').map(Number);
  const [otherOver, otherUnder = 1] = b.split('/').map(Number);
  return over * otherUnder - otherOver * under;
}
