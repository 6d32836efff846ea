/** Lessons that use one another, as an editor meets them: files on disk, files that are open, and files that change. */
import assert from 'node:assert/strict';
import type { DefinitionLink, Diagnostic } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, PULLING, type Surroundings } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const LESSON = `${FOLDER}/week/monday.lesson`;
const PARTS = `${FOLDER}/parts.lesson`;

const USING = `use row from "../parts.lesson"

section verse
  progression row
`;
const ROW = 'progression row\n  G | D\n';

describe('the language server among files', () => {
  let client: LanguageClient;
  const start = async (surroundings: Surroundings, abilities = MODERN): Promise<LanguageClient> => {
    ({ client } = await LanguageClient.start(abilities, surroundings));
    return client;
  };
  afterEach(async () => client.stop());

  const last = (): readonly string[] => {
    const published = client.published.filter(({ uri }) => uri === LESSON);
    return (published.at(-1)?.diagnostics ?? [{ code: 'nothing yet' } as Diagnostic]).map(({ code }) => `${code}`);
  };
  const told = (...codes: string[]): Promise<void> =>
    client.until(() => JSON.stringify(last()) === JSON.stringify(codes));

  it('reads what a lesson uses from disk, and says where it is missing', async () => {
    await start({ folder: FOLDER, files: { [PARTS]: ROW } });
    client.open(LESSON, USING);
    await told();
    client.close(LESSON);
    client.open(LESSON, USING.replace('parts', 'partes'));
    await told('file-missing');
  });

  it('looks at a lesson again when a file that it uses is edited, saved, or deleted', async () => {
    const files: Record<string, string> = { [PARTS]: ROW };
    await start({ folder: FOLDER, files });
    client.open(LESSON, USING);
    await told();
    client.open(PARTS, ROW.replace('row', 'rows'));
    await told('part-not-in-file');
    client.close(PARTS);
    await told();
    delete files[PARTS];
    client.send('workspace/didChangeWatchedFiles', { changes: [{ uri: PARTS, type: 3 }] });
    await told('file-missing');
    files[PARTS] = ROW;
    client.send('workspace/didChangeWatchedFiles', { changes: [{ uri: PARTS, type: 1 }] });
    await told();
  });

  it('draws the preview again too', async () => {
    const files: Record<string, string> = { [PARTS]: ROW };
    await start({ folder: FOLDER, files });
    client.open(LESSON, USING);
    await told();
    await client.ask('stringcourse/watchPreview', { uri: LESSON, width: 700 });
    files[PARTS] = 'progression row\n  A | E\n';
    client.send('workspace/didChangeWatchedFiles', { changes: [{ uri: PARTS, type: 2 }] });
    await client.until(() =>
      client.previews.some(({ uri, blocks }) => uri === LESSON && blocks.some((one) => one.content?.includes('>A<'))),
    );
  });

  it('looks no farther than the library that a lesson lies in, and asks of it what the library asks', async () => {
    const library = `${FOLDER}/week/library.lesson`;
    await start({ folder: FOLDER, files: { [PARTS]: ROW, [library]: 'library "Lamps"\n  requires level\n' } });
    client.open(LESSON, `lesson "Monday"\n\n${USING}`);
    await told('library-requirement', 'path-outside');
  });

  it('never looks outside the workspace', async () => {
    await start({ folder: `${FOLDER}/week`, files: { [PARTS]: ROW } });
    client.open(LESSON, USING);
    await told('path-outside');
  });

  it('goes to a name in the file where it is given', async () => {
    await start({ folder: FOLDER, files: { [PARTS]: `; A row of chords.\n${ROW}` } });
    client.open(LESSON, USING);
    await told();
    for (const [line, character] of [
      [3, 15],
      [0, 5],
    ]) {
      const [link] = await client.at<DefinitionLink[]>('textDocument/definition', LESSON, line, character);
      assert.equal(link.targetUri, PARTS);
      assert.deepEqual(link.targetSelectionRange, {
        start: { line: 1, character: 12 },
        end: { line: 1, character: 15 },
      });
    }
  });

  it('has a client that asks for findings ask again', async () => {
    await start(
      { folder: FOLDER, files: { [PARTS]: ROW.replace('row', 'rows') } },
      { ...PULLING, workspace: { diagnostics: { refreshSupport: true } } },
    );
    let asked = 0;
    client.connection.onRequest('workspace/diagnostic/refresh', () => {
      asked++;
      return null;
    });
    client.open(LESSON, USING);
    const find = async (): Promise<string[]> =>
      (
        await client.ask<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument: { uri: LESSON } })
      ).items.map(({ code }) => `${code}`);
    assert.deepEqual(await find(), []);
    for (let turn = 0; turn < 200 && asked === 0; turn++) await client.caughtUp();
    assert.ok(asked > 0);
    assert.deepEqual(await find(), ['part-not-in-file']);
  });
});
