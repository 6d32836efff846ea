/** A word that is no note with its octave. */
import { parsePitch } from '../theory/note.ts';
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { capitalised, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-note',
  severity: 'error',
  topic: 'music',
  title: 'A note that cannot be read',
  why: 'A note is a capital letter, an accidental and the octave, in which C4 is middle C: the sixth string is E2, the first E4. Without the octave two strings of one name could not be told apart.',
  sure: true,
  bad: `lesson "Low bells"

tuning D2 A2 D3 g3 B3 E4
`,
  good: `lesson "Low bells"

tuning D2 A2 D3 G3 B3 E4
`,
  problem: {
    message({ found }) {
      const right = capitalised(found);
      if (parsePitch(right))
        return `${quoted(found)} is read as no note; write the letter as a capital, ${quoted(right)}.`;
      return `${quoted(found)} is no note with its octave; write one as in ${quoted('E2')}, where C4 is middle C.`;
    },
    fixes: ({ found }, span) => (parsePitch(capitalised(found)) ? [replaceWith(span, capitalised(found))] : []),
  },
};
