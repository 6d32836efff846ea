/** A hammer-on, pull-off, slide or grace note that is joined to no note. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'joined-to-nothing',
  severity: 'error',
  topic: 'playing',
  title: 'A note joined to nothing',
  why: 'A hammer-on, a pull-off and a slide start from a note that sounds on the same string, and a grace note leads to the note after it. After a rest, or at the start, there is nothing to start from; the note is plucked.',
  bad: `melody landing on 1
  each 1/4
  h3 5 7 5
`,
  good: `melody landing on 1
  each 1/4
  1 h3 7 5
`,
  problem: {
    message({ found, attack, string }) {
      if (attack === 'grace')
        return `No note follows the grace note ${quoted(found)}; write the note it leads to behind it, as in ${quoted(`${found}h7`)}.`;
      return `Nothing sounds on string ${string} that the ${attack} ${quoted(found)} could start from; write a note before it, or the fret alone.`;
    },
    fixes: ({ found }, span) => (/^[hp/\\]\d+$/.test(found) ? [replaceWith(span, found.slice(1))] : []),
  },
};
