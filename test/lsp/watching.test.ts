/** Files that change outside the editor: saved in place, saved by renaming, taken away with their folder, given back. */
import assert from 'node:assert/strict';
import { FileChangeType, type Location } from 'vscode-languageserver/node';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const LESSON = `${FOLDER}/week/monday.lesson`;
const PARTS = `${FOLDER}/parts.lesson`;
const USING = 'use row from "../parts.lesson"\n\nsection verse\n  progression row\n';
const ROW = 'progression row\n  G | D\n';

const WATCHING = {
  ...MODERN,
  workspace: { ...MODERN.workspace, didChangeWatchedFiles: { dynamicRegistration: true } },
};

describe('a file that changes on disk', () => {
  let client: LanguageClient;
  let files: Record<string, string>;
  /** What waits for files to be gone for good. */
  let waiting: (() => void)[];

  beforeEach(async () => {
    files = { [PARTS]: ROW, [LESSON]: USING };
    waiting = [];
    const later = (callback: () => void): void => void waiting.push(callback);
    ({ client } = await LanguageClient.start(WATCHING, { folder: FOLDER, files, later }));
    client.connection.onRequest('client/registerCapability', () => null);
    client.open(LESSON, USING);
    await told([]);
    await client.caughtUp();
    client.published.length = 0;
  });
  afterEach(async () => client.stop());

  const tell = (uri: string, type: FileChangeType): void =>
    client.send('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });

  const ofLesson = (): readonly (readonly string[])[] =>
    client.published
      .filter(({ uri }) => uri === LESSON)
      .map(({ diagnostics }) => diagnostics.map(({ code }) => `${code}`));

  const told = (codes: readonly string[]): Promise<void> =>
    client.until(() => JSON.stringify(ofLesson().at(-1)) === JSON.stringify(codes));

  const patienceEnds = async (): Promise<void> => {
    for (const each of waiting.splice(0)) each();
    await client.caughtUp();
  };

  it('is one change where an editor saves by renaming: deleted, then made anew', async () => {
    delete files[PARTS];
    tell(PARTS, FileChangeType.Deleted);
    await client.caughtUp();
    assert.deepEqual(ofLesson(), [], 'nothing is said before it is gone for good');
    files[PARTS] = ROW.replace('row', 'rows');
    tell(PARTS, FileChangeType.Created);
    await told(['part-not-in-file']);
    await patienceEnds();
    assert.deepEqual(ofLesson(), [['part-not-in-file']]);
  });

  it('is no change where the same was saved, by whatever way', async () => {
    tell(PARTS, FileChangeType.Changed);
    tell(PARTS, FileChangeType.Deleted);
    tell(PARTS, FileChangeType.Created);
    await client.caughtUp();
    await patienceEnds();
    assert.deepEqual(ofLesson(), []);
  });

  it('is missed when it stays away, and found when it comes back', async () => {
    delete files[PARTS];
    tell(PARTS, FileChangeType.Deleted);
    await client.caughtUp();
    await patienceEnds();
    await told(['file-missing']);
    files[PARTS] = ROW;
    tell(PARTS, FileChangeType.Created);
    await told([]);
  });

  it('is missed when its folder goes', async () => {
    const inside = `${FOLDER}/week/parts/row.lesson`;
    files[inside] = ROW;
    client.change(LESSON, { text: USING.replace('../parts', 'parts/row') });
    await told([]);
    delete files[inside];
    tell(`${FOLDER}/week/parts`, FileChangeType.Deleted);
    await client.caughtUp();
    await patienceEnds();
    await told(['file-missing']);
  });

  it('is read from the editor while it is open there, whatever is saved', async () => {
    client.open(PARTS, ROW);
    await client.caughtUp();
    client.published.length = 0;
    files[PARTS] = ROW.replace('row', 'rows');
    tell(PARTS, FileChangeType.Changed);
    await client.caughtUp();
    assert.deepEqual(ofLesson(), []);
    client.close(PARTS);
    await told(['part-not-in-file']);
  });

  it('counts for questions across files from then on', async () => {
    const references = async (): Promise<readonly string[]> => {
      const found = await client.ask<Location[]>('textDocument/references', {
        textDocument: { uri: LESSON },
        position: { line: 3, character: 15 },
        context: { includeDeclaration: true },
      });
      return found.map(({ uri, range }) => `${uri.slice(FOLDER.length + 1)}:${range.start.line}`).sort();
    };
    const before = ['parts.lesson:0', 'week/monday.lesson:0', 'week/monday.lesson:3'];
    assert.deepEqual(await references(), before);
    files[`${FOLDER}/tuesday.lesson`] = 'use row from "parts.lesson"\n';
    tell(`${FOLDER}/tuesday.lesson`, FileChangeType.Created);
    await client.caughtUp();
    assert.deepEqual(await references(), [before[0], 'tuesday.lesson:0', before[1], before[2]]);
    files[PARTS] = `; Parts.\n${ROW}`;
    tell(PARTS, FileChangeType.Changed);
    await client.caughtUp();
    assert.deepEqual(await references(), ['parts.lesson:1', 'tuesday.lesson:0', before[1], before[2]]);
    delete files[`${FOLDER}/tuesday.lesson`];
    tell(`${FOLDER}/tuesday.lesson`, FileChangeType.Deleted);
    await client.caughtUp();
    await patienceEnds();
    assert.deepEqual(await references(), ['parts.lesson:1', before[1], before[2]]);
  });
});
