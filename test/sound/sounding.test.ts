/** When what is written is heard: a quarter lasts a second in all of these, so that times can be counted on the fingers. */
import assert from 'node:assert/strict';
import { analyze, variantNamed } from '../../server/src/analyze.ts';
import { soundingOf, type Sounding, type SoundingOptions } from '../../server/src/export/sounding.ts';
import type { SoundNote } from '../../server/src/sound/timeline.ts';

const HEAD = 'lesson "Slow"\nkey C major\ntempo 60\n';

const sounding = (text: string, options: SoundingOptions = {}): Sounding => soundingOf(analyze(HEAD + text), options);

const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** `2:8@1` is string 2, fret 8 of a guitar, at one second. */
function times(played: Sounding, wanted: (note: SoundNote) => boolean = () => true): string {
  const open = [64, 59, 55, 50, 45, 40];
  return played.notes
    .filter(wanted)
    .map(({ string, midi, at }) => `${string}:${midi - open[string - 1]}@${rounded(at)}`)
    .join(' ');
}

const TAB = (signs: string): string => `tab one
  each 1/8
  1 | ${signs} |
section one
  tab one
`;

/** Four quarters a bar, every bar told from the others by its fret. */
const BARS = (frets: readonly number[], more = ''): string => `tab body
  each 1/4
  1 | ${frets.map((fret) => `${fret} - - -`).join(' | ')} |
tab first
  each 1/4
  1 | 11 - - - |
tab second
  each 1/4
  1 | 12 - - - |
section one
  tab body
${more}`;

describe('the time of a note', () => {
  it('is its place in the bar at the tempo', () => {
    assert.equal(times(sounding(TAB('0 - 1 3 - 5 - -'))), '1:0@0 1:1@1 1:3@1.5 1:5@2.5');
  });

  it('is swung two to one where swing is set, and triplets are not', () => {
    assert.equal(times(sounding(`swing 1/8\n${TAB('0 1 2 3 - 5 - -')}`)), '1:0@0 1:1@0.667 1:2@1 1:3@1.667 1:5@2.667');
    const melody = `swing 1/8
melody thirds on 1
  each 1/8
  triplet(0 1 2) 3 5 7 8
section one
  melody thirds
`;
    // Three in a second, then pairs that are long and short.
    assert.equal(times(sounding(melody)), '1:0@0 1:1@0.333 1:2@0.667 1:3@1 1:5@1.667 1:7@2 1:8@2.667');
  });

  it('follows another tempo in proportion', () => {
    assert.equal(times(sounding(TAB('0 - 1 3 - 5 - -'), { perMinute: 120 })), '1:0@0 1:1@0.5 1:3@0.75 1:5@1.25');
  });

  it('follows the tempo of each section, and a tempo for practice keeps their proportion', () => {
    const text = `tab one
  each 1/4
  1 | 1 2 3 4 |
section slow
  tab one
section quick
  tab one
  tempo 120
`;
    const whole = '1:1@0 1:2@1 1:3@2 1:4@3 1:1@4 1:2@4.5 1:3@5 1:4@5.5';
    assert.equal(times(sounding(text)), whole);
    assert.equal(times(sounding(text, { perMinute: 30 })), '1:1@0 1:2@2 1:3@4 1:4@6 1:1@8 1:2@9 1:3@10 1:4@11');
    assert.equal(times(sounding(text, { section: 1, perMinute: 60 })), '1:1@0 1:2@1 1:3@2 1:4@3');
  });
});

describe('the order played', () => {
  it('repeats a section, each time with its ending', () => {
    const played = sounding(BARS([1, 2], '  times 2\n  ending 1 first\n  ending 2 second\n'));
    assert.equal(times(played), '1:1@0 1:2@4 1:11@8 1:1@12 1:2@16 1:12@20');
    assert.equal(played.seconds, 24);
    assert.deepEqual(
      played.bars.map(({ bar, at, seconds }) => [bar, at, seconds]),
      [0, 1, 2, 0, 1, 3].map((bar, index) => [bar, index * 4, 4]),
    );
  });

  it('is that of the form', () => {
    const text = `tab low
  each 1/4
  1 | 1 - - - |
tab high
  each 1/4
  1 | 9 - - - |
section a
  tab low
section b
  tab high
form a b b a
`;
    assert.equal(times(sounding(text)), '1:1@0 1:9@4 1:9@8 1:1@12');
    assert.deepEqual(
      sounding(text).notes.map(({ place }) => place.section),
      [0, 1, 1, 0],
    );
  });

  it('plays a pick-up once', () => {
    const text = `melody up on 1
  each 1/4
  7 | 1 - - -
section one
  pickup 1/4
  melody up
  times 2
`;
    const played = sounding(text);
    assert.equal(times(played), '1:7@0 1:1@1 1:1@5');
    // The metronome's first beat falls on the bar line behind the pick-up.
    assert.deepEqual(played.beats.slice(0, 3), [
      { at: 0, first: false },
      { at: 1, first: true },
      { at: 2, first: false },
    ]);
    // One bar and three beats are counted: the pick-up ends the second bar.
    assert.deepEqual(
      played.bars[0].countIn.map(({ at, first }) => `${at}${first ? '!' : ''}`).join(' '),
      '-7! -6 -5 -4 -3! -2 -1',
    );
  });

  it('plays some bars alone, each once', () => {
    const text = BARS([1, 2, 3, 4], '  times 3\n');
    assert.equal(times(sounding(text, { section: 0, bars: { first: 2, last: 3 } })), '1:2@0 1:3@4');
  });

  it('ends where nobody would listen any more', () => {
    const text = BARS([1, 2, 3, 4], '  times 20\n') + `form ${'one '.repeat(20)}\n`;
    const played = sounding(text);
    assert.ok(played.isCut && played.seconds <= 3600 && played.notes.length > 100);
  });
});

