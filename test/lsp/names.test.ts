/** Names across files: where they stand, and how they get another one. */
import assert from 'node:assert/strict';
import type { DocumentHighlight, Location, TextDocumentEdit, WorkspaceEdit } from 'vscode-languageserver/node';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const PARTS = `${FOLDER}/parts.lesson`;
const MONDAY = `${FOLDER}/week/monday.lesson`;
const TUESDAY = `${FOLDER}/week/tuesday.lesson`;
const APART = `${FOLDER}/apart.lesson`;

const FILES: Record<string, string> = {
  [PARTS]: 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n\nprogression row\n  G as lamp | D\n',
  [MONDAY]: 'use lamp, row from "../parts.lesson"\n\nsection verse\n  progression row\n  shape lamp\n',
  [TUESDAY]:
    'use "../parts.lesson"\n\nsection verse\n  progression row\n  shape lamp\n\ntext\n  See {verse.1.chord}.\n',
  [APART]:
    'shape lamp\n  strings 3 2 1\n  spacing close\n\nprogression p\n  G\n\nsection verse\n  progression p\n  shape lamp\n',
};

describe('names', () => {
  let client: LanguageClient;
  const start = async (...open: readonly string[]): Promise<void> => {
    ({ client } = await LanguageClient.start(MODERN, { folder: FOLDER, files: { ...FILES } }));
    for (const uri of open) client.open(uri, FILES[uri]);
  };
  afterEach(async () => client.stop());

  const place = ({ uri, range }: Location): string =>
    `${uri.slice(FOLDER.length + 1)}:${range.start.line}:${range.start.character}-${range.end.character}`;

  const references = async (uri: string, line: number, character: number): Promise<readonly string[]> => {
    const found = await client.ask<Location[] | null>('textDocument/references', {
      textDocument: { uri },
      position: { line, character },
      context: { includeDeclaration: true },
    });
    return (found ?? []).map(place).sort();
  };

  const renamed = async (
    uri: string,
    line: number,
    character: number,
    newName: string,
  ): Promise<Record<string, string>> => {
    const edit = await client.ask<WorkspaceEdit | null>('textDocument/rename', {
      textDocument: { uri },
      position: { line, character },
      newName,
    });
    return Object.fromEntries(
      ((edit?.documentChanges ?? []) as TextDocumentEdit[]).map(({ textDocument, edits }) => {
        const lines = FILES[textDocument.uri].split('\n');
        for (const each of [...edits].reverse()) {
          if (!('newText' in each)) continue;
          const { start: from, end } = each.range;
          lines[from.line] =
            lines[from.line].slice(0, from.character) + each.newText + lines[from.line].slice(end.character);
        }
        return [textDocument.uri.slice(FOLDER.length + 1), lines.join('\n')];
      }),
    );
  };

  const LAMPS = [
    'parts.lesson:0:6-10',
    'parts.lesson:5:7-11',
    'week/monday.lesson:0:4-8',
    'week/monday.lesson:4:8-12',
    'week/tuesday.lesson:4:8-12',
  ];

  it('are found from where they are given and from where they are used, open or not, and never mixed with others', async () => {
    await start(PARTS, MONDAY);
    assert.deepEqual(await references(PARTS, 0, 7), LAMPS);
    assert.deepEqual(await references(MONDAY, 4, 9), LAMPS);
    assert.deepEqual(await references(MONDAY, 0, 5), LAMPS);
    client.open(APART, FILES[APART]);
    assert.deepEqual(await references(APART, 0, 7), ['apart.lesson:0:6-10', 'apart.lesson:9:8-12']);
  });

  it('are marked in the text at hand', async () => {
    await start(PARTS);
    const marks = await client.at<DocumentHighlight[]>('textDocument/documentHighlight', PARTS, 5, 8);
    assert.deepEqual(
      marks.map(({ range, kind }) => `${range.start.line}:${range.start.character} ${kind}`),
      ['0:6 3', '5:7 2'],
    );
  });

  it('are changed in every file that speaks of them', async () => {
    await start(MONDAY);
    const after = await renamed(MONDAY, 4, 9, 'lantern');
    assert.deepEqual(Object.keys(after).sort(), ['parts.lesson', 'week/monday.lesson', 'week/tuesday.lesson']);
    assert.equal(after['parts.lesson'], FILES[PARTS].replaceAll('lamp', 'lantern'));
    assert.equal(after['week/monday.lesson'], FILES[MONDAY].replaceAll('lamp', 'lantern'));
    assert.equal(after['week/tuesday.lesson'], FILES[TUESDAY].replaceAll('lamp', 'lantern'));
  });

  it('are changed in prose too', async () => {
    await start(TUESDAY);
    const after = await renamed(TUESDAY, 2, 9, 'quay');
    assert.deepEqual(after, { 'week/tuesday.lesson': FILES[TUESDAY].replaceAll('verse', 'quay') });
  });

  it('are refused where they would not do, with the reason', async () => {
    await start(PARTS);
    for (const [name, why] of [
      ['two words', /A name is a letter followed by/],
      ['x02', /list of frets/],
      ['open-chords', /built in/],
    ] as const)
      await assert.rejects(renamed(PARTS, 0, 7, name), why);
    client.open(APART, `${FILES[APART]}\nshape bell\n  strings 3 2 1\n`);
    await assert.rejects(renamed(APART, 0, 7, 'bell'), /There is a shape called bell already/);
  });

  it('of what is built in, or missing, cannot be changed', async () => {
    await start();
    client.open(APART, 'progression p\n  G\n\nsection verse\n  progression p\n  shape open-chords\n  cell nothing\n');
    const prepare = (line: number): Promise<unknown> => client.at('textDocument/prepareRename', APART, line, 12);
    await assert.rejects(prepare(5), /built in/);
    await assert.rejects(client.at('textDocument/prepareRename', APART, 6, 8), /No cell is called nothing/);
    assert.equal(await client.at('textDocument/prepareRename', APART, 1, 2), null);
    assert.deepEqual(await prepare(0), {
      range: { start: { line: 0, character: 12 }, end: { line: 0, character: 13 } },
      placeholder: 'p',
    });
  });
});
