/** Notes written out that spread the fingers. */
import type { WrittenTrouble } from '../realise/score.ts';
import type { Rule } from './rule.ts';
import { fingerName } from './shared/words.ts';
import { onceForPart } from './shared/written.ts';

export const rule: Rule = {
  code: 'notes-stretch',
  severity: 'hint',
  topic: 'hands',
  title: 'Notes that spread the fingers',
  why: 'Notes that are held together as written lie so far apart that the fingers must spread. At the edge of what the hand can do it is a warning, and for a beginner a stretch is one too. Another string, another position or a shorter note is easier on the hand.',
  care: true,
  bad: `tab coda
  each 1/4
  1 | 5 - - - |
  2 | 2 - - - |

section end
  tab coda
`,
  good: `tab coda
  each 1/4
  1 | 3 - - - |
  2 | 2 - - - |

section end
  tab coda
`,
  check: (context) =>
    onceForPart<Reach>(
      context,
      (trouble) =>
        trouble.kind === 'reach'
          ? { weight: (trouble.zone === 'extreme' ? EXTREME : 0) + (trouble.pair?.millimetres ?? 0), trouble }
          : undefined,
      ({ trouble: { zone, pair } }, where) => {
        const { hand, level = USUAL_LEVEL } = context.lesson.settings;
        const what =
          zone === 'extreme' ? `at the edge of what a ${hand} hand can hold` : `a stretch for a ${hand} hand`;
        const fingers = pair
          ? `${fingerName(pair.fingers[0])} at fret ${pair.frets[0]}, ${fingerName(pair.fingers[1])} at ${pair.frets[1]}, ${pair.millimetres} mm`
          : 'the fingers crowd on few frets';
        const grave = zone === 'extreme' || level <= BEGINNER;
        return {
          severity: grave ? 'warning' : 'hint',
          message: `${where}, the notes are ${what}: ${fingers}; move one, or end it sooner.`,
        };
      },
    ),
};

type Reach = Extract<WrittenTrouble, { readonly kind: 'reach' }>;

/** Any extreme reach goes before any stretch, however wide in millimetres. */
const EXTREME = 1000;
const USUAL_LEVEL = 3;
/** Up to this level a stretch is asked for with care. */
const BEGINNER = 2;