describe('a chord', () => {
  const STRUM = `grip C x32010
grip G 320003
cell brush
  each 1/4
  down - up -
cell roll
  each 1/1
  roll
cell once
  each 1/1
  p(bass)
`;

  it('sounds its strings in turn: down from the lowest, up from the highest, a roll slower', () => {
    const played = sounding(`${STRUM}progression one\n  C\nsection one\n  progression one\n  cell brush\n`);
    const turn = (at: number): string =>
      played.notes
        .filter((note) => note.at === at)
        .sort((a, b) => a.offset - b.offset)
        .map(({ string, offset }) => `${string}+${Math.round(offset * 1000)}`)
        .join(' ');
    assert.equal(turn(0), '5+0 4+9 3+18 2+27 1+36');
    assert.equal(turn(2), '1+0 2+7 3+14 4+21 5+28');
    const rolled = sounding(`${STRUM}progression one\n  C\nsection one\n  progression one\n  cell roll\n`);
    assert.deepEqual(rolled.notes.map(({ string, offset }) => `${string}+${Math.round(offset * 1000)}`).sort(), [
      '1+160',
      '2+120',
      '3+80',
      '4+40',
      '5+0',
    ]);
  });

  it('comes an eighth early where it is pushed, and a little later than that where that is swung', () => {
    const text = (swing: string): string =>
      `${swing}${STRUM}progression one\n  C | G pushed\nsection one\n  progression one\n  cell once\n`;
    assert.equal(times(sounding(text(''))), '5:3@0 6:3@3.5');
    assert.equal(times(sounding(text('swing 1/8\n'))), '5:3@0 6:3@3.667');
    // Where the bar before is not played, its bar begins with it.
    assert.equal(times(sounding(text(''), { section: 0, bars: { first: 2, last: 2 } })), '6:3@0');
  });

  it('rings until its strings are taken, and the last one until it has died away', () => {
    const played = sounding(`${STRUM}progression one\n  C | G\nsection one\n  progression one\n  cell once\n`);
    assert.deepEqual(
      played.notes.map(({ string, until, rings }) => [string, until, rings]),
      [
        [5, 4, false],
        [6, 8, true],
      ],
    );
  });

  it('rings over a jump only on strings that are held there too', () => {
    const arpeggio = (second: string): Sounding =>
      sounding(`${STRUM}grip Am x02210
cell down
  each 1/4
  down - - -
progression one
  ${second} | C
section one
  progression one
  cell down
  times 2
`);
    // From C at the end of the first time back to Am: strings 5 and 3 change, 4, 2 and 1 are the same in both.
    const ends = arpeggio('Am')
      .notes.filter(({ at }) => at === 4)
      .map(({ string, until }) => `${string} ${until}`)
      .sort();
    assert.deepEqual(ends, ['1 12', '2 12', '3 8', '4 12', '5 8']);
  });
});

describe('what is done to a note', () => {
  it('is told: touches, bends, vibrato, damping, force', () => {
    const [, hammer, pull, slide] = sounding(TAB('5 h7 p5 /9 - - - -')).notes;
    assert.deepEqual([hammer.touch, pull.touch, slide.touch, slide.from], ['hammer', 'pull', 'slide', 64 + 5]);
    const [bent, shaken, dead, ghost, plain] = sounding(TAB('7b9r7 - 5~ - x (5) 5 -')).notes;
    assert.deepEqual(bent.bend, { semitones: 2, before: false, release: true });
    assert.ok(shaken.vibrato && !plain.vibrato);
    assert.equal(dead.damping, 'dead');
    assert.ok(ghost.force < plain.force);
  });

  it('leads to its note before the beat where it is a grace note', () => {
    const graced = sounding(TAB('3 - - - g5 7 - - -').replace('g5 7', 'g5h7')).notes;
    const [, grace, main] = graced;
    assert.ok(grace.at + grace.offset < main.at && grace.at === main.at);
  });

  it('is a partial of the pressed string in a harmonic', () => {
    // Touched at 12 the octave, at 7 the twelfth, of the open E4.
    const [octave, twelfth] = sounding(TAB('<12> - - - <7> - - -')).notes;
    assert.deepEqual([octave.midi, octave.partial, twelfth.midi, twelfth.partial], [64, 2, 64, 3]);
  });
});

describe('the place of a note', () => {
  it('is the sign of a tab, or the chord that it sounds', () => {
    const text = `${HEAD}${TAB('0 - 1 3 - 15 - -')}`;
    const { notes } = soundingOf(analyze(text), {});
    assert.deepEqual(
      notes.map(({ place }) => text.slice(place.start, place.end)),
      ['0', '1', '3', '15'],
    );
    const strummed = `${HEAD}grip Am x02210\ncell brush\n  each 1/2\n  down\nprogression one\n  C Am\nsection one\n  progression one\n  cell brush\n`;
    const words = soundingOf(analyze(strummed), {}).notes.map(({ place }) => strummed.slice(place.start, place.end));
    assert.deepEqual([...new Set(words)], ['C', 'Am']);
  });
});

describe('a variant', () => {
  it('sounds with its own tempo and capo', () => {
    const text = `${HEAD}${TAB('0 - 1 - - - - -')}variant high "Higher"\n  capo 3\n  tempo 30\n`;
    const { notes } = soundingOf(variantNamed(analyze(text), 'high')!, {});
    assert.deepEqual(
      notes.map(({ midi, at }) => [midi, at]),
      [
        [67, 0],
        [68, 2],
      ],
    );
  });
});
