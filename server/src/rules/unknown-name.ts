/** A name that nothing in the lesson has. */
import { nearest } from '../util/nearest.ts';
import type { ProblemData, Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { listed, quoted } from './shared/words.ts';

/** More names than these are no help. */
const MOST_NAMES = 5;

export const rule: Rule = {
  code: 'unknown-name',
  severity: 'error',
  topic: 'names',
  title: 'A name that nothing has',
  why: 'A section calls for its parts by name. Where no part of that kind has the name, the section is played without it. Names of different kinds of thing live apart, so a cell cannot stand in for a contour of the same name.',
  bad: `lesson "Two chords"

progression quay
  G | C

section verse
  progression quai
`,
  good: `lesson "Two chords"

progression quay
  G | C

section verse
  progression quay
`,
  problem: {
    message(data) {
      const { kind, found } = data;
      const right = meant(data);
      if (right) return `No ${kind} is called ${quoted(found)}; do you mean ${quoted(right)}?`;
      const names = namesIn(data);
      if (names.length === 0)
        return `No ${kind} is called ${quoted(found)}: there is none yet, so write it or take this out.`;
      if (names.length > MOST_NAMES)
        return `No ${kind} is called ${quoted(found)}; look its name up where it is written.`;
      return `No ${kind} is called ${quoted(found)}; there is ${listed(names.map(quoted))}.`;
    },
    fixes(data, span) {
      const right = meant(data);
      return right ? [replaceWith(span, right)] : [];
    },
  },
};

const namesIn = ({ names }: ProblemData): readonly string[] => (names ?? '').split(' ').filter((name) => name !== '');

const meant = (data: ProblemData): string | undefined => data.right || nearest(data.found, namesIn(data));
