/** A shape whose tones are not as many as its strings. */
import type { Rule } from './rule.ts';
import { counted } from './shared/words.ts';

export const rule: Rule = {
  code: 'tones-miscounted',
  severity: 'error',
  topic: 'shapes',
  title: 'Tones that do not match the strings',
  why: 'The tones of a shape stand in the order of its strings, one for each. With one too few or too many nobody can know which belongs to which; `any` leaves a string free.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5
`,
  problem: {
    message: ({ tones, strings }) =>
      `${counted(Number(tones), 'tone')} for ${counted(Number(strings), 'string')}: write one for each, or \`any\` where it is free.`,
  },
};
