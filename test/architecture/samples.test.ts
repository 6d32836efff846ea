import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { Session, analyze, type Analysis } from '../../server/src/analyze.ts';
import { plain, useAll } from '../support/use-all.ts';

const samples = readdirSync('samples', { recursive: true })
  .map((name) => `samples/${String(name).replaceAll('\\', '/')}`)
  .filter((name) => name.endsWith('.lesson'))
  .sort()
  .map((name) => ({ name, text: readFileSync(name, 'utf8') }));

const findingsOf = (text: string, session: Session): unknown => analyze(text, session).findings;

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
