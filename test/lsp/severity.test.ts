/** How much a finding weighs, as a teacher has set it: for clients that ask for findings, and for those that are sent them. */
import assert from 'node:assert/strict';
import {
  DiagnosticSeverity,
  type CodeAction,
  type Diagnostic,
  type FullDocumentDiagnosticReport,
} from 'vscode-languageserver/node';
import { rules } from '../../server/src/rules/findings.ts';
import { readSettings } from '../../server/src/lsp/settings.ts';
import { WATCH_PREVIEW, type PreviewUpdate } from '../../server/src/protocol.ts';
import { LanguageClient, MODERN, PULLING, type Abilities } from '../support/language-client.ts';

const URI = 'file:///lessons/a.lesson';
const OTHER = 'file:///others/b.lesson';
const SLIP = 'tempo 84 bpm\n';

const weighing = (severity: Record<string, unknown>): unknown => ({ severity });
const told = (diagnostics: readonly Diagnostic[]): unknown[] =>
  diagnostics.map(({ code, severity }) => [code, severity]);

describe('the weight of a finding', () => {
  let client: LanguageClient;
  /** The settings that the client answers with, by the start of an address. */
  let settings: Record<string, unknown>;
  const start = async (abilities: Abilities): Promise<void> => {
    settings = {};
    ({ client } = await LanguageClient.start(abilities));
    client.connection.onRequest('workspace/configuration', ({ items }: { items: { scopeUri: string }[] }) =>
      items.map(
        ({ scopeUri }) => Object.entries(settings).find(([folder]) => scopeUri.startsWith(folder))?.[1] ?? null,
      ),
    );
  };
  afterEach(() => client.stop());

  const asking = (abilities: Abilities): Abilities => ({
    ...abilities,
    workspace: { ...abilities.workspace, configuration: true, diagnostics: { refreshSupport: true } },
  });
  const pulled = async (uri: string): Promise<unknown[]> => {
    const report = await client.ask<FullDocumentDiagnosticReport>('textDocument/diagnostic', { textDocument: { uri } });
    return told(report.items);
  };

  it('is what its rule says where nothing is set', async () => {
    await start(asking(PULLING));
    client.open(URI, SLIP);
    assert.deepEqual(await pulled(URI), [['needless-word', DiagnosticSeverity.Warning]]);
  });
  it('is set folder by folder', async () => {
    await start(asking(PULLING));
    settings['file:///lessons'] = weighing({ 'needless-word': 'error' });
    settings['file:///others'] = weighing({ 'needless-word': 'off' });
    client.open(URI, SLIP);
    client.open(OTHER, SLIP);
    assert.deepEqual(await pulled(URI), [['needless-word', DiagnosticSeverity.Error]]);
    assert.deepEqual(await pulled(OTHER), []);
  });
  it('is asked for again when it is set otherwise', async () => {
    await start(asking(PULLING));
    let refreshed: () => void;
    const refresh = new Promise<void>((done) => (refreshed = done));
    client.connection.onRequest('workspace/diagnostic/refresh', () => refreshed());
    client.open(URI, SLIP);
    await pulled(URI);
    settings['file:///lessons'] = weighing({ 'needless-word': 'information' });
    client.send('workspace/didChangeConfiguration', { settings: null });
    await refresh;
    assert.deepEqual(await pulled(URI), [['needless-word', DiagnosticSeverity.Information]]);
  });
  it('is told again to a client that is sent its findings and its settings', async () => {
    await start(MODERN);
    client.open(URI, SLIP);
    assert.deepEqual(told(await client.findings(URI)), [['needless-word', DiagnosticSeverity.Warning]]);
    client.published.length = 0;
    client.send('workspace/didChangeConfiguration', {
      settings: { stringcourse: weighing({ 'needless-word': 'hint' }) },
    });
    assert.deepEqual(told(await client.findings(URI)), [['needless-word', DiagnosticSeverity.Hint]]);
  });
  it('is what the preview counts, from the moment that it is set', async () => {
    await start(MODERN);
    client.open(URI, SLIP);
    const counted = ({ facts }: PreviewUpdate): unknown => facts.find(({ kind }) => kind === 'findings')?.text;
    const shown = await client.ask<PreviewUpdate>(WATCH_PREVIEW, { uri: URI, width: 600 });
    assert.equal(counted(shown), 'one warning');
    client.previews.length = 0;
    client.send('workspace/didChangeConfiguration', { settings: weighing({ 'needless-word': 'off' }) });
    assert.equal(counted(await client.preview(URI, 1)), 'no findings');
  });
  it('takes the fixes along where it is off', async () => {
    await start(asking(MODERN));
    const fixes = async (): Promise<string[]> => {
      const range = { start: { line: 0, character: 10 }, end: { line: 0, character: 10 } };
      const params = { textDocument: { uri: URI }, range, context: { diagnostics: [], only: ['quickfix'] } };
      return (await client.ask<CodeAction[]>('textDocument/codeAction', params)).map(({ title }) => title);
    };
    client.open(URI, SLIP);
    await client.findings(URI);
    assert.deepEqual(await fixes(), ['Delete `bpm`', 'Allow `needless-word` here']);
    settings['file:///lessons'] = weighing({ 'needless-word': 'off' });
    client.published.length = 0;
    client.send('workspace/didChangeConfiguration', { settings: null });
    await client.findings(URI);
    assert.deepEqual(await fixes(), []);
  });
});

describe('weights that are set', () => {
  it('are left out where they are none', () => {
    for (const severity of [null, 3, 'off', ['off'], { 'needless-word': 'loud' }, { 'needless-word': 4 }])
      assert.deepEqual(readSettings({ severity }).severity, {});
    assert.ok(rules.every(({ code }) => !(code in {})));
  });
});
