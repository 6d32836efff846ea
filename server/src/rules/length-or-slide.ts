/** A fraction in a melody that may be meant as a slide. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'length-or-slide',
  severity: 'error',
  topic: 'playing',
  title: 'A length that looks like a slide',
  why: 'In a melody a fraction is the length of the note before it, so a slide stands by itself: `5 /7`. A fraction that has no note before it, or is no length that notes are written in, was probably meant to be one.',
  sure: true,
  bad: `melody landing on 1
  each 1/4
  5/7 8 7
`,
  good: `melody landing on 1
  each 1/4
  5 /7 8 7
`,
  problem: {
    message({ found, behind }) {
      const right = found.replace('/', ' /');
      if (behind === '')
        return `${quoted(found)} has no note before it whose length it could be; a slide is written ${quoted(right)}.`;
      return `${quoted(found)} is read as the length of ${quoted(behind)}, and no note is written so long; a slide is written ${quoted(right)}.`;
    },
    fixes: ({ found }, span) => [replaceWith(span, found.replace('/', ' /'))],
  },
};
