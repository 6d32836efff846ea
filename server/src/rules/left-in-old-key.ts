/** What a variant in another key could not take along. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'left-in-old-key',
  severity: 'warning',
  topic: 'playing',
  speaksOf: 'variants',
  title: 'Left in the old key',
  why: 'A variant with a key of its own moves chords, grips, pins, melodies and tabs, those of other files too. What fits the neck nowhere in the new key stays where it is or goes an octave the other way, and may sound wrong beside the rest of the variant. Numerals move by themselves.',
  bad: `key D major

tab coda
  each 1/4
  1 | 0 - 12 - |

section verse
  tab coda

variant lower
  key C major
`,
  good: `key D major

tab coda
  each 1/4
  1 | 2 - 5 - |

section verse
  tab coda

variant lower
  key C major
`,
  *check({ variants }) {
    for (const { definition, leftBehind } of variants) {
      for (const { span, message } of leftBehind) {
        const related = [{ span: definition.span, message: `Variant ${quoted(definition.name)} is written here.` }];
        yield { span, message: `In variant ${quoted(definition.name)}: ${message}`, related };
      }
    }
  },
};
