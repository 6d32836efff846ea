/** The lesson's claims with what came of looking whether they hold: two rules speak of them, and each is judged once. */
import type { Claim } from '../../lesson/claims.ts';
import { judge, type Judgement } from '../../truth/claims/index.ts';
import type { Context } from '../rule.ts';

export interface JudgedClaim {
  readonly claim: Claim;
  readonly judgement: Judgement;
}

const known = new WeakMap<Context, readonly JudgedClaim[]>();

export function judgedClaims(context: Context): readonly JudgedClaim[] {
  let judged = known.get(context);
  if (!judged) {
    const { lesson, score } = context;
    judged = lesson.claims.map((claim) => ({ claim, judgement: judge(claim, lesson, score) }));
    known.set(context, judged);
  }
  return judged;
}
