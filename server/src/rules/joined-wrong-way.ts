/** A hammer-on downward, a pull-off upward, or a slide whose stroke leans the other way. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'joined-wrong-way',
  severity: 'error',
  topic: 'playing',
  title: 'A note joined the wrong way',
  why: 'A finger hammers on above the fret that sounds, and pulls off to one below it; a slide up is written `/`, a slide down `\\\\`. Written the other way round a student does not know which of the two to believe.',
  sure: true,
  bad: `melody landing on 1
  each 1/4
  3 h1 3 1
`,
  good: `melody landing on 1
  each 1/4
  3 p1 3 1
`,
  problem: {
    message({ found, attack, from, to, right }) {
      if (!right) return `The ${attack} ${quoted(found)} stays on fret ${to}; pluck it again, or name another fret.`;
      const way = Number(to) > Number(from) ? 'up' : 'down';
      return `${quoted(found)} goes ${way} from fret ${from} to ${to}, which no ${attack}${attack === 'slide' ? ' of that sign' : ''} does; write ${quoted(right)}.`;
    },
    fixes: ({ right }, span) => (right ? [replaceWith(span, right)] : []),
  },
};
