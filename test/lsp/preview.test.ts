/** The preview as its panel gets it: whole at first, then what changed. */
import assert from 'node:assert/strict';
import {
  CHANGE_CHORD,
  PLAIN_VIEW,
  UNWATCH_PREVIEW,
  WATCH_PREVIEW,
  type ChordChanged,
  type PreviewChange,
  type PreviewUpdate,
  type PreviewView,
} from '../../server/src/protocol.ts';
import { LanguageClient, MODERN, PULLING, type Abilities } from '../support/language-client.ts';

const URI = 'file:///lessons/a.lesson';
const OTHER = 'file:///lessons/b.lesson';

const LESSON = `lesson "Lamps"
key G major

progression quay
  G | D
progression shore
  C | G

section verse
  progression quay
  shape open-chords

section coda
  progression shore
  shape open-chords
`;

const sent = ({ blocks }: PreviewUpdate): string[] => blocks.filter(({ content }) => content).map(({ id }) => id);

describe('the watched preview', () => {
  let client: LanguageClient;
  const start = async (abilities: Abilities = MODERN): Promise<void> => {
    ({ client } = await LanguageClient.start(abilities));
  };
  const watch = (uri = URI, width = 600): Promise<PreviewUpdate | null> => client.ask(WATCH_PREVIEW, { uri, width });
  afterEach(async () => client.stop());

  it('comes whole, and then what changed', async () => {
    await start();
    client.open(URI, LESSON);
    const first = (await watch())!;
    assert.equal(first.title, 'Lamps');
    assert.equal(first.version, 1);
    assert.deepEqual(
      sent(first),
      first.blocks.map(({ id }) => id),
    );
    const place = { startLine: 4, startCharacter: 6, endLine: 4, endCharacter: 7 };
    assert.deepEqual(first.bars[1], { id: 'verse.2', place, chords: [place], told: [] });

    // Another chord in the coda leaves the verse as it is.
    client.type(URI, 6, 3, 'm');
    const second = await client.preview(URI, 2);
    assert.deepEqual(
      second.blocks.map(({ id }) => id),
      first.blocks.map(({ id }) => id),
    );
    assert.deepEqual(sent(second), ['coda/system/0', 'coda/shapes']);
    for (const { id, hash, content } of second.blocks)
      if (!content) assert.equal(hash, first.blocks.find((one) => one.id === id)?.hash);

    // A comment moves the places, and no drawing.
    client.type(URI, 0, 0, '; above\n');
    const third = await client.preview(URI, 3);
    assert.deepEqual(sent(third), []);
    assert.equal(third.bars[1].place.startLine, 5);
  });

  it('comes after the findings of the same version', async () => {
    await start();
    client.open(URI, LESSON);
    await watch();
    client.type(URI, 6, 3, 'm');
    await client.preview(URI, 2);
    assert.equal(client.published.at(-1)?.version, 2);
  });

  it('comes for clients that ask for findings, too', async () => {
    await start(PULLING);
    client.open(URI, LESSON);
    await watch();
    client.type(URI, 6, 3, 'm');
    assert.equal((await client.preview(URI, 2)).version, 2);
  });

  it('comes once for changes that come together', async () => {
    await start();
    client.open(URI, LESSON);
    await watch();
    for (let typed = 0; typed < 8; typed++) client.type(URI, 0, 12, 's');
    await client.preview(URI, 9);
    await client.caughtUp();
    assert.deepEqual(
      client.previews.map(({ version }) => version),
      [9],
    );
  });

  it('comes whole again in another width', async () => {
    await start();
    client.open(URI, LESSON);
    const wide = (await watch(URI, 1200))!;
    const narrow = (await watch(URI, 300))!;
    assert.deepEqual(
      sent(narrow),
      narrow.blocks.map(({ id }) => id),
    );
    assert.notDeepEqual(narrow.blocks, wide.blocks);
  });

  it('comes in the reading that is asked for, and stays in it', async () => {
    await start();
    client.open(URI, LESSON);
    await watch();
    const view: PreviewView = { ...PLAIN_VIEW, reading: 'notes' };
    const notes = await client.ask<PreviewUpdate>(WATCH_PREVIEW, { uri: URI, width: 600, view });
    assert.equal(notes.view.reading, 'notes');
    assert.match(notes.blocks.find(({ id }) => id === 'verse/shapes')?.content ?? '', />F#</);
    client.type(URI, 6, 3, 'm');
    assert.equal((await client.preview(URI, 2)).view.reading, 'notes');
  });

  it('opens a panel without sending the music again, keeps it up to date, and closes it', async () => {
    await start();
    client.open(URI, LESSON);
    await watch();
    const show = (view: PreviewView): Promise<PreviewUpdate> =>
      client.ask(WATCH_PREVIEW, { uri: URI, width: 600, view });
    const opened = await show({ ...PLAIN_VIEW, panel: { kind: 'neck', bar: 'coda.1', chord: 0 } });
    assert.deepEqual(sent(opened), []);
    assert.equal(opened.panel?.title, 'C in bar 1 of coda');
    assert.deepEqual(
      opened.panel?.blocks.map(({ id, content }) => [id, content !== undefined]),
      [['panel/neck', true]],
    );
    client.type(URI, 6, 3, 'm');
    const typed = await client.preview(URI, 2);
    assert.equal(typed.panel?.title, 'Cm in bar 1 of coda');
    assert.ok(typed.panel?.blocks[0].content);
    client.type(URI, 4, 3, 'm');
    assert.equal(
      (await client.preview(URI, 3)).panel?.blocks[0].content,
      undefined,
      'another chord leaves it as it is',
    );
    const closed = await show(PLAIN_VIEW);
    assert.equal(closed.panel, undefined);
    assert.deepEqual(sent(closed), []);
  });

  it('gives what was chosen as an edit of the version that is shown', async () => {
    await start();
    client.open(URI, LESSON);
    await watch();
    const choose = (version: number, change: PreviewChange): Promise<ChordChanged | null> =>
      client.ask(CHANGE_CHORD, { uri: URI, version, bar: 'verse.2', chord: 0, change });
    const pin: PreviewChange = { kind: 'pin', frets: 'x-5-4-2-3-2' };
    const at = { line: 4, character: 7 };
    assert.deepEqual(await choose(1, pin), {
      says: 'D as x-5-4-2-3-2',
      edit: {
        documentChanges: [
          {
            textDocument: { uri: URI, version: 1 },
            edits: [{ range: { start: at, end: at }, newText: ' as x-5-4-2-3-2' }],
          },
        ],
      },
    });
    client.type(URI, 0, 0, '; above\n');
    assert.equal((await choose(1, pin))?.edit, undefined, 'the lesson has changed since');
    assert.equal(await client.ask(CHANGE_CHORD, { uri: OTHER, version: 1, bar: '', chord: 0, change: pin }), null);
  });

  it('is of each lesson by itself', async () => {
    await start();
    client.open(URI, LESSON);
    client.open(OTHER, LESSON.replace('Lamps', 'Other lamps'));
    assert.equal((await watch(URI))?.title, 'Lamps');
    assert.equal((await watch(OTHER))?.title, 'Other lamps');
    client.type(OTHER, 6, 3, 'm');
    const update = await client.preview(OTHER, 2);
    assert.equal(update.uri, OTHER);
    assert.ok(!client.previews.some(({ uri }) => uri === URI));
  });

  it('ends when nobody looks, and when the lesson is closed', async () => {
    await start();
    client.open(URI, LESSON);
    await watch();
    client.send(UNWATCH_PREVIEW, { uri: URI });
    client.type(URI, 6, 3, 'm');
    await client.findings(URI, 2);
    await client.caughtUp();
    assert.deepEqual(client.previews, []);
    client.close(URI);
    assert.equal(await watch(), null);
  });
});
