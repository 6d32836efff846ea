/** Files renamed in the editor: the edit that goes with it, on the wire. */
import assert from 'node:assert/strict';
import type { TextDocumentEdit, WorkspaceEdit } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, type Abilities } from '../support/language-client.ts';

const ONE = 'file:///lessons';
const OTHER = 'file:///shared';
const PARTS = `${ONE}/caf%C3%A9/parts.lesson`;
const MONDAY = `${ONE}/week/monday.lesson`;
const COURSE = `${ONE}/course.lesson`;
const SHARED = `${OTHER}/lamps.lesson`;

const FILES: Record<string, string> = {
  [PARTS]: 'progression row\n  G | D\n',
  [MONDAY]: 'lesson "Monday"\n  needs "../course.lesson"\n\nuse "../café/parts.lesson"\n',
  [COURSE]: 'course "A week"\n  starts 2030-01-07\n  day 1 "week/monday.lesson"\n',
  [SHARED]: 'use "parts.lesson"\n',
  [`${OTHER}/parts.lesson`]: 'cell ripple\n  p4 i3\n',
};
const RENAMING: Abilities = {
  ...MODERN,
  workspace: { ...MODERN.workspace, workspaceFolders: true, fileOperations: { willRename: true, didRename: true } },
};

describe('a renaming of files in the editor', () => {
  let client: LanguageClient;
  let files: Record<string, string>;
  const start = async (abilities = RENAMING): Promise<{ workspace?: unknown }> => {
    files = { ...FILES };
    const started = await LanguageClient.start(abilities, { folders: [ONE, OTHER], files });
    client = started.client;
    return started.introduced.capabilities;
  };
  afterEach(async () => client.stop());

  const renamed = (...pairs: readonly (readonly [string, string])[]): Promise<WorkspaceEdit | null> =>
    client.ask('workspace/willRenameFiles', { files: pairs.map(([oldUri, newUri]) => ({ oldUri, newUri })) });
  /** `file, version: line "new words"`. */
  const lines = (edit: WorkspaceEdit | null): readonly string[] =>
    ((edit?.documentChanges ?? []) as TextDocumentEdit[]).flatMap(({ textDocument: { uri, version }, edits }) =>
      edits.map((one) => `${uri.slice(8)}, ${version}: ${one.range.start.line} ${'newText' in one ? one.newText : ''}`),
    );

  it('is asked about for lessons and folders, where the client can', async () => {
    const filters = [
      { pattern: { glob: '**/*.lesson', matches: 'file' } },
      { pattern: { glob: '**/*', matches: 'folder' } },
    ];
    assert.deepEqual((await start()).workspace, {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: { filters }, didRename: { filters } },
    });
    await client.stop();
    assert.equal((await start(MODERN)).workspace, undefined);
  });

  it('is carried into all lessons, with the versions of those that are open', async () => {
    await start();
    client.open(MONDAY, FILES[MONDAY].replace('lesson "', '; Written anew.\nlesson "'));
    assert.deepEqual(lines(await renamed([PARTS, `${ONE}/rows.lesson`], [COURSE, `${ONE}/week/course.lesson`])), [
      'lessons/course.lesson, null: 2 "monday.lesson"',
      'lessons/week/monday.lesson, 1: 2 "course.lesson"',
      'lessons/week/monday.lesson, 1: 4 "../rows.lesson"',
    ]);
  });

  it('of a folder moves what is in it, in each folder of the workspace', async () => {
    await start();
    assert.deepEqual(lines(await renamed([`${ONE}/week`, `${ONE}/weeks/1`])), [
      'lessons/course.lesson, null: 2 "weeks/1/monday.lesson"',
      'lessons/week/monday.lesson, null: 1 "../../course.lesson"',
      'lessons/week/monday.lesson, null: 3 "../../café/parts.lesson"',
    ]);
    assert.deepEqual(lines(await renamed([`${OTHER}/parts.lesson`, `${OTHER}/cells.lesson`])), [
      'shared/lamps.lesson, null: 0 "cells.lesson"',
    ]);
    assert.equal(await renamed([`${ONE}/nothing.lesson`, `${ONE}/something.lesson`]), null);
  });

  it('is plain edits for a client that knows no versions', async () => {
    await start({ workspace: { fileOperations: { willRename: true } } });
    const edit = await renamed([PARTS, `${ONE}/rows.lesson`]);
    assert.deepEqual(Object.keys(edit?.changes ?? {}), [MONDAY]);
  });

  it('is seen by lessons that are open, once it is done', async () => {
    await start();
    client.open(MONDAY, FILES[MONDAY]);
    await client.caughtUp();
    client.published.length = 0;
    files[`${ONE}/rows.lesson`] = files[PARTS];
    delete files[PARTS];
    client.send('workspace/didRenameFiles', {
      files: [{ oldUri: `${ONE}/caf%C3%A9`, newUri: `${ONE}/cafe` }],
    });
    await client.until(() => client.published.length > 0);
    assert.deepEqual(
      client.published.at(-1)?.diagnostics.map(({ code }) => code),
      ['file-missing'],
    );
    client.change(MONDAY, { text: 'use "../rows.lesson"\n' });
    assert.deepEqual(await client.findings(MONDAY, 2), []);
  });
});

describe('the folders of a workspace', () => {
  it('are those that the client has now', async () => {
    const { client } = await LanguageClient.start(RENAMING, { folders: [`${ONE}/week`], files: FILES });
    const codes = async (): Promise<readonly unknown[]> => {
      await client.caughtUp();
      return client.published
        .filter(({ uri }) => uri === MONDAY)
        .at(-1)!
        .diagnostics.map(({ code }) => code);
    };
    client.open(MONDAY, FILES[MONDAY]);
    assert.deepEqual(await codes(), ['path-outside', 'path-outside']);
    client.send('workspace/didChangeWorkspaceFolders', {
      event: { added: [{ uri: ONE, name: 'lessons' }], removed: [{ uri: `${ONE}/week`, name: 'week' }] },
    });
    assert.deepEqual(await codes(), []);
    await client.stop();
  });
});
