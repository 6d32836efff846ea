/** A name that the used file does not have. */
import { nearest } from '../util/nearest.ts';
import type { ProblemData, Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'part-not-in-file',
  severity: 'error',
  topic: 'files',
  title: 'A part that the file does not have',
  why: 'A line `use lamp from` brings the parts of that name. Where the file has none, the section that calls for it is played without.',
  beside: {
    'parts.lesson': `shape lamp
  strings 4 2 1
  tones 3 R 5

cell ripple
  each 1/4
  p4 i2 m1
`,
  },
  bad: `lesson "Lamps in a row"

use lampe from "parts.lesson"

progression row
  G | D

section verse
  progression row
`,
  good: `lesson "Lamps in a row"

use lamp from "parts.lesson"

progression row
  G | D

section verse
  progression row
  shape lamp
`,
  problem: {
    message: (data) => {
      const { found, path, names } = data;
      const right = meant(data);
      if (right) return `${quoted(path)} has no ${quoted(found)}; do you mean ${quoted(right)}?`;
      if (!names) return `${quoted(path)} has no parts to use; write ${quoted(found)} there, or take it out here.`;
      return `${quoted(path)} has no ${quoted(found)}; it has ${listed(namesIn(data).slice(0, MOST_NAMES).map(quoted))}.`;
    },
    fixes(data, span) {
      const right = meant(data);
      return right ? [replaceWith(span, right)] : [];
    },
  },
};

/** More names than these are no help. */
const MOST_NAMES = 6;

const namesIn = ({ names }: ProblemData): readonly string[] => (names ?? '').split(' ').filter((name) => name !== '');

const meant = (data: ProblemData): string | undefined => nearest(data.found, namesIn(data));
