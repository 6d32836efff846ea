/** The server never loses hold of the text: after any edits, told as an editor tells them, it answers as one that gets the text whole. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Diagnostic, TextDocumentContentChangeEvent, TextEdit } from 'vscode-languageserver';
import { columnTo, type Encoding } from '../../server/src/lsp/positions.ts';
import { WATCH_PREVIEW, type PreviewUpdate } from '../../server/src/protocol.ts';
import { LineMap } from '../../server/src/util/line-map.ts';
import { Dice } from '../support/dice.ts';
import { generateLesson } from '../support/generate-lesson.ts';
import { LanguageClient, PULLING } from '../support/language-client.ts';

const RUNS = Math.max(4, Math.round(Number(process.env.FUZZ_RUNS ?? 100) / 10));
const MESSAGES = 12;
const WIDTH = 700;

/** What is typed, pasted, or taken away. */
const PIECES = [
  'G',
  '7',
  ' ',
  '\n',
  '\n  ',
  '\r\n',
  '\r',
  '|',
  '"',
  '; x',
  '♭',
  '🎸',
  'é',
  '-',
  '+1',
  'section z\n',
  '',
];

/** Nobody's cursor stands within a sign or between CR and LF. */
function cursorIn(text: string, dice: Dice): number {
  let at = dice.between(0, text.length);
  while (at > 0 && (/[\uDC00-\uDFFF]/.test(text[at] ?? '') || (text[at] === '\n' && text[at - 1] === '\r'))) at--;
  return at;
}

/** The next text, and the change as it is sent. */
function edited(text: string, dice: Dice, encoding: Encoding): [string, TextDocumentContentChangeEvent] {
  const lines = new LineMap(text);
  const placeOf = (offset: number): { line: number; character: number } => {
    const { line, character } = lines.positionAt(offset);
    return { line, character: columnTo(lines.line(line), character, encoding) };
  };
  const start = cursorIn(text, dice);
  const far = dice.chance(20) ? cursorIn(text, dice) : start;
  const near = cursorIn(text.slice(0, start + 6), dice);
  const end = Math.max(start, dice.chance(50) ? near : start, far - start < 200 ? far : start);
  const written = dice.chance(15) ? text.slice(start, start + 80) : dice.pick(PIECES);
  const next = text.slice(0, start) + written + text.slice(end);
  if (dice.chance(5)) return [next, { text: next }];
  return [next, { range: { start: placeOf(start), end: placeOf(end) }, text: written }];
}

/** What a page shows that keeps what it has of each block, as ours does. */
class Page {
  private shown = new Map<string, { readonly hash: string; readonly content?: string }>();

  show({ blocks }: PreviewUpdate): void {
    this.shown = new Map(
      blocks.map(({ id, hash, content }) => {
        const before = this.shown.get(id);
        if (content !== undefined) return [id, { hash, content }];
        assert.equal(before?.hash, hash, `${id} was not sent, and is not shown yet`);
        return [id, before];
      }),
    );
  }

  get contents(): readonly (readonly [string, string | undefined])[] {
    return [...this.shown].map(([id, { content }]) => [id, content]);
  }
}

interface Seen {
  readonly diagnostics: readonly Diagnostic[];
  readonly formatting: readonly TextEdit[] | null;
  readonly page: readonly (readonly [string, string | undefined])[];
}

async function seen(client: LanguageClient, uri: string, page: Page): Promise<Seen> {
  const textDocument = { uri };
  const [report, formatting] = await Promise.all([
    client.ask<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument }),
    client.ask<TextEdit[] | null>('textDocument/formatting', {
      textDocument,
      options: { tabSize: 2, insertSpaces: true },
    }),
  ]);
  const ownPlaces = report.items.map((one) => JSON.parse(JSON.stringify(one).replaceAll(uri, 'lesson')));
  return { diagnostics: ownPlaces, formatting, page: page.contents };
}

async function checkTyping(seed: number, encoding: Encoding): Promise<void> {
  const dice = new Dice(seed);
  const { client } = await LanguageClient.start({ ...PULLING, general: { positionEncodings: [encoding] } });
  try {
    const [uri, anew] = ['untitled:typed', 'untitled:whole'];
    let text = generateLesson(seed);
    client.open(uri, text);
    const page = new Page();
    page.show((await client.ask<PreviewUpdate | null>(WATCH_PREVIEW, { uri, width: WIDTH }))!);
    const [shownBefore, told] = [client.previews.length, client.previews];
    let version = 1;
    for (let message = 0; message < MESSAGES; message++) {
      const changes: TextDocumentContentChangeEvent[] = [];
      for (let change = dice.between(1, 3); change > 0; change--) {
        const [next, sent] = edited(text, dice, encoding);
        text = next;
        changes.push(sent);
      }
      version = client.change(uri, ...changes);
      // Now and then the typist looks up; else the next key comes before the last is drawn.
      if (dice.chance(30)) await client.preview(uri, version);
    }
    await client.preview(uri, version);
    for (const update of told.slice(shownBefore)) page.show(update);

    client.open(anew, text);
    const whole = new Page();
    whole.show((await client.ask<PreviewUpdate | null>(WATCH_PREVIEW, { uri: anew, width: WIDTH }))!);
    assert.deepEqual(await seen(client, uri, page), await seen(client, anew, whole));
    assert.deepEqual(client.log, []);
  } finally {
    await client.stop();
  }
}

describe('a lesson that is typed', function () {
  this.timeout(600_000);

  for (const encoding of ['utf-8', 'utf-16', 'utf-32'] as const)
    it(`is the server's lesson after any edits, in ${encoding}`, () =>
      fc.assert(
        fc.asyncProperty(fc.integer({ min: 0, max: 0x7fff_ffff }), (seed) => checkTyping(seed, encoding)),
        { numRuns: RUNS },
      ));
});
