/** Tabs and melodies as they are written: pitches, fingers of both hands, how long each string sounds. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import type { NoteEvent } from '../../server/src/realise/score.ts';
import { formatPitch } from '../../server/src/theory/note.ts';
import { formatFraction } from '../../server/src/util/fraction.ts';

const eventsOf = (text: string): readonly (readonly NoteEvent[])[] =>
  analyze(text).score.sections[0].bars.map(({ events }) => events);

/** Each note as `string.fret pitch @start =length ~ringing`. */
const heard = (text: string): readonly string[] =>
  eventsOf(text).map((events) =>
    events
      .map(
        ({ string, fret, pitch, start, length, ringing }) =>
          `${string}.${fret} ${formatPitch(pitch)} @${formatFraction(start)} =${formatFraction(length)} ~${formatFraction(ringing)}`,
      )
      .join(', '),
  );

const tab = (rows: string, more = ''): string => `key G major
meter 4/4
${more}
tab coda
  each 1/4
${rows}

section end
  tab coda
`;

describe('a tab', () => {
  it('names no finger for more strings at once than fingers pluck', () => {
    const plucked = (chord: string): readonly string[] =>
      eventsOf(tab(`${chord}\n  6 | 3 - - - |\n  pluck p - - - |`))[0].map(
        ({ string, pluck }) => `${string}${pluck ?? '-'}`,
      );
    assert.deepEqual(plucked('  1 | - - 3 - |\n  2 | - - 0 - |\n  3 | - - 0 - |\n  4 | - - 0 - |'), [
      '6p',
      '4p',
      '3i',
      '2m',
      '1a',
    ]);
    const five = '  1 | - - 3 - |\n  2 | - - 0 - |\n  3 | - - 0 - |\n  4 | - - 0 - |\n  5 | - - 2 - |';
    assert.deepEqual(plucked(five), ['6p', '5-', '4-', '3-', '2-', '1-']);
  });

  it('sounds each string until something else is said on it', () => {
    assert.deepEqual(heard(tab('  1 | 0 - 3 - |\n  6 | 3 - - - |')), [
      '6.3 G2 @0 =1/2 ~1, 1.0 E4 @0 =1/2 ~1/2, 1.3 G4 @1/2 =1/2 ~1/2',
    ]);
  });

  it('is silent where it says so', () => {
    assert.deepEqual(heard(tab('  1 | 0 r - - |\n  6 | 3 - - - |')), ['6.3 G2 @0 =1 ~1, 1.0 E4 @0 =1/4 ~1/4']);
  });

  it('rings over the bar line, and holds what is tied', () => {
    const [first, second] = heard(tab('  1 | 0 - - - | - - 3 - |\n  6 | 3 - - - | - - - - |'));
    assert.equal(first, '6.3 G2 @0 =1 ~2, 1.0 E4 @0 =1 ~3/2');
    assert.equal(second, '1.3 G4 @1/2 =1/2 ~1/2');
  });

  it('ends a pressed note where its finger is wanted elsewhere', () => {
    // The index at the first fret cannot stay while it holds the seventh.
    const [line] = heard(tab('  1 | - - 7 - |\n  6 | 1 - - - |'));
    assert.match(line, /^6\.1 F2 @0 =1\/2 ~1\/2, 1\.7 B4/);
  });

  it('spells by the chord over it, and counts from the capo', () => {
    assert.deepEqual(heard(tab('  chords E7\n  3 | 1 - - - |')), ['3.1 G#3 @0 =1 ~1']);
    assert.deepEqual(heard(tab('  chords E7\n  3 | 1 - - - |', 'capo 2')), ['3.1 A#3 @0 =1 ~1']);
  });

  it('sounds harmonics where they sound, by the parts of a string', () => {
    // Physics: half the string gives the octave, a third the twelfth, a quarter two octaves.
    for (const [sign, pitch] of [
      ['<12>', 'E5'],
      ['<7>', 'B5'],
      ['<5>', 'E6'],
      ['2<14>', 'F#5'],
    ])
      assert.match(heard(tab(`  1 | ${sign} - - - |`))[0], new RegExp(` ${pitch} @0`), sign);
  });

  it('takes the fingers that the author writes', () => {
    const [[note]] = eventsOf(tab('  1 | 5 - - - |\n  fingers 4 - - -\n  pluck a - - -'));
    assert.equal(note.finger, 4);
    assert.equal(note.pluck, 'a');
  });

  it('fingers a scale in one position, a finger a fret', () => {
    // As every method teaches the chromatic finger exercise.
    const [line] = eventsOf(tab('  1 | 5 6 7 8 |'));
    assert.deepEqual(
      line.map(({ finger }) => finger),
      [1, 2, 3, 4],
    );
  });

  it('shifts only where the hand does not have both notes under its fingers', () => {
    const tooFast = (rows: string): readonly string[] =>
      analyze(tab(rows, 'tempo 60\n').replace('each 1/4', 'each 1/16'))
        .findings.map(({ code }) => code)
        .filter((code) => code === 'notes-too-fast');
    // The ring finger beside the index in the grip of Am, and a finger a fret at the nut, where four frets are wider than a hand at rest.
    assert.deepEqual(tooFast('  3 | 2 - p1 h2 - - - - - - - - - - - - |\n  fingers 3 - 1 3'), []);
    assert.deepEqual(
      tooFast('  3 | - - - 1 - - - -  - - - - - - - - |\n  4 | - - 4 - - - - - - - - - - - - - |\n  fingers - - 4 1'),
      [],
    );
    // A slide is heard on its way, and takes no other time.
    assert.deepEqual(tooFast('  1 | 2 /9 - - - - - -  - - - - - - - - |'), []);
    assert.deepEqual(tooFast('  1 | 2 9 - - - - - -  - - - - - - - - |'), ['notes-too-fast']);
  });

  it('fingers a chord as its shape is fingered', () => {
    const [chord] = eventsOf(
      tab('  1 | 0 - - - |\n  2 | 1 - - - |\n  3 | 0 - - - |\n  4 | 2 - - - |\n  5 | 3 - - - |'),
    );
    assert.deepEqual(
      chord.map(({ string, finger }) => `${string}:${finger}`),
      ['5:3', '4:2', '3:0', '2:1', '1:0'],
    );
  });

  it('keeps what is done to a note', () => {
    const [notes] = eventsOf(tab('  1 | 5 h7 7b9 x |'));
    assert.deepEqual(
      notes.map(({ technique }) => technique && [technique.attack, technique.bend?.quarters ?? 0, technique.dead]),
      [undefined, ['hammer-on', 0, false], ['plucked', 4, false], ['plucked', 0, true]],
    );
  });
});

