/** The comment that leaves a finding be: where it is written, and that it silences what it names. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { allowing } from '../../server/src/features/allow.ts';
import { rules } from '../../server/src/rules/findings.ts';
import { exampleLocation, exampleText } from '../../server/src/rules/rule.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { dedented } from '../support/check-features.ts';

/** The lesson with the comment for its first finding of that code; `-` where none is offered. */
function allowed(lesson: string, code: string): string {
  const text = dedented(lesson);
  const analysis = analyze(text);
  const finding = analysis.findings.find((one) => one.code === code);
  assert.ok(finding, `${code} is found among ${analysis.findings.map((one) => one.code).join(', ')}`);
  const fix = allowing(analysis, finding);
  return fix ? applyEdits(text, fix.edits) : '-';
}

const checkAllowed = (lesson: string, code: string, expected: string): void =>
  assert.equal(allowed(lesson, code), dedented(expected));

/** For these the comment would not help: what is silenced is the end of a list, or stands in a line that is no line of the lesson. */
const CANNOT_BE_ALLOWED: readonly string[] = ['too-many-findings'];

describe('a finding that is let be', () => {
  it('is named behind its line', () =>
    checkAllowed(
      `
      tempo 84 bpm
      key G
      `,
      'needless-word',
      `
      tempo 84 bpm ; allow needless-word
      key G
      `,
    ));
  it('joins what is allowed there already', () =>
    checkAllowed(
      '\ntempo 84 bpm ;allow stretch-wide \n',
      'needless-word',
      '\ntempo 84 bpm ;allow stretch-wide needless-word \n',
    ));
  it('stands on the line before, with its indent, where the line has another comment', () =>
    checkAllowed(
      `
      progression quay
        D as x-x-4-0-3-5 ; the rub is meant

      section verse
        progression quay
      `,
      'open-string-clash',
      `
      progression quay
        ; allow open-string-clash
        D as x-x-4-0-3-5 ; the rub is meant

      section verse
        progression quay
      `,
    ));
  it('is no error: an error says that the lesson is not what it claims to be', () =>
    assert.equal(allowed('\nclaim no barre\nkey H major\n', 'unknown-key'), '-'));

  for (const rule of rules) {
    const text = exampleText(rule.bad);
    const analysis = analyze(text, undefined, exampleLocation(rule));
    const finding = analysis.findings.find(({ code }) => code === rule.code)!;
    const fix = allowing(analysis, finding);
    if (!fix || CANNOT_BE_ALLOWED.includes(rule.code)) continue;
    it(`is silent, and nothing else is said: ${rule.code}`, () => {
      const codes = analyze(applyEdits(text, fix.edits), undefined, exampleLocation(rule)).findings.map(
        ({ code }) => code,
      );
      assert.deepEqual(codes, []);
    });
  }
});
