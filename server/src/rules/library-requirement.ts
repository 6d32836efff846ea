/** A lesson that does not state what its library asks of each lesson. */
import type { Rule } from './rule.ts';
import { listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'library-requirement',
  severity: 'warning',
  topic: 'files',
  title: 'Something that the library asks for is missing',
  why: 'Whoever looks for a lesson in a library finds it by what it states: its level, its focus, its minutes, the licence under which it may be passed on. The library says in `library.lesson` what each lesson must state.',
  beside: {
    'library.lesson': `library "Evening lamps"
  requires level licence
`,
  },
  bad: `lesson "Two lamps"
  level 2

progression row
  G | D

section verse
  progression row
`,
  good: `lesson "Two lamps"
  level 2
  licence "CC-BY-4.0"

progression row
  G | D

section verse
  progression row
`,
  *check({ lesson }) {
    const { library, settingSpans } = lesson;
    if (!library || settingSpans.title === undefined) return;
    const missing = library.requires.filter((word) => settingSpans[word] === undefined);
    if (missing.length === 0) return;
    const words = listed(missing.map(quoted));
    yield {
      span: settingSpans.title,
      message: `The library ${quoted(library.title)} asks each lesson to state ${words}; add it below the title.`,
    };
  },
};
