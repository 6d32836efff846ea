/** Semantic tokens on the wire: whole, of a range, and what has changed, which must come to the same. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { SemanticTokens, SemanticTokensDelta, SemanticTokensOptions } from 'vscode-languageserver/node';
import { analyze } from '../../server/src/analyze.ts';
import { semanticTokensIn } from '../../server/src/features/semantic-tokens.ts';
import { editsBetween, packed } from '../../server/src/lsp/token-data.ts';
import { LineMap } from '../../server/src/util/line-map.ts';
import { Dice } from '../support/dice.ts';
import { LanguageClient, PULLING, type Abilities, type Surroundings } from '../support/language-client.ts';

const FOLDER = 'file:///lessons/';
const URI = `${FOLDER}a.lesson`;
const PARTS = `${FOLDER}parts.lesson`;

type Requests = NonNullable<NonNullable<Abilities['textDocument']>['semanticTokens']>['requests'];

const taking = (requests: Requests, encoding = 'utf-16'): Abilities => ({
  ...PULLING,
  general: { positionEncodings: [encoding] },
  textDocument: {
    ...PULLING.textDocument,
    semanticTokens: { requests, tokenTypes: [], tokenModifiers: [], formats: ['relative'] },
  },
});

/** From 0, and less than `count`. */
const below = (dice: Dice, count: number): number => dice.between(0, Math.max(0, count - 1));

const applied = (before: readonly number[], { edits }: SemanticTokensDelta): number[] => {
  const data = [...before];
  for (const { start, deleteCount, data: added = [] } of [...edits].reverse())
    data.splice(start, deleteCount, ...added);
  return data;
};

