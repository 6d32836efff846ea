/** A claim that cannot be checked: nothing in the lesson is what it speaks of, or another mistake stands in the way. */
import type { Found, Rule } from './rule.ts';
import { judgedClaims } from './shared/claims.ts';

export const rule: Rule = {
  code: 'claim-undecided',
  severity: 'warning',
  topic: 'claims',
  title: 'A claim that nothing decides',
  why: 'A claim about the melody of a section that has none is neither true nor false, and nobody would notice when it becomes either. Write what it speaks of, or take it out. Where only another mistake stands in the way, it is a hint: mend that first, and the claim is checked.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R 5

progression quay
  G | D

section verse
  progression quay
  shape lamp

claim melody starts on 5
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5

progression quay
  G | D

contour swell on 1
  each 1/4
  from 5: 0

section verse
  progression quay
  shape lamp
  contour swell

claim melody starts on 5
`,
  check: (context) =>
    judgedClaims(context).flatMap(({ claim, judgement }): readonly Found[] => {
      if (judgement.holds !== undefined) return [];
      const { undecided, nothing } = judgement;
      const message = nothing
        ? `Nothing shows whether this is true: ${undecided}; write it, or take the claim out.`
        : `This cannot be checked yet: ${undecided}.`;
      return [{ span: claim.span, message, ...(!nothing && { severity: 'hint' }) }];
    }),
};
