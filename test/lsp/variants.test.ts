/** Findings of variants in an open lesson: the lesson's own come first, and nothing flickers while one writes. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { carriedOver } from '../../server/src/lsp/carried.ts';
import { LanguageClient, MODERN, PULLING } from '../support/language-client.ts';
import type { DocumentDiagnosticReport } from 'vscode-languageserver/node';

const isAbout = (message: unknown): boolean => `${message}`.startsWith('In variant `fast`: ');

const URI = 'file:///lessons/a.lesson';

const LESSON = `key G major

progression quay
  G as 3-2-0-0-0-3 | Am as x-0-2-2-1-0

cell ripple
  each 1/8
  p(bass) i3 m2 a1 m2 i3 a1 m2

section verse
  progression quay
  cell ripple

variant fast
  tempo 320
`;

describe('findings of a variant', () => {
  let client: LanguageClient;
  afterEach(async () => client.stop());
  /** What was published for a version, in the order in which it was sent: how many findings are about the variant. */
  const published = (version: number): number[] =>
    client.published
      .filter((one) => one.version === version)
      .map(({ diagnostics }) => diagnostics.filter(({ message }) => isAbout(message)).length);

  it('come behind those of the lesson itself, and stay where they are while something else is written', async () => {
    ({ client } = await LanguageClient.start(MODERN));
    client.open(URI, LESSON);
    await client.until(() => published(1).length === 2);
    const [first, second] = published(1);
    assert.equal(first, 0);
    assert.ok(second > 0);
    client.change(URI, {
      range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } },
      text: '; quick\n',
    });
    await client.until(() => published(2).length === 2);
    assert.deepEqual(published(2), [second, second]);
    const lines = client.published.map(({ diagnostics }) => diagnostics.at(-1)?.range.start.line);
    assert.equal(lines.at(-1), lines.at(-3)! + 1);
  });

  it('are sent once where a lesson has no variant', async () => {
    ({ client } = await LanguageClient.start(MODERN));
    client.open(URI, LESSON.slice(0, LESSON.indexOf('variant')));
    await client.findings(URI);
    await client.caughtUp();
    assert.equal(client.published.length, 1);
  });

  it('are handed out with all others to a client that asks', async () => {
    ({ client } = await LanguageClient.start(PULLING));
    client.open(URI, LESSON);
    const report = await client.ask<DocumentDiagnosticReport>('textDocument/diagnostic', {
      textDocument: { uri: URI },
    });
    assert.ok(report.kind === 'full' && report.items.some(({ message }) => isAbout(message)));
  });
});

describe('findings carried over a change', () => {
  const { findings } = analyze('progression a\n  Qx | G\n\nsection b\n  progression c\n');
  const at = (before: string, after: string): string[] =>
    carriedOver(findings, before, after).map(({ span }) => after.slice(span.start, span.end));
  const text = 'progression a\n  Qx | G\n\nsection b\n  progression c\n';

  it('keep the words that they are about', () => {
    const all = findings.map(({ span }) => text.slice(span.start, span.end));
    assert.ok(all.includes('Qx') && all.includes('c'));
    assert.deepEqual(at(text, text), all);
    assert.deepEqual(at(text, text.replace('G\n', 'G | D | Em\n')), all);
    assert.deepEqual(at(text, `; above\n${text}`), all);
  });

  it('go where their words are written anew', () => {
    assert.ok(!at(text, text.replace('Qx', 'Qm')).includes('Qm'));
    assert.deepEqual(at(text, 'tempo 60\n'), []);
  });
});