describe('a melody that is written out', () => {
  const over = (melody: string, more = ''): string => `key G major
meter 3/4

shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3
  frets 1 to 12
  reach 2

progression quay
  G | D

cell ripple
  each 1/8
  p4 i3 m2 i3 m2 i3

melody landing on 1
  each 1/4
  ${melody}

section verse
  progression quay
  shape lamp
  cell ripple
  melody landing
${more}`;
  const sung = (text: string): readonly string[] =>
    eventsOf(text).map((events) =>
      events
        .filter(({ voice }) => voice === 'melody')
        .map(({ string, fret, finger, syllable }) => `${string}.${fret}:${finger ?? '?'}${syllable?.text ?? ''}`)
        .join(' '),
    );

  it('lies over the shape that is held, with the fingers that the shape leaves free', () => {
    // Over G (x-x-9-0-8-10, fingers 2 0 1 3) fret 8 is the index laid flat, as over D fret 3 is.
    assert.deepEqual(sung(over('10 8 10 | 5 3 5')), ['1.10:3 1.8:1 1.10:3', '1.5:3 1.3:1 1.5:3']);
  });

  it('is as a contour that comes to the same frets', () => {
    const contour = over('10').replace(
      /melody landing on 1\n {2}each 1\/4\n {2}10/,
      'contour landing on 1\n  each 1/4\n  from 5: 0 -1 0',
    );
    const told = sung(contour.replace('  melody landing\n', '  contour landing\n'));
    assert.deepEqual(told, sung(over('10 8 10 | 5 3 5')));
  });

  it('is warned of where the hand cannot have it', () => {
    const { findings } = analyze(over('10 8 10 | 17 3 5'));
    const [found] = findings.filter(({ code }) => code === 'notes-unreachable');
    assert.match(found.message, /^In bar 2, fret 17 of string 1 is out of reach: /);
  });

  it('takes the words, a syllable a note', () => {
    assert.deepEqual(sung(over('10 8 10 | 5 3 5', '  words low- tide lan- | terns - now\n')), [
      '1.10:3low 1.8:1tide 1.10:3lan',
      '1.5:3terns 1.3:1 1.5:3now',
    ]);
  });

  it('is played by itself where no shape is held', () => {
    const alone =
      'key C major\nmeter 4/4\n\nmelody landing on 2\n  each 1/4\n  1 3 1: 0 1\n\nsection verse\n  melody landing\n';
    assert.deepEqual(sung(alone), ['2.1:1 2.3:3 1.0:0 1.1:1']);
  });

  it('rests where it says so, and holds over the bar line', () => {
    const [first, second] = eventsOf(
      'key C major\nmeter 2/4\n\nmelody landing on 2\n  each 1/4\n  1 3 | - r\n\nsection verse\n  melody landing\n',
    );
    assert.deepEqual(
      first.map(({ fret, ringing }) => `${fret} ~${formatFraction(ringing)}`),
      ['1 ~1/4', '3 ~1/2'],
    );
    assert.deepEqual(second, []);
  });

  it('has words without a melody fall on the strokes', () => {
    const text =
      'key C major\n\nprogression quay\n  C\n\ncell strum\n  each 1/4\n  down down down down\n\nsection verse\n  progression quay\n  cell strum\n  words low tide\n';
    const [events] = eventsOf(text);
    assert.deepEqual(
      events.flatMap(({ start, syllable }) => (syllable ? [`${formatFraction(start)} ${syllable.text}`] : [])),
      ['0 low', '1/2 tide'],
    );
  });

  it('has several syllables on one stroke where there are fewer strokes', () => {
    const text = (strokes: string): string =>
      `key C major\n\nprogression quay\n  C\n\ncell strum\n  each 1/2\n  ${strokes}\n\nsection verse\n  progression quay\n  cell strum\n  words | high on the win- dow |\n`;
    const words = (strokes: string): readonly string[] =>
      eventsOf(text(strokes))[0].flatMap(({ start, syllable }) =>
        syllable ? [`${formatFraction(start)} ${syllable.text}`] : [],
      );
    assert.deepEqual(words('down -'), ['0 high on the window']);
    assert.deepEqual(words('down down'), ['0 high on the', '1/2 window']);
  });
});
