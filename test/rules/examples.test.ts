/** The documented example is the test: each rule's bad lesson has the one finding, its good one has none, and each fix mends it. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { MOST_FINDINGS, rules } from '../../server/src/rules/findings.ts';
import * as registry from '../../server/src/rules/registry.ts';
import { exampleLocation, exampleText } from '../../server/src/rules/rule.ts';
import type { Edit, Finding } from '../../server/src/util/finding.ts';

/** The end of a list can only be shown with a list. */
const NEEDS_MANY = 'too-many-findings';

const apply = (text: string, edits: readonly Edit[]): string =>
  [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((mended, { span, text: words }) => mended.slice(0, span.start) + words + mended.slice(span.end), text);

describe('every rule', () => {
  for (const [key, rule] of Object.entries(registry)) {
    describe(rule.code, () => {
      const bad = exampleText(rule.bad);
      const good = exampleText(rule.good);
      const findingsIn = (text: string): readonly Finding[] => analyze(text, undefined, exampleLocation(rule)).findings;
      const codesIn = (text: string): readonly string[] => findingsIn(text).map((finding) => finding.code);

      it('has its code as its key', () => assert.equal(rule.code, key));

      it('gives exactly one finding, of its code, for its bad example', () => {
        const expected = rule.code === NEEDS_MANY ? [...codesIn(bad).slice(0, MOST_FINDINGS), NEEDS_MANY] : [rule.code];
        assert.deepEqual(codesIn(bad), expected);
        assert.equal(findingsIn(bad).at(-1)!.severity, rule.severity);
      });

      it('gives none for its good example', () => assert.deepEqual(codesIn(good), []));

      it('is cleared by each of its fixes, which leave nothing worse behind', () => {
        for (const { code, fixes } of findingsIn(bad)) {
          if (code !== rule.code) continue;
          for (const fix of fixes) {
            const left = findingsIn(apply(bad, fix.edits)).filter(({ severity }) => severity !== 'hint');
            assert.deepEqual(
              left.map((finding) => `${fix.title} → ${finding.code}: ${finding.message}`),
              [],
            );
          }
        }
      });
    });
  }
});

describe('messages', () => {
  const findings = rules.flatMap((rule) =>
    analyze(exampleText(rule.bad), undefined, exampleLocation(rule)).findings.slice(0, 1),
  );

  it('are one short line that begins with a capital or a word of the lesson, and ends with a full stop or a question mark', () => {
    for (const { code, message } of findings) {
      assert.match(message, /^[A-Z`0-9][^\n]*[.?]$/, code);
      assert.ok(message.length <= 170, `${code}: ${message.length} letters: ${message}`);
    }
  });

  it('use no words of programmers', () => {
    const shown = rules.flatMap((rule) => [rule.title, rule.why, ...findings.map((finding) => finding.message)]);
    for (const words of shown) {
      assert.doesNotMatch(
        words,
        /\b(token|pars\w+|syntax|invalid|undefined|null|array|identifier|exception|index(?! finger)|NaN)\b/i,
      );
    }
  });
});
