/** A name that is spelt as no name can be. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bad-name',
  severity: 'error',
  topic: 'names',
  title: 'A name with signs in it',
  why: 'A name is a letter followed by letters, digits and hyphens, so that it can stand in any line without being taken for something else. Whatever else a thing should be called belongs in its title, in quotes.',
  bad: `cell ripple_one
  p4 i3 m2 i3
`,
  good: `cell ripple-one
  p4 i3 m2 i3
`,
  problem: {
    message: ({ name }) => `${quoted(name)} will not do as a name: letters, digits and hyphens only.`,
    fixes({ name }, span) {
      const right = name.replace(/[^\p{L}\p{N}-]+/gu, '-').replace(/^[^\p{L}]+|-+$/gu, '');
      return right === '' ? [] : [replaceWith(span, right)];
    },
  },
};
