/** Claims about one chord: what it is, its tones from the lowest note up, and what an open string adds. */
import assert from 'node:assert/strict';
import { ClaimedLesson } from '../../support/claims.ts';

/** From the lowest note: G B G D, F# G D A, G G E B, G C A E. */
const lamps = new ClaimedLesson(`
  key G major
  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2
  progression quay
    G | D | Em | Am | C as x32010 G as 320003
  section verse
    progression quay
    shape lamp
`);

describe('is', () => {
  it('compares root, bass and intervals', () => {
    assert.equal(lamps.answer('bar 2 is Dadd11/F#'), 'true');
    assert.equal(lamps.answer('verse bar 2 chord 1 is Dadd11/Gb'), 'true');
    assert.equal(lamps.answer('bar 4 is Am7/G'), 'true');
    // The same four notes over the same bass.
    assert.equal(lamps.answer('bar 4 is C6/G'), 'true');
    assert.match(
      lamps.why('bar 4 is Am7/G'),
      /^From the lowest note, bar 4 sounds G C A E, and is as truly called .*`C6\/G`/,
    );
    const truth = 'bar 2 sounds `Dadd11/F#`, from the lowest note F# G D A';
    for (const claim of ['bar 2 is D/F#', 'bar 2 is Dadd11', 'bar 2 is Dmadd11/F', 'bar 2 is D7/F#'])
      assert.equal(lamps.answer(claim), `false: ${truth}`, claim);
  });
  it('does not mind a missing fifth', () => {
    const fifthless = new ClaimedLesson('progression p\n  C7 as x3231x\nsection s\n  progression p');
    // C E Bb C.
    assert.equal(fifthless.answer('bar 1 is C7'), 'true');
    assert.equal(fifthless.answer('bar 1 is C'), 'false: bar 1 sounds `C7`, from the lowest note C E Bb C');
  });
  it('counts chords in their bar, the first where none is named', () => {
    assert.equal(lamps.answer('bar 5 is C'), 'true');
    assert.equal(lamps.answer('bar 5 chord 2 is G'), 'true');
    assert.equal(
      lamps.answer('bar 5 chord 2 is C'),
      'false: chord 2 of bar 5 sounds `G`, from the lowest note G B D G B G',
    );
    assert.equal(lamps.finding('bar 5 chord 2 is C').points, 'G as 320003');
  });
  it('is mended to the name of what sounds', () => {
    assert.equal(lamps.mended('bar 2 is D'), 'bar 2 is Dadd11/F#');
    assert.equal(lamps.mended('verse bar 5 chord 2 is C'), 'verse bar 5 chord 2 is G');
    assert.equal(lamps.finding('bar 2 is D').points, 'D');
  });
  it('reads numerals in the key of the section', () => {
    const capped = new ClaimedLesson('key G major\nprogression p\n  V as xx0232\nsection s\n  progression p');
    assert.equal(capped.answer('bar 1 is V'), 'true');
    assert.equal(capped.answer('bar 1 is IV'), 'false: bar 1 sounds `D`, from the lowest note D A D F#');
  });
  it('names the shapes behind a capo, as the symbols do', () => {
    const capo = new ClaimedLesson('capo 3\nprogression p\n  G as 320003\nsection s\n  progression p');
    assert.equal(capo.answer('bar 1 is G'), 'true');
    assert.equal(capo.answer('bar 1 is Bb'), 'false: bar 1 sounds `G`, from the lowest note G B D G B G');
  });
  it('knows no bass on strings that do not rise', () => {
    const ukulele = new ClaimedLesson('tuning ukulele\nprogression p\n  C as 0003\nsection s\n  progression p');
    // G4 C4 E4 C5: the lowest is C, the fourth string is not.
    assert.equal(ukulele.answer('bar 1 is C'), 'true');
    const fmajor = new ClaimedLesson('tuning ukulele\nprogression p\n  F as 2010\nsection s\n  progression p');
    // A4 C4 F4 A4.
    assert.equal(fmajor.answer('bar 1 is F'), 'true');
  });
  it('is no chord where one note sounds', () => {
    const one = new ClaimedLesson('progression p\n  G5 as 3xxxxx\nsection s\n  progression p');
    assert.match(one.answer('bar 1 is G5'), /^false: bar 1 sounds `G`/);
    assert.equal(one.mended('bar 1 is G5'), 'no fix');
  });
});

