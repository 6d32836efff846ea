/** What a hover says of a claim: whether it is true, and why or what is true instead. */
import type { Analysis } from '../analyze.ts';
import { judge, whyTrue } from '../truth/claims/index.ts';
import { covers, type Span } from '../util/span.ts';
import { line, strong, type Block } from './page.ts';

export interface ClaimHere {
  readonly span: Span;
  readonly page: Block[];
}

/** The claim whose words or keyword lie at an offset; undefined where there is none that can be read. */
export function claimAt({ lesson, score, text }: Analysis, offset: number): ClaimHere | undefined {
  const claim = lesson.claims.find(({ span }) => covers({ start: lineStart(text, span.start), end: span.end }, offset));
  if (!claim) return undefined;
  const judgement = judge(claim, lesson, score);
  if (judgement.holds === undefined)
    return { span: claim.span, page: [line(strong('Not decided'), `: ${judgement.undecided}.`)] };
  if (!judgement.holds) return { span: claim.span, page: [line(strong('Not true'), `: ${judgement.truth}.`)] };
  return { span: claim.span, page: [line(strong('True'), '. ', whyTrue(claim, lesson, score))] };
}

const lineStart = (text: string, offset: number): number => text.lastIndexOf('\n', offset - 1) + 1;