describe('semantic tokens on the wire', () => {
  let client: LanguageClient;
  let legend: SemanticTokensOptions['legend'];
  const start = async (abilities: Abilities = PULLING, around: Surroundings = {}): Promise<unknown> => {
    const started = await LanguageClient.start(abilities, { folder: FOLDER, ...around });
    client = started.client;
    const offered = started.introduced.capabilities.semanticTokensProvider;
    if (offered) legend = offered.legend;
    return offered && { full: offered.full, range: offered.range };
  };
  afterEach(async () => client.stop());

  const textDocument = { uri: URI };
  const full = (): Promise<SemanticTokens> => client.ask('textDocument/semanticTokens/full', { textDocument });
  const delta = (previousResultId: string | undefined): Promise<SemanticTokens | SemanticTokensDelta> =>
    client.ask('textDocument/semanticTokens/full/delta', { textDocument, previousResultId });

  /** `line:column+length type modifier` for each. */
  const told = ({ data }: SemanticTokens): readonly string[] => {
    let [line, column] = [0, 0];
    const found: string[] = [];
    for (let i = 0; i < data.length; i += 5) {
      const [lines, columns, length, type, modifiers] = data.slice(i, i + 5);
      column = lines > 0 ? columns : column + columns;
      line += lines;
      const named = legend.tokenModifiers.filter((_, bit) => modifiers & (1 << bit));
      found.push([`${line}:${column}+${length}`, legend.tokenTypes[type], ...named].join(' '));
    }
    return found;
  };

  it('are offered in the ways that the client asks', async () => {
    assert.equal(await start({}), undefined);
    await client.stop();
    assert.deepEqual(await start(taking({ full: true })), { full: true, range: false });
    await client.stop();
    assert.deepEqual(await start(taking({ range: true })), { full: false, range: true });
    await client.stop();
    assert.deepEqual(await start(), { full: { delta: true }, range: true });
  });

  it('are those of the whole lesson, or of a range', async () => {
    await start();
    client.open(URI, 'key G major\n\nsection verse\n  shape open-chords\n');
    assert.deepEqual(told(await full()), [
      '0:0+3 keyword',
      '0:4+1 enumMember',
      '0:6+5 enumMember',
      '2:0+7 keyword',
      '2:8+5 function declaration',
      '3:2+5 keyword',
      '3:8+11 function defaultLibrary',
    ]);
    const range = { start: { line: 1, character: 0 }, end: { line: 2, character: 5 } };
    const found = await client.ask<SemanticTokens>('textDocument/semanticTokens/range', { textDocument, range });
    assert.deepEqual(told(found), ['2:0+7 keyword']);
  });

  for (const encoding of ['utf-8', 'utf-16', 'utf-32'])
    it(`count in ${encoding}`, async () => {
      await start(taking({ full: true }, encoding));
      // In its quotes a sign of 4 bytes or 2 units, and two letters.
      const length = { 'utf-8': 8, 'utf-16': 6, 'utf-32': 5 }[encoding]!;
      client.open(URI, 'lesson\n  focus "😀ab", "c"\n');
      const titles = told(await full()).filter((one) => one.endsWith('string'));
      assert.deepEqual(titles, [`1:8+${length} string`, `1:${8 + length + 2}+3 string`]);
    });

  it('come as what has changed, and whole where the client has something else than was sent last', async () => {
    await start();
    client.open(URI, 'key G major\nmeter 3/4\ntempo 84\n');
    const first = await full();
    assert.deepEqual((await delta(first.resultId)) as SemanticTokensDelta, {
      resultId: '2',
      edits: [],
    });
    client.type(URI, 1, 0, 'capo 2\n');
    const changed = (await delta('2')) as SemanticTokensDelta;
    // Two tokens of a line are new; all behind them are where they were, seen from the one before.
    assert.deepEqual(
      changed.edits.map(({ start: at, deleteCount, data }) => [at, deleteCount, data?.length]),
      [[15, 0, 10]],
    );
    const again = (await delta('1')) as SemanticTokens;
    assert.deepEqual(again.data, applied(first.data, changed));
  });

  it('come to the same by edits as at once, whatever is written', async () => {
    let text = readFileSync('samples/three-towers.lesson', 'utf8').replaceAll('\r', '');
    const pieces = [
      '',
      ' ',
      '\n',
      '; a word\n',
      'section verse\n',
      ' lamp',
      '"',
      '  G | D at 8\n',
      '{verse.1.chord}',
      '♭😀',
    ];
    for (const encoding of ['utf-16', 'utf-8'] as const) {
      await start(taking({ full: { delta: true } }, encoding));
      const dice = new Dice(7);
      client.open(URI, text);
      let { resultId, data } = await full();
      for (let edit = 0; edit < 20; edit++) {
        const at = below(dice, text.length);
        const end = Math.min(text.length, at + below(dice, 12));
        const piece = pieces[below(dice, pieces.length)];
        // Whole texts are sent: how pieces of a text arrive is another matter.
        text = text.slice(0, at) + piece + text.slice(end);
        client.change(URI, { text });
        const answer: SemanticTokens | SemanticTokensDelta = await delta(resultId);
        assert.ok('edits' in answer);
        data = applied(data, answer);
        resultId = answer.resultId;
        const tokens = semanticTokensIn(analyze(text), { start: 0, end: text.length });
        assert.deepEqual(data, packed(tokens, new LineMap(text), encoding), `edit ${edit}`);
      }
      if (encoding === 'utf-16') await client.stop();
    }
  });

  it('are asked for again when a file brings what a name leads to', async () => {
    const files: Record<string, string> = { [PARTS]: 'cell ripple\n  p4\n' };
    await start({ ...PULLING, workspace: { semanticTokens: { refreshSupport: true } } }, { files });
    const refreshed = new Promise<void>((resolve) => {
      client.connection.onRequest('workspace/semanticTokens/refresh', () => (resolve(), null));
    });
    client.open(URI, 'use "parts.lesson"\nsection verse\n  cell ripple\n');
    await full();
    await refreshed;
    assert.ok(told(await full()).includes('2:7+6 function'));
  });
});

describe('edits between rows of tokens', () => {
  it('are whole tokens, and lead from one to the other', () => {
    const dice = new Dice(3);
    const token = (): number[] => [below(dice, 2), below(dice, 3), 1 + below(dice, 2), below(dice, 2), 0];
    for (let round = 0; round < 300; round++) {
      const before = Array.from({ length: below(dice, 6) }, token).flat();
      const after = [...before];
      for (let change = below(dice, 3); change > 0; change--)
        after.splice(
          5 * below(dice, after.length / 5 + 1),
          5 * below(dice, 3),
          ...Array.from({ length: below(dice, 3) }, token).flat(),
        );
      const edits = editsBetween(before, after);
      assert.deepEqual(applied(before, { edits }), after);
      assert.equal(edits.length === 0, before.join() === after.join());
      for (const { start, deleteCount, data = [] } of edits)
        assert.deepEqual([start % 5, deleteCount % 5, data.length % 5], [0, 0, 0]);
    }
  });
});
