/** Bars to practise in a lesson of several sections, none of which is named. */
import type { Rule } from './rule.ts';
import { listed, quoted } from './shared/words.ts';

/** More names than these are no help. */
const MOST_NAMES = 5;

export const rule: Rule = {
  code: 'bars-without-section',
  severity: 'warning',
  topic: 'names',
  title: 'Bars of no section',
  why: 'Bars are counted from 1 in each section. Where a lesson has several, a student cannot tell which bars are meant until the section is named; until then the step stands for the whole lesson.',
  bad: `progression quay
  G | C

section verse
  progression quay

section coda
  progression quay

practice
  step "The change" at 60 bars 1 to 2
`,
  good: `progression quay
  G | C

section verse
  progression quay

section coda
  progression quay

practice
  step "The change" at 60 in verse bars 1 to 2
`,
  problem: {
    message({ names }) {
      const sections = names.split(' ');
      const choice =
        sections.length > MOST_NAMES
          ? 'a section'
          : listed(
              sections.map((name) => quoted(`in ${name}`)),
              'or',
            );
      return `Each section counts its own bars, and none is named, so the whole lesson is meant; write ${choice}.`;
    },
  },
};
