/** Symbols over the whole library, as a client looks for them. */
import assert from 'node:assert/strict';
import type { SymbolInformation, WorkspaceSymbol } from 'vscode-languageserver/node';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const LAMPS = 'file:///lessons/lamps.lesson';
const PARTS = 'file:///shared/parts.lesson';

const FILES: Record<string, string> = {
  [LAMPS]: 'lesson "Harbour lamps"\n\nprogression quay\n  G | D\n\nsection verse "The quay"\n  progression quay\n',
  [PARTS]: 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n\nprogression quays\n  G\n',
};
const LAZY = {
  ...MODERN,
  workspace: { ...MODERN.workspace, symbol: { resolveSupport: { properties: ['location.range'] } } },
};

describe('symbols of the workspace', () => {
  let client: LanguageClient;
  const start = async (abilities = MODERN): Promise<void> => {
    const folders = ['file:///lessons', 'file:///shared'];
    ({ client } = await LanguageClient.start(abilities, { folders, files: { ...FILES } }));
  };
  afterEach(async () => client.stop());

  const look = (query: string): Promise<SymbolInformation[]> => client.ask('workspace/symbol', { query });
  const found = async (query: string): Promise<readonly string[]> =>
    (await look(query)).map(
      ({ name, containerName, location: { uri, range } }) =>
        `${name} (${containerName}) ${uri.slice(8)}:${range.start.line}:${range.start.character}`,
    );

  it('are found in every folder, open or not, the nearest first', async () => {
    await start();
    assert.deepEqual(await found('quay'), [
      'quay (Harbour lamps) lessons/lamps.lesson:2:12',
      'quays (parts.lesson) shared/parts.lesson:4:12',
      'verse "The quay" (Harbour lamps) lessons/lamps.lesson:5:8',
    ]);
    assert.deepEqual(await found('lamp'), [
      'lamp (parts.lesson) shared/parts.lesson:0:6',
      'Harbour lamps (lamps.lesson) lessons/lamps.lesson:0:7',
    ]);
    assert.deepEqual(await found('nothing of it'), []);
  });

  it('are those of the text as it stands in the editor, before what is saved', async () => {
    await start();
    client.open(PARTS, '; Written anew.\nshape quay\n');
    assert.deepEqual(await found('quay'), [
      'quay (parts.lesson) shared/parts.lesson:1:6',
      'quay (Harbour lamps) lessons/lamps.lesson:2:12',
      'verse "The quay" (Harbour lamps) lessons/lamps.lesson:5:8',
    ]);
    client.change(PARTS, { text: 'shape pier\n' });
    assert.deepEqual((await found('quay')).length, 2);
    client.close(PARTS);
    assert.deepEqual((await found('quay')).length, 3);
  });

  it('are not taken from an old version that is shown beside a lesson, but from untitled texts', async () => {
    await start();
    client.open('git:/lessons/lamps.lesson?HEAD', 'shape quay\n');
    client.open('untitled:Untitled-1', 'shape quayside\n');
    assert.deepEqual(
      (await look('quay')).map(({ name }) => name),
      ['quay', 'quayside', 'quays', 'verse "The quay"'],
    );
  });

  it('get their ranges when they are chosen, where the client asks for them then', async () => {
    await start(LAZY);
    const [symbol] = await client.ask<WorkspaceSymbol[]>('workspace/symbol', { query: 'quay' });
    assert.deepEqual(symbol.location, { uri: LAMPS });
    const resolve = async (): Promise<unknown> =>
      (await client.ask<WorkspaceSymbol>('workspaceSymbol/resolve', symbol)).location;
    assert.deepEqual(await resolve(), {
      uri: LAMPS,
      range: { start: { line: 2, character: 12 }, end: { line: 2, character: 16 } },
    });
    client.open(LAMPS, 'cell ripple\n  p4 i3\n\nprogression quay\n');
    assert.deepEqual(await resolve(), {
      uri: LAMPS,
      range: { start: { line: 3, character: 12 }, end: { line: 3, character: 16 } },
    });
  });

  it('are not more than anybody reads', async () => {
    await start();
    client.open('untitled:Untitled-1', Array.from({ length: 300 }, (_, i) => `shape lamp-${i}\n`).join(''));
    assert.equal((await look('')).length, 200);
  });
});
