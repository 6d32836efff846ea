/** Code lenses on the wire: what a client that has the commands is offered, and how uses are counted over the workspace. */
import assert from 'node:assert/strict';
import type { CodeLens, Location } from 'vscode-languageserver/node';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const PARTS = `${FOLDER}/parts.lesson`;
const MONDAY = `${FOLDER}/week/monday.lesson`;
const TUESDAY = `${FOLDER}/week/tuesday.lesson`;

const FILES: Record<string, string> = {
  [PARTS]: 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n\nprogression row\n  G as lamp | D\n',
  [MONDAY]: 'use lamp, row from "../parts.lesson"\n\nsection verse\n  progression row\n  shape lamp\n',
  [TUESDAY]: 'use "../parts.lesson"\n\nsection verse\n  progression row\n  shape lamp\n',
};
const COMMANDS = ['stringcourse.openPreview', 'stringcourse.play', 'stringcourse.showReferences'];

describe('code lenses on the wire', () => {
  let client: LanguageClient;
  const start = async (commands: readonly string[] = COMMANDS): Promise<unknown> => {
    const started = await LanguageClient.start(
      { ...MODERN, workspace: { ...MODERN.workspace, codeLens: { refreshSupport: true } } },
      { folder: FOLDER, files: { ...FILES }, options: { commands }, later: (callback) => callback() },
    );
    client = started.client;
    client.connection.onRequest('workspace/codeLens/refresh', () => void refreshed++);
    return started.introduced.capabilities.codeLensProvider;
  };
  let refreshed = 0;
  afterEach(async () => client.stop());

  const lensesOf = (uri: string): Promise<CodeLens[]> =>
    client.ask<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
  const counted = async (uri: string): Promise<readonly string[]> =>
    Promise.all(
      (await lensesOf(uri)).map(async (lens) => {
        const { command, range } = lens.command ? lens : await client.ask<CodeLens>('codeLens/resolve', lens);
        return `${range.start.line}: ${command?.title}`;
      }),
    );

  it('are offered with the commands that the client has, and not at all where it has none', async () => {
    assert.deepEqual(await start(), { resolveProvider: true });
    client.open(MONDAY, FILES[MONDAY]);
    const [play, preview] = await lensesOf(MONDAY);
    const place = { uri: MONDAY, section: 'verse', line: 0, character: 10 };
    assert.deepEqual(play.command, { title: 'Play', command: 'stringcourse.play', arguments: [place] });
    assert.deepEqual(preview.command, { title: 'Preview', command: 'stringcourse.openPreview', arguments: [place] });
    await client.stop();
    assert.deepEqual(await start(['stringcourse.play']), { resolveProvider: true });
    client.open(MONDAY, FILES[MONDAY]);
    client.open(PARTS, FILES[PARTS]);
    assert.deepEqual(await counted(MONDAY), ['2: Play']);
    assert.deepEqual(await counted(PARTS), []);
    await client.stop();
    assert.equal(await start([]), undefined);
  });

  it('are not there for a teacher who does not want them', async () => {
    await start();
    client.open(MONDAY, FILES[MONDAY]);
    client.send('workspace/didChangeConfiguration', { settings: { stringcourse: { codeLens: false } } });
    assert.deepEqual(await lensesOf(MONDAY), []);
    client.send('workspace/didChangeConfiguration', { settings: { stringcourse: {} } });
    assert.equal((await lensesOf(MONDAY)).length, 2);
  });

  it('count the uses in every file, and show where they are', async () => {
    await start();
    client.open(PARTS, FILES[PARTS]);
    assert.deepEqual(await counted(PARTS), ['0: 4 uses', '4: 3 uses']);
    const lens = await client.ask<CodeLens>('codeLens/resolve', (await lensesOf(PARTS))[0]);
    assert.equal(lens.command?.command, 'stringcourse.showReferences');
    const [uri, position, locations] = lens.command!.arguments as [string, unknown, Location[]];
    assert.equal(uri, PARTS);
    assert.deepEqual(position, { line: 0, character: 6 });
    assert.deepEqual(
      locations.map((one) => `${one.uri.slice(FOLDER.length + 1)}:${one.range.start.line}`),
      ['parts.lesson:5', 'week/monday.lesson:0', 'week/monday.lesson:4', 'week/tuesday.lesson:4'],
    );
  });

  it('are counted anew when another file begins to use what stands here', async () => {
    await start();
    client.open(PARTS, FILES[PARTS]);
    assert.deepEqual(await counted(PARTS), ['0: 4 uses', '4: 3 uses']);
    client.open(TUESDAY, FILES[TUESDAY]);
    await client.caughtUp();
    refreshed = 0;
    client.change(TUESDAY, { text: '; Nothing.\n' });
    await client.caughtUp();
    assert.equal(refreshed, 1);
    assert.deepEqual(await counted(PARTS), ['0: 3 uses', '4: 2 uses']);
  });

  it('whose name is gone meanwhile count nothing', async () => {
    await start();
    client.open(PARTS, FILES[PARTS]);
    const [lens] = await lensesOf(PARTS);
    client.change(PARTS, { text: '' });
    const resolved = await client.ask<CodeLens>('codeLens/resolve', lens);
    assert.equal(resolved.command?.title, 'no uses');
  });
});
