/** Links, selection ranges and linked editing on the wire. */
import assert from 'node:assert/strict';
import type { DocumentLink, LinkedEditingRanges, Range, SelectionRange } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, type Abilities } from '../support/language-client.ts';

const FOLDER = 'file:///my lessons/';
const URI = 'file:///my%20lessons/week/monday.lesson';
const FILES: Record<string, string> = {
  'file:///my%20lessons/parts.lesson': 'shape lamp\n  strings 4 2 1\n',
  'file:///my%20lessons/week/first%20steps.lesson': 'lesson "First steps"\n  level 1\n',
};
const LESSON =
  'lesson "Monday"\n  needs "first steps.lesson", "gone.lesson"\nuse "../parts.lesson"\n\nsection verse\n  shape lamp\nform verse\n';

const shown = ({ start, end }: Range): string => `${start.line}:${start.character}-${end.line}:${end.character}`;

describe('links, selection ranges and linked editing', () => {
  let client: LanguageClient;
  const start = async (abilities: Abilities = MODERN): Promise<Record<string, unknown>> => {
    const started = await LanguageClient.start(abilities, { folder: FOLDER, files: FILES });
    client = started.client;
    client.open(URI, LESSON);
    return { ...started.introduced.capabilities };
  };
  afterEach(async () => client.stop());

  it('are offered to clients that take them', async () => {
    const providers = ['documentLinkProvider', 'selectionRangeProvider', 'linkedEditingRangeProvider'];
    const plain = await start({});
    for (const provider of providers) assert.equal(plain[provider], undefined);
    await client.stop();
    const modern = await start();
    for (const provider of providers) assert.ok(modern[provider]);
  });

  it('lead to files that are there, wherever the client keeps them, and tell what they are', async () => {
    await start();
    const ask = (): Promise<DocumentLink[]> => client.ask('textDocument/documentLink', { textDocument: { uri: URI } });
    assert.deepEqual(
      (await ask()).map(({ range, target, tooltip }) => [shown(range), target, tooltip]),
      [
        ['1:9-1:27', 'file:///my%20lessons/week/first%20steps.lesson', 'First steps, level 1'],
        ['2:5-2:20', 'file:///my%20lessons/parts.lesson', 'lamp'],
      ],
    );
    await client.stop();
    await start({ ...MODERN, textDocument: { ...MODERN.textDocument, documentLink: {} } });
    assert.ok((await ask()).every(({ tooltip }) => tooltip === undefined));
  });

  it('grow around each of several cursors', async () => {
    await start();
    const positions = [
      { line: 5, character: 9 },
      { line: 3, character: 0 },
    ];
    const found = await client.ask<SelectionRange[]>('textDocument/selectionRange', {
      textDocument: { uri: URI },
      positions,
    });
    const outwards = (one: SelectionRange | undefined): string[] =>
      one ? [shown(one.range), ...outwards(one.parent)] : [];
    assert.deepEqual(found.map(outwards), [['5:8-5:12', '5:2-5:12', '4:0-5:12', '4:0-6:10', '0:0-7:0'], ['0:0-7:0']]);
  });

  it('tell the places of a section’s name while it is written', async () => {
    await start();
    const at = (line: number): Promise<LinkedEditingRanges | null> =>
      client.at('textDocument/linkedEditingRange', URI, line, 8);
    assert.deepEqual((await at(4))!.ranges.map(shown), ['4:8-4:13', '6:5-6:10']);
    assert.equal(await at(6), null);
  });
});
