import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { Session, analyze, type Analysis } from '../../server/src/analyze.ts';
import { locationOf } from '../../server/src/cli/files.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { assertAlike, use, useAll } from '../support/use-all.ts';

const samples = readdirSync('samples', { recursive: true })
  .map((name) => `samples/${String(name).replaceAll('\\', '/')}`)
  .filter((name) => name.endsWith('.lesson'))
  .sort()
  .map((name) => ({ name, text: readFileSync(name, 'utf8'), location: locationOf(name) }));

/**
 * Places of a text that are tried, evenly over the whole: a few in the quick suite, more in the slow one. A tab has thousands of
 * words, all much alike.
 */
const MOST_TRIED = process.env.FUZZ_RUNS === undefined ? 2 : 60;

function someOf<T>(all: Iterable<T>): readonly T[] {
  const items = [...all];
  const step = Math.max(1, items.length / MOST_TRIED);
  return Array.from({ length: Math.min(items.length, MOST_TRIED) }, (_, i) => items[Math.floor(i * step)]);
}

const ends = (text: string, pattern: RegExp): readonly number[] =>
  someOf([...text.matchAll(pattern)].map(({ index }) => index));

describe('every sample', () => {
  for (const { name, text, location } of samples) {
    describe(name, function () {
      this.timeout(60_000);
      // What many tests look at is worked out once; that a session changes nothing is one of them.
      const session = new Session();
      let cold: Analysis;
      before(() => {
        cold = analyze(text, session, location);
      });

      it('opens clean, with its variants, and its first line says what it teaches', () => {
        assert.match(text, /^; [A-Z].*\.\n/);
        const { findings } = cold;
        use(cold);
        const wrong = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
        assert.deepEqual(
          wrong.map(({ code, message }) => `${code}: ${message}`),
          [],
        );
      });
      it('can be used after its words', () => {
        for (const end of ends(text, /(?<=\S)(?=\s)/g)) useAll(text.slice(0, end), session, location);
      });
      it('can be used without any one of its lines', () => {
        const lines = text.split('\n');
        for (const left of someOf(lines.keys()))
          useAll(lines.filter((_, i) => i !== left).join('\n'), session, location);
      });
      it('means the same after every edit as from a cold start', () => {
        const edited = new Session();
        for (const end of ends(text, /(?<=\S)(?=\n)/g)) void analyze(text.slice(0, end), edited, location).findings;
        const warm = analyze(text, edited, location);
        for (const part of ['findings', 'lesson', 'score'] as const) assertAlike(warm[part], cold[part]);
      });
      it('means the same with other line ends', () => {
        const said = (one: Analysis): unknown => one.findings.map(({ code, message }) => [code, message]);
        const windows = analyze(text.replaceAll('\n', '\r\n'), session, location);
        assert.deepEqual(said(windows), said(cold));
        assert.deepEqual(windows.score, cold.score);
      });
    });
  }
});

describe('the samples together', () => {
  it('show every statement, and every line that may stand under it', () => {
    const shown = new Set<string>();
    for (const { text } of samples) {
      for (const { tree } of readDocument(text).statements) {
        shown.add(`${tree.keyword}`);
        for (const { form } of tree.body) shown.add(`${tree.keyword}: ${form}`);
      }
    }
    const all = statements.flatMap(({ keyword, body }) => [
      keyword,
      ...body.map(({ label }) => `${keyword}: ${label}`),
    ]);
    assert.deepEqual(
      all.filter((one) => !shown.has(one)),
      [],
    );
  });
  it('claim something of every kind', () => {
    const claimed = new Set(
      samples.flatMap(({ text, location }) =>
        analyze(text, new Session(), location).lesson.claims.map(({ says }) => says.kind),
      ),
    );
    assert.deepEqual([...claimed].sort(), [
      'adds',
      'common tone',
      'frets',
      'is',
      'melody notes',
      'melody starts',
      'no barre',
      'open',
      'playable',
      'reach',
      'same contour',
      'scale',
      'thumb alternates',
      'tones',
    ]);
  });
});
