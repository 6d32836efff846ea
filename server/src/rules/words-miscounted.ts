/** Words with more or fewer syllables than the melody has notes. */
import type { Rule } from './rule.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'words-miscounted',
  severity: 'hint',
  topic: 'playing',
  title: 'Syllables that do not match the notes',
  why: 'Each syllable stands under a note: a hyphen joins it to the next one, a `-` alone holds it over one more note, and `|` goes on to the next bar. Where the numbers differ a singer will be lost somewhere.',
  bad: `melody landing on 1
  each 1/4
  7 8 5 7

section verse
  melody landing
  words low- tide lan-
`,
  good: `melody landing on 1
  each 1/4
  7 8 5 7

section verse
  melody landing
  words low- tide lan- terns
`,
  problem: {
    message({ syllables, notes, bar }) {
      if (bar !== undefined)
        return Number(notes) === 0
          ? `Bar ${bar} has no note to sing, and syllables; take them to another bar, or out.`
          : `Bar ${bar} has ${counted(Number(notes), 'note')} to sing, and more syllables; take one to another bar, or join two.`;
      if (Number(notes) === 0)
        return 'There is no melody here to sing these words to; call for one, or delete the words.';
      const mend =
        Number(syllables) > Number(notes) ? 'take some out, or add notes' : `add some, or hold one with ${quoted('-')}`;
      return `These words have ${counted(Number(syllables), 'syllable')} and the melody has ${counted(Number(notes), 'note')}; ${mend}.`;
    },
  },
};
