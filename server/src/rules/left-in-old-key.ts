/** What a variant in another key could not take along. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'left-in-old-key',
  severity: 'warning',
  topic: 'playing',
  speaksOf: 'variants',
  title: 'Left in the old key',
  why: 'A variant with a key of its own moves chords, grips, pins, melodies and tabs. What fits the neck nowhere in the new key stays where it is or goes an octave the other way, and the parts of another file are never changed: beside the rest of the variant they may sound wrong. Numerals move by themselves.',
  bad: `use "parts.lesson"

key G major

section verse
  progression quay

variant high
  key A major
`,
  good: `use "numerals.lesson"

key G major

section verse
  progression quay

variant high
  key A major
`,
  beside: {
    'parts.lesson': 'progression quay\n  G | C\n',
    'numerals.lesson': 'shape lamp\n  strings 4 3 2 1\n\nprogression quay\n  I | IV\n',
  },
  *check({ variants }) {
    for (const { definition, leftBehind } of variants) {
      for (const { span, message } of leftBehind) {
        const related = [{ span: definition.span, message: `Variant ${quoted(definition.name)} is written here.` }];
        yield { span, message: `In variant ${quoted(definition.name)}: ${message}`, related };
      }
    }
  },
};
