/** Beats counted by strokes that do not fill the bar. */
import type { Rule } from './rule.ts';
import { counted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bar-not-full',
  severity: 'error',
  topic: 'music',
  title: 'Beats that do not fill the bar',
  why: 'As soon as a stroke counts a beat in a bar, every chord in it lasts one beat and each stroke one more; together they must fill the bar, or the band falls apart. Without strokes the chords share the bar evenly.',
  bad: `tempo 60

progression quay
  G / / C | G

section verse
  meter 3/4
  progression quay
`,
  good: `tempo 60

progression quay
  G / C | G

section verse
  meter 3/4
  progression quay
`,
  problem: {
    message({ beats, needed }) {
      const more = Number(beats) > Number(needed);
      const mend = more ? 'take some out' : 'add a `/` for each that is missing';
      return `This bar counts ${counted(Number(beats), 'beat')}, and the meter has ${needed}; ${mend}.`;
    },
  },
};
