/** Claims about held shapes. The figures of the first lesson were worked out by hand on the neck; those of the grips stand in their frets. */
import assert from 'node:assert/strict';
import { ClaimedLesson } from '../../support/claims.ts';

/** G x-x-9-0-8-10, D x-x-4-0-3-5, Em x-x-5-0-5-7: strings 4 to 1 sound G3-B3, F#3-G3 and G3-G3 below D4-A4 and the rest. */
const lamps = new ClaimedLesson(`
  key G major

  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2

  progression quay
    G | D | Em

  section verse
    progression quay
    shape lamp
`);

const grips = new ClaimedLesson(`
  key C major

  progression lane
    C as x32010 | Am as x02210 | F as 133211 | G as 320003 | N.C.

  section verse
    progression lane

  section coda
    progression lane bars 1 to 2
`);

const unvoiced = new ClaimedLesson(`
  shape low
    strings 6 5 4
    tones 3 R 5
    frets 1 to 2
    reach 0

  progression quay
    E as 022100 | Eb | E as 022100

  section verse
    progression quay
    shape low
`);

describe('reach at most', () => {
  it('holds of the widest shape, and says what it spans where it does not', () => {
    assert.equal(lamps.answer('reach at most 2'), 'true');
    assert.equal(lamps.why('reach at most 2'), 'The widest shape: `G` in bar 1 spans 2 frets, from 8 to 10.');
    assert.equal(lamps.answer('reach at most 1'), 'false: `G` in bar 1 spans 2 frets, from 8 to 10');
    assert.equal(lamps.mended('reach at most 1'), 'reach at most 2');
  });
  it('counts the other bars that break it, in the section that it names', () => {
    const { message, points } = grips.finding('reach at most 1 in verse');
    assert.equal(message, 'Not so: `C` in bar 1 of verse spans 2 frets, from 1 to 3 (bar 3 breaks it too).');
    assert.equal(points, 'C as x32010');
  });
});

describe('no barre', () => {
  it('holds where each finger holds one string', () => assert.equal(lamps.answer('no barre'), 'true'));
  it('names the finger, its strings and its fret', () => {
    const truth = '`F` in bar 3 of verse has the index finger over strings 6 to 1 at fret 1';
    assert.equal(grips.answer('no barre'), `false: ${truth}`);
    assert.equal(grips.finding('no barre').points, 'F as 133211');
    assert.equal(grips.mended('no barre'), 'no fix');
  });
});

describe('frets', () => {
  it('speaks of whatever is pressed, and not of open strings', () => {
    assert.equal(grips.answer('frets 1 to 3'), 'true');
    assert.equal(grips.why('frets 1 to 3'), 'The lowest fret pressed is 1, the highest 3.');
    assert.equal(lamps.answer('frets 3 to 10'), 'true');
  });
  it('says where a bar goes beyond, and widens the range', () => {
    assert.equal(lamps.answer('frets 3 to 9'), 'false: bar 1 goes up to fret 10');
    assert.equal(lamps.answer('frets 4 to 12'), 'false: bar 2 goes down to fret 3');
    assert.equal(lamps.answer('frets 4 to 4'), 'false: bar 1 goes up to fret 10');
    assert.equal(lamps.mended('frets 4 to 4'), 'frets 3 to 10');
    assert.equal(lamps.finding('frets 4 to 12').points, 'D');
  });
  it('counts the melody in', () => {
    // Over G on string 1 the fifth lies at fret 10, a step of the scale above it at 12.
    const sung = new ClaimedLesson(`
      key G major
      shape lamp
        strings 4 2 1
        tones 3 R 5
        open 3
      progression quay
        G at 8
      contour swell on 1
        each 1/4
        from 5: 0 +1
      section verse
        progression quay
        shape lamp
        contour swell
    `);
    assert.equal(sung.answer('frets 8 to 10'), 'false: bar 1 goes up to fret 12');
  });
});

describe('open throughout', () => {
  it('holds where the strings ring open in every shape', () => {
    assert.equal(lamps.answer('open 3 throughout'), 'true');
    // Over D the open G is the eleventh; over G and Em it is the root and the third.
    assert.equal(lamps.why('open 3 throughout'), 'String 3 rings open in all 3 shapes, a colour in 1 of them.');
  });
  it('says what the string does instead, and which strings would be right', () => {
    assert.equal(lamps.answer('open 2 throughout'), 'false: string 2 is held at fret 8 under `G` in bar 1');
    assert.equal(lamps.answer('open 3 6 throughout'), 'false: string 6 is silent under `G` in bar 1');
    assert.equal(lamps.mended('open 3 6 throughout'), 'open 3 throughout');
    assert.equal(grips.answer('open 3 throughout'), 'false: string 3 is held at fret 2 under `Am` in bar 2 of verse');
    assert.equal(grips.mended('open 3 throughout'), 'no fix');
  });
});

describe('a common tone', () => {
  it('is in every shape, in its octave where that is named', () => {
    assert.equal(lamps.answer('common tone G3 throughout'), 'true');
    assert.equal(lamps.answer('common tone G throughout'), 'true');
    assert.equal(lamps.why('common tone G3 throughout'), 'All 3 shapes sound G3, on strings 3 and 4.');
  });
  it('says what sounds where it is missing', () => {
    const truth = '`D` in bar 2 sounds F#3 G3 D4 A4, and no B among them';
    assert.equal(lamps.answer('common tone B throughout'), `false: ${truth}`);
    assert.equal(lamps.mended('common tone B throughout'), 'common tone G throughout');
    assert.equal(lamps.mended('common tone G4 throughout'), 'common tone G3 throughout');
    assert.equal(grips.mended('common tone G throughout'), 'no fix');
  });
});

describe('a claim about shapes', () => {
  it('is not called false for a chord that has no voicing', () => {
    const shapes = ['reach at most 3', 'no barre', 'frets 0 to 4', 'open 1 throughout', 'common tone E throughout'];
    for (const claim of [...shapes, 'scale E major', 'playable at 60'])
      assert.equal(unvoiced.answer(claim), 'undecided: `Eb` in bar 2 has no voicing', claim);
    assert.equal(unvoiced.finding('no barre').message, 'This cannot be checked yet: `Eb` in bar 2 has no voicing.');
  });
  it('is false all the same where another chord breaks it', () =>
    assert.match(unvoiced.answer('reach at most 0'), /^false: `E` in bar 1 spans 1 fret/));
  it('has nothing to speak of where no chord is played', () => {
    const empty = new ClaimedLesson('key G major');
    assert.equal(empty.answer('no barre'), 'undecided: no chord is played in the lesson');
    assert.equal(
      empty.finding('no barre').message,
      'Nothing shows whether this is true: no chord is played in the lesson; write it, or take the claim out.',
    );
  });
});
