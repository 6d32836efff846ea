/** A claim about a section, a bar or a chord that is not there. */
import type { Fix } from '../util/finding.ts';
import type { ProblemData, Rule } from './rule.ts';
import { insertAt } from './shared/fixes.ts';
import { counted, listed, quoted } from './shared/words.ts';

/** More sections than these are no choice. */
const MOST_OFFERED = 3;

export const rule: Rule = {
  code: 'claim-nowhere',
  severity: 'error',
  topic: 'claims',
  title: 'A claim about a place that is not there',
  why: 'Bars are counted from 1 in each section as written, and a pick-up is bar 0; chords are counted from 1 in each bar. Where there are several sections, a claim about a bar must say which of them it means. A claim about no bar at all is never checked.',
  bad: `progression quay
  G | D

section verse
  progression quay

section coda
  progression quay

claim bar 2 is D
`,
  good: `progression quay
  G | D

section verse
  progression quay

section coda
  progression quay

claim verse bar 2 is D
`,
  problem: {
    message(data) {
      const { what, found } = data;
      switch (what) {
        case 'section': {
          const names = namesIn(data.names);
          if (names.length === 0) return 'There is no section yet, so there is no bar to claim anything of; write one.';
          return `Each section counts its own bars: say which is meant, ${listed(names.slice(0, MOST_OFFERED).map(quoted), 'or')}.`;
        }
        case 'two sections':
          return `This speaks of ${quoted(data.one)} and of ${quoted(data.other)}; leave one of them out.`;
        case 'backwards':
          return `Bars ${data.from} to ${data.to} run backwards; write the lower number first.`;
        case 'chord':
          return `Bar ${data.bar} has ${counted(Number(data.count), 'chord')}, so there is no chord ${found} in it; name another.`;
        default: {
          const range = data.first === data.last ? `only bar ${data.first}` : `bars ${data.first} to ${data.last}`;
          return `${quoted(data.section)} has ${range}, so there is no bar ${found}; name another.`;
        }
      }
    },
    fixes({ what, having, before }, span) {
      if (what !== 'section') return [];
      return namesIn(having)
        .slice(0, MOST_OFFERED)
        .map((name): Fix =>
          before
            ? insertAt(span.start, `${name} `, `Say ${quoted(name)}`)
            : insertAt(span.end, ` in ${name}`, `Say ${quoted(`in ${name}`)}`),
        );
    },
  },
};

const namesIn = (names: ProblemData[string] = ''): readonly string[] => names.split(' ').filter((name) => name !== '');
