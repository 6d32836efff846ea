/** What a hover says of a claim: whether it is true, and why or what is true instead. */
import type { Analysis } from '../analyze.ts';
import { judge, whyTrue } from '../truth/claims/index.ts';
import { covers, type Span } from '../util/span.ts';
import { line, strong, type Block } from './page.ts';

export interface ClaimHere {
  readonly span: Span;
  readonly page: Block[];
}

/** The claim on whose line an offset lies, at or before its last word; undefined where there is none that can be read. */
export function claimAt(analysis: Analysis, offset: number): ClaimHere | undefined {
  // A variant's own claims speak of the lesson that it makes.
  const variant = analysis.variants.find(({ definition }) => covers(definition.whole, offset));
  const { lesson, score, text } = variant ?? analysis;
  const claim = lesson.claims.find(({ span }) => covers({ start: lineStart(text, span.start), end: span.end }, offset));
  if (!claim) return undefined;
  const judgement = judge(claim, lesson, score);
  if (judgement.holds === undefined)
    return { span: claim.span, page: [line(strong('Not decided'), `: ${judgement.undecided}.`)] };
  if (!judgement.holds) return { span: claim.span, page: [line(strong('Not true'), `: ${judgement.truth}.`)] };
  return { span: claim.span, page: [line(strong('True'), '. ', whyTrue(claim, lesson, score))] };
}

const lineStart = (text: string, offset: number): number => text.lastIndexOf('\n', offset - 1) + 1;
