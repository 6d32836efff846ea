/** Completion on the wire: what is shown beside an item is worked out when somebody looks at it. */
import assert from 'node:assert/strict';
import type { CompletionItem, CompletionList, MarkupContent } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, type Abilities } from '../support/language-client.ts';

const URI = 'file:///lessons/lamps.lesson';
const LESSON = `key G major

shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3
  frets 1 to 12

progression quay
  G | D at | Em

section verse
  progression quay
  shape lamp
`;

const LAZY: Abilities = {
  ...MODERN,
  textDocument: {
    ...MODERN.textDocument,
    completion: {
      completionItem: {
        documentationFormat: ['markdown'],
        labelDetailsSupport: true,
        resolveSupport: { properties: ['documentation'] },
      },
    },
  },
};

describe('completion of voicings', () => {
  let client: LanguageClient;
  const first = async (abilities: Abilities): Promise<CompletionItem> => {
    ({ client } = await LanguageClient.start(abilities));
    client.open(URI, LESSON.replace('D at |', 'D at  |'));
    const { items } = await client.at<CompletionList>('textDocument/completion', URI, 9, 11);
    return items[0];
  };
  afterEach(async () => client.stop());
  const shown = ({ documentation }: CompletionItem): string =>
    (documentation as MarkupContent | undefined)?.value ?? '';

  it('draws a diagram when an item is looked at', async () => {
    const item = await first(LAZY);
    assert.equal(item.label, '3');
    assert.equal(item.labelDetails?.description, 'Dadd11/F#, x-x-4-0-3-5, moderate');
    assert.equal(item.documentation, undefined);
    const looked = await client.ask<CompletionItem>('completionItem/resolve', item);
    assert.match(shown(looked), /^\*\*Dadd11\/F#\*\*: F#3 3, G3 11, D4 R, A4 5\n\n```\nx x/);
    assert.deepEqual({ ...looked, documentation: undefined }, { ...item, documentation: undefined });
  });
  it('draws it at once for a client that cannot ask again', async () => {
    const item = await first(MODERN);
    assert.equal(item.data, undefined);
    assert.equal(item.labelDetails, undefined);
    assert.match(shown(item), /F#3 3/);
  });
  it('gives back an item that stands for no voicing, and one of a lesson that is closed', async () => {
    const item = await first(LAZY);
    assert.deepEqual(await client.ask('completionItem/resolve', { label: 'key' }), { label: 'key' });
    client.close(URI);
    assert.deepEqual(await client.ask('completionItem/resolve', item), item);
  });
});