describe('tones', () => {
  it('go from the lowest note to the highest', () => {
    assert.equal(lamps.answer('bar 2 tones 3 11 R 5'), 'true');
    assert.equal(lamps.answer('bar 2 tones 3 4 R 5'), 'true');
    const truth = 'from the lowest note, bar 2 sounds 3 11 R 5 of `D`';
    for (const claim of ['bar 2 tones 11 3 R 5', 'bar 2 tones 3 R 5', 'bar 2 tones b3 11 R 5'])
      assert.equal(lamps.answer(claim), `false: ${truth}`, claim);
    assert.equal(lamps.mended('bar 2 tones 3 R 5'), 'bar 2 tones 3 11 R 5');
  });
  it('follow the chord’s own quality', () => {
    assert.equal(lamps.answer('bar 3 tones 3 3 R 5'), 'true');
    assert.equal(lamps.answer('bar 3 tones b3 b3 R 5'), 'true');
    assert.match(lamps.answer('bar 2 tones b3 11 R 5'), /^false/);
  });
});

describe('open adds', () => {
  it('names the tone that the open string alone has', () => {
    assert.equal(lamps.answer('bar 2 open 3 adds 11'), 'true');
    assert.equal(
      lamps.why('bar 2 open 3 adds 11'),
      'Open, string 3 is G3, the eleventh of `D`; no other string has it.',
    );
    assert.equal(lamps.answer('bar 4 open 3 adds b7'), 'true');
    assert.equal(lamps.answer('bar 4 open 3 adds 7'), 'true');
  });
  it('says what it adds instead', () => {
    assert.equal(
      lamps.answer('bar 2 open 3 adds 9'),
      'false: under `D` in bar 2 the open string 3 adds G3, the eleventh',
    );
    assert.equal(lamps.mended('bar 2 open 3 adds 9'), 'bar 2 open 3 adds 11');
  });
  it('is no addition where another string has the note', () => {
    const truth = 'under `G` in bar 1 the open string 3 only doubles the root, which string 2 has';
    assert.equal(lamps.answer('bar 1 open 3 adds R'), `false: ${truth}`);
    assert.equal(lamps.mended('bar 1 open 3 adds R'), 'no fix');
  });
  it('is none where the string is held or silent', () => {
    assert.equal(lamps.answer('bar 2 open 2 adds R'), 'false: string 2 is held at fret 3 in bar 2');
    assert.equal(lamps.answer('bar 2 open 6 adds 9'), 'false: string 6 is silent in bar 2');
  });
});

describe('a claim about one chord', () => {
  it('waits for the chord that cannot be read or has no voicing', () => {
    const broken = new ClaimedLesson(`
      shape low
        strings 6 5 4
        tones 3 R 5
        frets 1 to 2
        reach 0
      progression p
        Xyz | Eb | N.C.
      section s
        progression p
        shape low
    `);
    assert.match(broken.answer('bar 2 is Eb'), /^undecided: `Eb` in bar 2 has no voicing$/);
    assert.match(broken.answer('bar 2 tones 3 R 5'), /^undecided/);
    assert.match(broken.answer('bar 2 open 1 adds 9'), /^undecided/);
    assert.match(broken.answer('bar 1 is C'), /^undecided: the chord of bar 1 cannot be read$/);
    assert.equal(broken.answer('bar 3 is C'), 'false: bar 3 has no chord');
  });
});
