/** How a lesson sounds, as a page asks for it before it plays. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { SOUND_OF, type LessonSound } from '../../server/src/protocol.ts';
import type { SoundTimeline } from '../../server/src/sound/timeline.ts';
import { LanguageClient, MODERN } from '../support/language-client.ts';

const URI = 'file:///lessons/a.lesson';
const LAMPS = readFileSync('samples/harbour-lamps.lesson', 'utf8');

describe('the sound of a lesson', () => {
  let client: LanguageClient;
  beforeEach(async () => {
    ({ client } = await LanguageClient.start(MODERN));
    client.open(URI, LAMPS);
  });
  afterEach(() => client.stop());
  const ask = (variant?: string, uri = URI): Promise<LessonSound | null> =>
    client.ask(SOUND_OF, { uri, ...(variant !== undefined && { variant }) });
  const timelineOf = (sound: LessonSound | null): SoundTimeline => sound?.timeline as SoundTimeline;

  it('is its notes in seconds, with the place of each in the text', async () => {
    const sound = await ask();
    const { seconds, bars, notes } = timelineOf(sound);
    assert.equal(sound?.version, 1);
    assert.equal(sound?.variant, undefined);
    // Eight bars of three quarters at 84.
    assert.equal(bars.length, 8);
    assert.ok(Math.abs(seconds - (8 * 3 * 60) / 84) < 1e-6, `${seconds}`);
    const first = LAMPS.indexOf('G | D | Em');
    assert.deepEqual([notes[0].place.start, notes[0].place.end], [first, first + 1]);
  });

  it('comes with the steps of its practice and what their tempi are to be compared with', async () => {
    const sound = await ask();
    assert.equal(sound?.perMinute, 84);
    assert.deepEqual(sound?.sections, [{ id: 'verse', perMinute: 84 }]);
    assert.deepEqual(
      sound?.practice.map(({ tempi, perMinute }) => [tempi.join(' '), perMinute]),
      [
        ['60', 84],
        ['60 66 72 78 84', 84],
      ],
    );
  });

  it('is of a variant where one is named', async () => {
    const sound = await ask('gentle');
    assert.deepEqual([sound?.variant, sound?.perMinute], ['gentle', 60]);
    // Its capo lies at the third fret.
    assert.equal(timelineOf(sound).notes[0].midi, timelineOf(await ask()).notes[0].midi + 3);
    assert.equal(await ask('harsh'), null);
  });

  it('is of the text as it is, and of no lesson that is not open', async () => {
    client.type(URI, 0, 0, '; above\n');
    const sound = await ask();
    assert.equal(sound?.version, 2);
    const text = `; above\n${LAMPS}`;
    const [{ place }] = timelineOf(sound).notes;
    assert.equal(text.slice(place.start, place.end), 'G');
    assert.equal(await ask(undefined, 'file:///lessons/other.lesson'), null);
  });
});
