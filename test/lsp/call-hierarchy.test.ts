/** The chain of `use`, up and down, as a client asks for it. */
import assert from 'node:assert/strict';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CallHierarchyOutgoingCall,
  Range,
} from 'vscode-languageserver/node';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const CHORDS = `${FOLDER}/parts/chords.lesson`;
const PARTS = `${FOLDER}/parts.lesson`;
const MONDAY = `${FOLDER}/week/monday.lesson`;
const TUESDAY = `${FOLDER}/week/tuesday.lesson`;

const FILES: Record<string, string> = {
  [CHORDS]: 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n',
  [PARTS]: 'use "parts/chords.lesson"\n\nprogression row\n  G as lamp | D as lamp\n',
  [MONDAY]: 'lesson "Monday"\n\nuse row from "../parts.lesson"\n\nsection verse\n  progression row\n',
  [TUESDAY]:
    'use "../parts.lesson"\nuse lamp from "../parts/chords.lesson"\n\nsection verse\n  progression row\n  shape lamp\n',
};

describe('the chain of use', () => {
  let client: LanguageClient;
  beforeEach(async () => {
    ({ client } = await LanguageClient.start(MODERN, { folder: FOLDER, files: FILES }));
  });
  afterEach(async () => client.stop());

  const at = async (uri: string, line: number, character: number): Promise<CallHierarchyItem> => {
    client.open(uri, FILES[uri]);
    const items = await client.at<CallHierarchyItem[] | null>(
      'textDocument/prepareCallHierarchy',
      uri,
      line,
      character,
    );
    assert.equal(items?.length, 1);
    return items[0];
  };
  const shown = ({ name, detail, uri }: CallHierarchyItem): string =>
    `${name} (${detail}) in ${uri.slice(FOLDER.length + 1)}`;
  const places = (ranges: readonly Range[]): string =>
    ranges.map(({ start }) => `${start.line}:${start.character}`).join(' ');

  const usersOf = async (item: CallHierarchyItem): Promise<readonly string[]> =>
    (await client.ask<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item })).map(
      ({ from, fromRanges }) => `${shown(from)} at ${places(fromRanges)}`,
    );
  const usedBy = async (item: CallHierarchyItem): Promise<readonly string[]> =>
    (await client.ask<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', { item })).map(
      ({ to, fromRanges }) => `${shown(to)} at ${places(fromRanges)}`,
    );

  it('leads from a line that uses a file to the file, its users and what it uses', async () => {
    const item = await at(MONDAY, 2, 20);
    assert.equal(shown(item), 'parts.lesson (parts.lesson) in parts.lesson');
    assert.deepEqual(await usersOf(item), [
      'Monday (week/monday.lesson) in week/monday.lesson at 2:13',
      'tuesday.lesson (week/tuesday.lesson) in week/tuesday.lesson at 0:4',
    ]);
    assert.deepEqual(await usedBy(item), ['chords.lesson (parts/chords.lesson) in parts/chords.lesson at 0:4']);
  });

  it('leads from the name of a part, wherever it stands, to all lessons that use it', async () => {
    const users = [
      'parts.lesson (parts.lesson) in parts.lesson at 3:7 3:19',
      'tuesday.lesson (week/tuesday.lesson) in week/tuesday.lesson at 1:4 5:8',
    ];
    for (const [uri, line, character] of [
      [CHORDS, 0, 8],
      [PARTS, 3, 8],
      [TUESDAY, 1, 5],
    ] as const) {
      const item = await at(uri, line, character);
      assert.equal(shown(item), 'lamp (shape) in parts/chords.lesson');
      assert.deepEqual(item.selectionRange, { start: { line: 0, character: 6 }, end: { line: 0, character: 10 } });
      assert.deepEqual(await usersOf(item), users);
    }
  });

  it('leads from a section to its parts, and from those to theirs', async () => {
    const verse = await at(MONDAY, 4, 9);
    assert.equal(shown(verse), 'verse (section) in week/monday.lesson');
    const [{ to: row }] = await client.ask<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', { item: verse });
    assert.equal(shown(row), 'row (progression) in parts.lesson');
    assert.deepEqual(await usedBy(row), ['lamp (shape) in parts/chords.lesson at 3:7 3:19']);
  });

  it('leads from a lesson’s head to all that it brings in', async () => {
    const lesson = await at(MONDAY, 0, 10);
    assert.equal(shown(lesson), 'Monday (week/monday.lesson) in week/monday.lesson');
    assert.deepEqual(await usersOf(lesson), []);
    assert.deepEqual(await usedBy(lesson), [
      'parts.lesson (parts.lesson) in parts.lesson at 2:13',
      'row (progression) in parts.lesson at 2:4',
    ]);
  });

  it('is not there for what is built in, missing, or no name', async () => {
    const text = 'use "gone.lesson"\n\nsection verse\n  progression none\n  shape open-chords\n';
    client.open(MONDAY, text);
    for (const [line, character] of [
      [0, 8],
      [3, 15],
      [4, 10],
      [1, 0],
    ])
      assert.equal(await client.at('textDocument/prepareCallHierarchy', MONDAY, line, character), null);
  });

  it('stays inside a text that has no place among files', async () => {
    const uri = 'untitled:Untitled-1';
    client.open(uri, 'progression p\n  G\n\nsection verse\n  progression p\n');
    const [item] = await client.at<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', uri, 0, 12);
    const [call, ...others] = await client.ask<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
    assert.deepEqual(others, []);
    assert.equal(call.from.uri, uri);
    assert.equal(places(call.fromRanges), '4:14');
  });
});
