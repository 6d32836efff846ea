/** A variant that is the lesson over again. */
import type { Settings } from '../lesson/lesson.ts';
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'variant-changes-nothing',
  severity: 'warning',
  topic: 'playing',
  speaksOf: 'variants',
  title: 'A variant that changes nothing',
  why: 'A variant is the lesson with other settings, parts or practice. Where all that it sets is so in the lesson already, a student gets the same lesson twice.',
  bad: `tempo 60

progression quay
  G | C

section verse
  progression quay

variant gentle
  tempo 60
`,
  good: `tempo 84

progression quay
  G | C

section verse
  progression quay

variant gentle
  tempo 60
`,
  *check({ lesson, variants }) {
    const before = written(lesson.settings);
    for (const { definition, lesson: changed } of variants) {
      const { name, span, replaces, practises, broken } = definition;
      if (broken || practises || replaces.some((one) => one.name !== one.instead)) continue;
      // What could not be read changes nothing either, and has been said.
      if (changed.problems.some((one) => inside(one.span, definition.whole))) continue;
      if (written(changed.settings) !== before) continue;
      yield {
        span,
        message: `Variant ${quoted(name)} is played just like the lesson; change something in it, or delete it.`,
      };
    }
  },
};

const written = (settings: Settings): string => JSON.stringify(settings);

const inside = (inner: { start: number; end: number }, outer: { start: number; end: number }): boolean =>
  outer.start <= inner.start && inner.end <= outer.end;
