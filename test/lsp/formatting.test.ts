/** Laying out while writing, as an editor asks for it: a range, and behind what was typed. */
import assert from 'node:assert/strict';
import type { Position, TextEdit } from 'vscode-languageserver/node';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const URI = 'file:///lessons/a.lesson';
const OPTIONS = { tabSize: 8, insertSpaces: false };

/** The text after edits that do not overlap. */
function edited(text: string, edits: readonly TextEdit[]): string {
  const starts = [0, ...[...text.matchAll(/\r\n|\n/g)].map(({ index, 0: end }) => index + end.length)];
  const offset = ({ line, character }: Position): number => starts[line] + character;
  return [...edits]
    .reverse()
    .reduce(
      (done, { range, newText }) => done.slice(0, offset(range.start)) + newText + done.slice(offset(range.end)),
      text,
    );
}

describe('formatting in an editor', () => {
  let client: LanguageClient;
  beforeEach(async () => ({ client } = await LanguageClient.start(MODERN)));
  afterEach(async () => client.stop());

  const ask = async (method: string, text: string, params: object): Promise<string> => {
    client.open(URI, text);
    const edits = await client.ask<TextEdit[]>(`textDocument/${method}`, {
      textDocument: { uri: URI },
      options: OPTIONS,
      ...params,
    });
    return edited(text, edits);
  };

  it('changes the lines of a range alone', async () => {
    const range = { start: { line: 1, character: 3 }, end: { line: 3, character: 0 } };
    assert.equal(
      await ask('rangeFormatting', 'key  G major\nprogression  p\n   G|D\n   Em  |Am7\n', { range }),
      'key  G major\n\nprogression p\n  G  | D\n   Em  |Am7\n',
    );
  });
  it('lines up the bars above a bar line that is typed, and leaves the line in hand', async () => {
    assert.equal(
      await ask('onTypeFormatting', 'progression p\r\n\tG|D7|Em\r\n  Am7  |\r\n', {
        position: { line: 2, character: 8 },
        ch: '|',
      }),
      'progression p\r\n  G | D7 | Em\r\n  Am7  |\r\n',
    );
  });
  it('finishes the line above a new one, and indents what comes', async () => {
    assert.equal(
      await ask('onTypeFormatting', 'section verse   "At dusk"\n\nkey G major\n', {
        position: { line: 1, character: 0 },
        ch: '\n',
      }),
      'section verse "At dusk"\n  \nkey G major\n',
    );
  });
});
