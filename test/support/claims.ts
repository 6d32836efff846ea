/** Claims as sentences in and answers out, for lessons that a test writes in a few lines. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { judge, trueClaims, whyTrue } from '../../server/src/truth/claims/index.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { dedented } from './check-features.ts';

/** A lesson with one claim behind it: `true`, or what is said instead, with the bar that breaks it and the claim as mended. */
export class ClaimedLesson {
  private readonly lesson: string;

  constructor(lesson: string) {
    this.lesson = dedented(lesson).trimEnd();
  }

  /** `true`, `false: …` or `undecided: …`. */
  answer(claim: string): string {
    const { lesson, score } = this.analyse(claim);
    const [read] = lesson.claims;
    assert.ok(read, `the claim is read: ${claim}`);
    const judgement = judge(read, lesson, score);
    if (judgement.holds === undefined) return `undecided: ${judgement.undecided}`;
    return judgement.holds ? 'true' : `false: ${judgement.truth}`;
  }

  why(claim: string): string {
    const { lesson, score } = this.analyse(claim);
    return whyTrue(lesson.claims[0], lesson, score);
  }

  /** The message of the claim's finding, and the words of the chord that its related place points to. */
  finding(claim: string): { readonly message: string; readonly points: string } {
    const { findings, text } = this.analyse(claim);
    const found = findings.find(({ code }) => code.includes('claim'));
    assert.ok(found, `there is a finding: ${claim}`);
    const [related] = found.related;
    return { message: found.message, points: related ? text.slice(related.span.start, related.span.end) : '' };
  }

  /** The claim after its fix, which must leave no finding about claims behind. */
  mended(claim: string): string {
    const { findings, text } = this.analyse(claim);
    const [fix] = findings.flatMap(({ code, fixes }) => (code.includes('claim') ? fixes : []));
    if (!fix) return 'no fix';
    const mended = applyEdits(text, fix.edits);
    const left = analyze(mended).findings.filter(({ code }) => code.includes('claim'));
    assert.deepEqual(
      left.map(({ message }) => message),
      [],
    );
    return mended.slice(mended.lastIndexOf('claim ') + 'claim '.length).trimEnd();
  }

  truths(): readonly string[] {
    const { lesson, score } = analyze(this.lesson);
    return trueClaims(lesson, score).map(({ text }) => text);
  }

  private analyse(claim: string): ReturnType<typeof analyze> {
    return analyze(`${this.lesson}\n\nclaim ${claim}\n`);
  }
}
