/** Inlay hints on the wire: the range that is seen, what is said when a hint is pointed at, and settings. */
import assert from 'node:assert/strict';
import type { InlayHint, MarkupContent } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, type Abilities, type Surroundings } from '../support/language-client.ts';

const FOLDER = 'file:///lessons/';
const URI = `${FOLDER}a.lesson`;
const PARTS = `${FOLDER}parts.lesson`;
const SHAPE = 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n  frets 1 to 12\n';
const MUSIC =
  'contour swell on 1\n  each 1/4\n  from 5: 0 -1 0\nprogression quay\n  G | D\n\nsection verse\n  progression quay\n  shape lamp\n  contour swell\n';
const LESSON = `key G major\nmeter 3/4\n${SHAPE}${MUSIC}`;
const CHORDS = LESSON.split('\n').indexOf('  G | D');
const CALL = LESSON.split('\n').indexOf('  contour swell');

describe('inlay hints on the wire', () => {
  let client: LanguageClient;
  const start = async (abilities: Abilities = MODERN, around: Surroundings = {}): Promise<unknown> => {
    const started = await LanguageClient.start(abilities, { folder: FOLDER, ...around });
    client = started.client;
    return started.introduced.capabilities.inlayHintProvider;
  };
  afterEach(async () => client.stop());

  const hintsIn = (first: number, last: number, uri = URI): Promise<InlayHint[] | null> =>
    client.ask('textDocument/inlayHint', {
      textDocument: { uri },
      range: { start: { line: first, character: 0 }, end: { line: last, character: 0 } },
    });
  const labels = async (first = 0, last = 99): Promise<unknown[] | undefined> =>
    (await hintsIn(first, last))?.map(({ label }) => label);

  it('are offered to clients that take them', async () => {
    assert.equal(await start({}), undefined);
    await client.stop();
    assert.deepEqual(await start({ textDocument: { inlayHint: {} } }), { resolveProvider: false });
    await client.stop();
    assert.deepEqual(await start(), { resolveProvider: true });
  });

  it('are those of the range, behind the words', async () => {
    await start();
    client.open(URI, LESSON);
    const [hint, ...others] = (await hintsIn(CHORDS, CHORDS + 1))!;
    assert.deepEqual(others, []);
    assert.equal(hint.label, 'Dadd11/F# · 11');
    assert.deepEqual(hint.position, { line: CHORDS, character: '  G | D'.length });
    assert.equal(hint.paddingLeft, true);
    assert.deepEqual(await labels(CALL, CALL + 1), ['10 8 10 | 5 3 5']);
  });

  it('tell the intervals when they are pointed at, or at once where the client does not ask', async () => {
    const told = /\*\*D\*\* sounds \*\*Dadd11\/F#\*\*[^]*\| 3 \| 0 \| G3 \| eleventh \|/;
    await start();
    client.open(URI, LESSON);
    const [hint] = (await hintsIn(CHORDS, CHORDS + 1))!;
    assert.equal(hint.tooltip, undefined);
    assert.match(((await client.ask<InlayHint>('inlayHint/resolve', hint)).tooltip as MarkupContent).value, told);
    client.type(URI, 0, 0, '; first\n');
    await assert.rejects(client.ask('inlayHint/resolve', hint), { code: -32801 });
    client.close(URI);
    assert.deepEqual(await client.ask('inlayHint/resolve', hint), hint);
    await client.stop();

    await start({ ...MODERN, textDocument: { ...MODERN.textDocument, inlayHint: {} } });
    client.open(URI, LESSON);
    assert.match(((await hintsIn(CHORDS, CHORDS + 1))![0].tooltip as MarkupContent).value, told);
  });

  it('of each kind can be turned off by a client that sends its settings', async () => {
    await start(MODERN, { options: { stringcourse: { inlayHints: { contourFrets: false } } } });
    client.open(URI, LESSON);
    assert.deepEqual(await labels(), ['Dadd11/F# · 11']);
    const settings = { stringcourse: { inlayHints: { soundingNames: false } } };
    client.send('workspace/didChangeConfiguration', { settings });
    assert.deepEqual(await labels(), ['10 8 10 | 5 3 5']);
  });

  it('of each kind can be turned off for a lesson by a client that can be asked, which is told to ask again', async () => {
    const set: Record<string, unknown> = { [URI]: { inlayHints: { soundingNames: false } } };
    const asked: string[] = [];
    await start({
      ...MODERN,
      workspace: {
        ...MODERN.workspace,
        configuration: true,
        didChangeConfiguration: { dynamicRegistration: true },
        inlayHint: { refreshSupport: true },
      },
    });
    const { connection } = client;
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('workspace/configuration', ({ items }: { items: { scopeUri: string }[] }) => {
      asked.push(...items.map(({ scopeUri }) => scopeUri));
      return items.map(({ scopeUri }) => set[scopeUri] ?? null);
    });
    const refresh = new Promise<void>((resolve) => {
      connection.onRequest('workspace/inlayHint/refresh', () => {
        resolve();
        return null;
      });
    });
    client.open(URI, LESSON);
    assert.deepEqual(await labels(), ['10 8 10 | 5 3 5']);
    set[URI] = { inlayHints: { contourFrets: false } };
    client.send('workspace/didChangeConfiguration', { settings: null });
    await refresh;
    assert.deepEqual(await labels(), ['Dadd11/F# · 11']);
    assert.ok(asked.every((uri) => uri === URI));
  });

  it('wait for the files that the lesson speaks of', async () => {
    await start(MODERN, { files: { [PARTS]: SHAPE } });
    client.open(URI, `use "parts.lesson"\nkey G major\nmeter 3/4\n${MUSIC}`);
    assert.deepEqual(await labels(), ['Dadd11/F# · 11', '10 8 10 | 5 3 5']);
  });
});
