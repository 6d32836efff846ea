import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { Session, analyze, type Analysis } from '../../server/src/analyze.ts';
import { drawSheet } from '../../server/src/draw/sheet.ts';
import { svgOf } from '../../server/src/draw/svg.ts';
import { textTab } from '../../server/src/draw/text-tab.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { MOST_FINDINGS } from '../../server/src/rules/findings.ts';
import { losses } from '../support/format-losses.ts';

const samples = readdirSync('samples', { recursive: true })
  .map((name) => `samples/${String(name).replaceAll('\\', '/')}`)
  .filter((name) => name.endsWith('.lesson'))
  .sort()
  .map((name) => ({ name, text: readFileSync(name, 'utf8') }));

const WIDTH = 800;

/** Everything that an open lesson is asked for; what any of it throws fails the test. */
function useAll(text: string, session: Session): Analysis {
  const analysis = analyze(text, session);
  checkFindings(analysis);
  textTab(analysis.lesson, analysis.score, analysis.findings);
  svgOf(drawSheet(analysis.lesson, analysis.score, analysis.findings, WIDTH));
  const formatted = formatText(text);
  assert.equal(formatText(formatted), formatted);
  assert.deepEqual(losses(text, formatted), []);
  return analysis;
}

/** Findings lie inside their text, in its order, each once, and are never too many. */
function checkFindings({ text, findings }: Analysis): void {
  assert.ok(findings.length <= MOST_FINDINGS + 1);
  let before = 0;
  for (const { span, related, fixes } of findings) {
    assert.ok(span.start >= before, 'in the order of the text');
    before = span.start;
    for (const place of [
      span,
      ...related.map((one) => one.span),
      ...fixes.flatMap((fix) => fix.edits.map((one) => one.span)),
    ])
      assert.ok(place.start >= 0 && place.start <= place.end && place.end <= text.length, JSON.stringify(place));
  }
  const said = findings.map(({ code, span, message }) => `${code} ${span.start} ${span.end} ${message}`);
  assert.deepEqual(said, [...new Set(said)]);
}

const findingsOf = (text: string, session: Session): unknown => analyze(text, session).findings;

/** The data alone, for comparing. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('every sample', () => {
  for (const { name, text } of samples) {
    describe(name, function () {
      this.timeout(60_000);

      it('opens clean, and its first line says what it teaches', () => {
        assert.match(text, /^; [A-Z].*\.\n/);
        const { findings } = useAll(text, new Session());
        const wrong = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
        assert.deepEqual(
          wrong.map(({ code, message }) => `${code}: ${message}`),
          [],
        );
      });
      it('can be used after every word of it', () => {
        const session = new Session();
        for (const { index } of text.matchAll(/(?<=\S)(?=\s)/g)) useAll(text.slice(0, index), session);
      });
      it('can be used without any one of its lines', () => {
        const session = new Session();
        const lines = text.split('\n');
        for (let left = 0; left < lines.length; left++) useAll(lines.filter((_, i) => i !== left).join('\n'), session);
      });
      it('means the same after every edit as from a cold start', () => {
        const session = new Session();
        for (const { index } of text.matchAll(/(?<=\S)(?=\n)/g)) findingsOf(text.slice(0, index), session);
        const warm = analyze(text, session);
        const cold = analyze(text);
        assert.deepEqual(plain(warm.findings), plain(cold.findings));
        assert.deepEqual(plain(warm.lesson), plain(cold.lesson));
        assert.deepEqual(plain(warm.score), plain(cold.score));
      });
      it('means the same with other line ends', () => {
        const said = (one: Analysis): unknown => one.findings.map(({ code, message }) => [code, message]);
        const windows = analyze(text.replaceAll('\n', '\r\n'));
        assert.deepEqual(said(windows), said(analyze(text)));
        assert.deepEqual(windows.score, analyze(text).score);
      });
    });
  }
});
