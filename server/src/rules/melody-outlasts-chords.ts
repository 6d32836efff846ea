/** A melody or tab that goes on after the last chord. */
import type { Rule } from './rule.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'melody-outlasts-chords',
  severity: 'hint',
  topic: 'playing',
  title: 'A melody longer than its chords',
  why: 'A melody without bars of its own starts with the first bar of the section. Where it has more bars than the progression, the last ones have no chord under them: a bar too many, or a progression too short.',
  bad: `progression quay
  G | C

melody landing on 1
  each 1/4
  3 5 3 2 | 0 1 3 0 | 3 1/1

section verse
  progression quay
  melody landing
`,
  good: `progression quay
  G | C | G

melody landing on 1
  each 1/4
  3 5 3 2 | 0 1 3 0 | 3 1/1

section verse
  progression quay
  melody landing
`,
  problem: {
    message({ name, kind, bars, beyond, endings }) {
      const mend = endings
        ? `what belongs to an ending is a ${kind} of the ending’s name.`
        : `lengthen the progression, or cut the ${kind}.`;
      return `${quoted(name)} goes on for ${counted(Number(beyond), 'bar')} after the ${counted(Number(bars), 'bar')} of chords; ${mend}`;
    },
  },
};
