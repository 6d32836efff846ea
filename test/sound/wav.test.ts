/** The WAV file: its head, its bounds, the same bytes every time, and what the program says of it. */
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { analyze } from '../../server/src/analyze.ts';
import { lessonWav, type SoundValues } from '../../server/src/cli/export-sound.ts';
import { soundingOf, type SoundingOptions } from '../../server/src/export/sounding.ts';
import { wavOf } from '../../server/src/export/wav.ts';
import { run, withFiles } from '../support/program.ts';

const LESSON = `lesson "Two chords"
key C major
tempo 120
grip C x32010
grip G 320003
cell brush
  each 1/4
  down up down up
progression home
  C | G
section verse
  progression home
  cell brush
section coda
  progression home
  cell brush
  times 2
`;

const wav = (options: SoundingOptions, beside = { countIn: false, click: false }): DataView => {
  const bytes = wavOf(soundingOf(analyze(LESSON), options), beside);
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
};

/** One channel as whole numbers: 0 is the left one. */
const channel = (file: DataView, which: 0 | 1): readonly number[] =>
  Array.from({ length: (file.byteLength - 44) / 4 }, (_, index) => file.getInt16(44 + index * 4 + which * 2, true));

const word = (file: DataView, at: number): string =>
  String.fromCharCode(...[0, 1, 2, 3].map((index) => file.getUint8(at + index)));

const loudest = (samples: readonly number[]): number => samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);

describe('a WAV file', () => {
  it('says what it holds: sixteen bits, two channels, 44.1 kHz', () => {
    const file = wav({ section: 0 });
    assert.deepEqual(
      [0, 8, 12, 36].map((at) => word(file, at)),
      ['RIFF', 'WAVE', 'fmt ', 'data'],
    );
    assert.equal(file.getUint32(4, true), file.byteLength - 8);
    assert.equal(file.getUint32(40, true), file.byteLength - 44);
    assert.deepEqual(
      [20, 22, 32, 34].map((at) => file.getUint16(at, true)),
      [1, 2, 4, 16],
    );
    assert.deepEqual(
      [24, 28].map((at) => file.getUint32(at, true)),
      [44_100, 176_400],
    );
  });

  it('lasts as long as its bars and the strings that ring on, and ends silent', () => {
    const samples = channel(wav({ section: 0 }), 0);
    // Two bars of two seconds each; at most six seconds more.
    assert.ok(samples.length > 4 * 44_100 && samples.length < 10 * 44_100);
    assert.equal(loudest(samples.slice(-2000)), 0);
    assert.ok(loudest(samples) > 8000 && loudest(samples) < 32_767);
  });

  it('is the same every time', () => {
    const hash = (): string =>
      createHash('sha256')
        .update(wav({ section: 1 }))
        .digest('hex');
    assert.equal(hash(), hash());
  });

  it('is counted in, and clicked to, where that is wanted', () => {
    const bare = channel(wav({ section: 0 }), 0);
    const counted = channel(wav({ section: 0 }, { countIn: true, click: false }), 0);
    // A bar of four half seconds comes first, and then all is as without it.
    for (let index = 0; index < 30_000; index++) assert.ok(Math.abs(counted[index + 88_200] - bare[index]) <= 2);
    assert.ok(loudest(counted.slice(22_050, 22_500)) > 1000);
    const clicked = channel(wav({ section: 0 }, { countIn: false, click: true }), 0);
    assert.notDeepEqual(clicked, bare);
  });
});

describe('stringcourse export --to wav', function () {
  this.timeout(60_000);

  it('writes the file, and again the same bytes', () =>
    withFiles({ 'a.lesson': LESSON }, (folder) => {
      const out = join(folder, 'a.wav');
      const write = (): Buffer => {
        const { status, told } = run(['export', 'a.lesson', '--to', 'wav', '--out', out], { cwd: folder });
        assert.equal(status, 0, told);
        return readFileSync(out);
      };
      assert.ok(write().equals(write()));
    }));

  it('keeps what is for sound alone from all else', () => {
    const ended = run(['export', '-', '--to', 'tab', '--click'], { input: LESSON });
    assert.equal(ended.status, 2);
    assert.match(ended.told, /^stringcourse: --click is for what is heard: --to wav\.\n$/);
  });

  const NOTHING: SoundValues = { 'count-in': false, click: false };
  const written = (values: Partial<SoundValues>, text = LESSON): Uint8Array =>
    lessonWav(analyze(text), { ...NOTHING, ...values });

  it('takes a section, bars and a tempo', () => {
    const seconds = (values: Partial<SoundValues>): number => (written(values).length - 44) / 176_400;
    const verse = seconds({ section: 'verse' });
    // One bar fewer is two seconds fewer; at half the tempo two bars take four seconds more. Tails differ by less than a second.
    assert.ok(Math.abs(verse - 2 - seconds({ section: 'verse', bars: '2' })) < 1);
    assert.ok(Math.abs(verse + 4 - seconds({ section: 'verse', tempo: '60' })) < 1);
  });

  it('says in one line what cannot be done', () => {
    const refused: readonly (readonly [Partial<SoundValues>, RegExp, string?])[] = [
      [{ section: 'intro' }, /^No section is called "intro": there is verse, coda\.$/],
      [{ bars: '1-2' }, /^--bars must know of which --section: there is verse, coda\.$/],
      [{ section: 'verse', bars: '3-1' }, /ends before it begins/],
      [{ section: 'verse', bars: '7' }, /the last bar is 2/],
      [{ tempo: '3' }, /--tempo takes a whole number from 10/],
      [{}, /There is nothing to hear/, 'lesson "Empty"\n'],
      [{}, /longer than 15 minutes: choose a part of it with --section/, `${LESSON}form ${'coda '.repeat(200)}\n`],
    ];
    for (const [values, message, text] of refused) assert.throws(() => written(values, text), { message });
  });
});
