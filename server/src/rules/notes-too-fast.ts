/** Notes written out that come too fast for the fretting hand. */
import { playerAtLevel } from '../hand/model.ts';
import type { WrittenTrouble } from '../realise/score.ts';
import type { Rule } from './rule.ts';
import { fingerName } from './shared/words.ts';
import { onceForPart } from './shared/written.ts';

export const rule: Rule = {
  code: 'notes-too-fast',
  severity: 'warning',
  topic: 'hands',
  title: 'Notes that come too fast',
  why: 'From one note to the next the hand has to shift, or a finger has to go farther than the time between them allows, for the player that the level speaks to. A slower tempo, an open string on the way, or the same notes in one position mend it. What an advanced player cannot do is an error.',
  care: true,
  bad: `tempo 200

tab run
  each 1/16
  1 | 1 17 1 17 1 17 1 17 1 17 1 17 1 17 1 17 |

section end
  tab run
`,
  good: `tempo 60

tab run
  each 1/16
  1 | 1 2 1 2 1 2 1 2 1 2 1 2 1 2 1 2 |

section end
  tab run
`,
  check: (context) =>
    onceForPart<TooFast>(
      context,
      (trouble) =>
        trouble.kind === 'change' && trouble.change.tightest
          ? { weight: trouble.change.tightest.need - trouble.change.tightest.available, trouble }
          : undefined,
      ({ trouble: { change } }, where) => {
        const player = playerAtLevel(context.lesson.settings.level);
        const { finger, need, available } = change.tightest!;
        const way = Math.round(Math.abs(change.shift));
        const shift = way === 0 ? '' : `, with ${way} mm to shift`;
        return {
          severity: change.pace === 'not playable' && player === 'advanced' ? 'error' : 'warning',
          message: `${where}, the ${fingerName(finger)} has ${seconds(available)} s for its way and needs ${seconds(need)}${shift}; play slower, or stay in one position.`,
        };
      },
    ),
};

type TooFast = Extract<WrittenTrouble, { readonly kind: 'change' }>;

const seconds = (millionths: number): string => (Math.max(0, Math.round(millionths / 10_000)) / 100).toFixed(2);
