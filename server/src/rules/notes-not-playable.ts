/** Notes written out that no hand can hold at once. */
import type { WrittenTrouble } from '../realise/score.ts';
import type { Rule } from './rule.ts';
import { reasonFor } from './shared/refusals.ts';
import { onceForPart } from './shared/written.ts';

export const rule: Rule = {
  code: 'notes-not-playable',
  severity: 'error',
  topic: 'hands',
  title: 'Notes that no hand can hold at once',
  why: 'Notes that begin together, or go on sounding as they are written, must be held by one hand. Where they lie too far apart, or need more fingers than there are, write one of them on another string, let it go earlier, or leave it out. Thumbs over the neck are not reckoned with.',
  care: true,
  bad: `tab coda
  each 1/4
  2 | 12 - - - |
  6 | 2  - - - |

section end
  tab coda
`,
  good: `tab coda
  each 1/4
  2 | 3 - - - |
  6 | 2 - - - |

section end
  tab coda
`,
  check: (context) =>
    onceForPart<Refused>(
      context,
      (trouble) => (trouble.kind === 'not-playable' ? { weight: 0, trouble } : undefined),
      ({ trouble }, where) => {
        const { hand, instrument } = context.lesson.settings;
        const why = trouble.whyNot ? `: ${reasonFor(trouble.whyNot, hand, instrument)}` : '';
        return { message: `${where}, no ${hand} hand holds these together${why}.` };
      },
    ),
};

type Refused = Extract<WrittenTrouble, { readonly kind: 'not-playable' }>;
