/** A lesson that needs a harder one first. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'needs-harder',
  severity: 'hint',
  topic: 'files',
  title: 'What comes first is harder',
  why: 'A lesson that a student is to play first should not ask more than the lesson it leads to.',
  beside: {
    'first.lesson': `lesson "First lamps"
  level 3
`,
  },
  bad: `lesson "Second lamps"
  level 2
  needs "first.lesson"

progression row
  G | D

section verse
  progression row
`,
  good: `lesson "Second lamps"
  level 4
  needs "first.lesson"

progression row
  G | D

section verse
  progression row
`,
  *check({ lesson }) {
    const own = lesson.settings.level;
    if (own === undefined) return;
    for (const { head, span, path } of lesson.needs) {
      if (head?.level === undefined || head.level <= own) continue;
      yield {
        span,
        message: `${quoted(path)} is for level ${head.level}, and this lesson, which needs it, for level ${own}.`,
      };
    }
  },
};
