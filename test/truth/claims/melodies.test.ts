/** Claims about melodies, contours and scales; frets and notes are those that the example of the language says must be found. */
import assert from 'node:assert/strict';
import type { NoteEvent } from '../../../server/src/realise/score.ts';
import type { Claimed } from '../../../server/src/lesson/claims.ts';
import { judge } from '../../../server/src/truth/claims/index.ts';
import { parseNoteName } from '../../../server/src/theory/note.ts';
import { ClaimedLesson } from '../../support/claims.ts';
import { bar, G, lessonWith, section } from '../../support/score.ts';

const lamps = (contour: string, rest = ''): ClaimedLesson =>
  new ClaimedLesson(`
  key G major
  meter 3/4
  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2
  progression quay
    G | D | Em | Am
  contour swell on 1
    each 1/4
    ${contour}
  contour home on 2
    each 1/4
    from R: 0
  section verse
    progression quay
    shape lamp
    ${rest || 'contour swell'}
`);

/** Frets 10 8 10, 5 3 5, 7 5 7, 12 10 12 of string 1: D5 C5 D5, A4 G4 A4, B4 A4 B4, E5 D5 E5. */
const swell = lamps('from 5: 0 -1 0');

describe('melody starts on', () => {
  it('looks at every chord under a contour', () => {
    assert.equal(swell.answer('melody starts on 5'), 'true');
    assert.equal(swell.why('melody starts on 5'), '4 starts on 5: D5 A4 B4 E5.');
    assert.equal(swell.answer('melody starts on R'), 'false: over `G` in bar 1 the melody starts on 5, D5');
    assert.equal(swell.mended('melody starts on R'), 'melody starts on 5');
  });
  /** The last bar starts on the root, at fret 10 of string 2. */
  const homing = lamps('from 5: 0 -1 0', 'contour swell bars 1 to 3\n    contour home bar 4');
  it('leaves out the bars that are excepted', () => {
    assert.equal(homing.answer('melody starts on 5'), 'false: over `Am` in bar 4 the melody starts on R, A4');
    assert.equal(homing.finding('melody starts on 5').points, 'Am');
    assert.equal(homing.answer('melody starts on 5 except bar 4'), 'true');
    assert.equal(homing.answer('melody starts on 5 except bars 1 to 4'), 'true');
    assert.match(homing.answer('melody starts on 5 except bar 1'), /^false: over `Am` in bar 4/);
  });
  it('is mended by excepting the few bars that are otherwise', () => {
    assert.equal(homing.mended('melody starts on 5'), 'melody starts on 5 except bar 4');
    assert.equal(homing.mended('melody starts on 5 except bar 1'), 'melody starts on 5 except bar 4');
    assert.equal(homing.mended('melody starts on R'), 'no fix');
  });
  it('has nothing to speak of without a melody', () => {
    const silent = new ClaimedLesson('progression p\n  G\nsection s\n  progression p');
    for (const claim of ['melody starts on 5', 'melody D4 in bar 1'])
      assert.equal(silent.answer(claim), 'undecided: there is no melody in s');
    assert.equal(silent.answer('same contour throughout'), 'undecided: there is no contour in s');
  });
  it('waits where another mistake has taken the melody away', () => {
    const broken = new ClaimedLesson('progression p\n  G\nsection s\n  progression p\n  contour nowhere');
    assert.equal(broken.answer('melody starts on 5'), 'undecided: the melody in s cannot be worked out yet');
    assert.equal(
      broken.finding('melody starts on 5').message,
      'This cannot be checked yet: the melody in s cannot be worked out yet.',
    );
  });
});

describe('the notes of a melody', () => {
  it('are compared in their order, in their octave where it is named', () => {
    assert.equal(swell.answer('melody D5 C5 D5 in bar 1'), 'true');
    assert.equal(swell.answer('melody A G A in bar 2'), 'true');
    const truth = 'false: the melody of bar 1 is D5 C5 D5';
    for (const claim of ['melody D5 C5 in bar 1', 'melody C5 D5 D5 in bar 1', 'melody D4 C4 D4 in bar 1'])
      assert.equal(swell.answer(claim), truth, claim);
    assert.equal(swell.mended('melody D4 C4 B3 in bar 1'), 'melody D5 C5 D5 in bar 1');
    assert.equal(swell.mended('melody D C B in bar 1 in verse'), 'melody D C D in bar 1 in verse');
    assert.equal(swell.finding('melody D C B in bar 1').points, 'G');
  });
  it('are a tab’s notes, and of several at once the highest', () => {
    const played = bar(1, [G], '1/4', 'p6=3+m2=3 i3=0 p6=3+m2=1');
    const written = { ...played, events: played.events.map((one): NoteEvent => ({ ...one, voice: 'written' })) };
    const lesson = lessonWith('A tab', '3/4', [section('coda', undefined, '3/4', [written])]);
    const note = (text: string) => ({ name: parseNoteName(text)!, text });
    // Frets 3 and 1 of string 2 are D and C, the open third string is G.
    const answer = (...notes: readonly string[]) => {
      const says: Claimed = { kind: 'melody notes', bar: 1, notes: notes.map(note) };
      const score = { sections: [{ bars: [written], difficulty: 1 }] };
      return judge({ says, section: 0, span: { start: 0, end: 0 }, words: {} }, lesson, score);
    };
    assert.deepEqual(answer('D', 'G', 'C'), { holds: true });
    assert.equal(answer('G', 'G', 'G').holds, false);
  });
});

describe('same contour throughout', () => {
  it('holds where one contour lies whole over every shape', () => {
    assert.equal(swell.answer('same contour throughout'), 'true');
    assert.equal(
      swell.why('same contour throughout'),
      '`swell` lies whole over 4 chords, at frets 10 8 10, 5 3 5, 7 5 7, 12 10 12.',
    );
  });
  it('says where it is cut, begins elsewhere, or is another or none', () => {
    assert.equal(
      lamps('from 5: 0 -1 0 -1').answer('same contour throughout'),
      'false: over `G` in bar 1 its last note is cut',
    );
    // Only Em and Am have a minor third; the others start on the fifth.
    assert.match(
      lamps('from b3 or 5: 0').answer('same contour throughout'),
      /^false: over `G` in bar 1 it starts on 5 and not on b3$/,
    );
    assert.equal(
      lamps('from 5: 0', 'contour swell bars 1 to 2').answer('same contour throughout'),
      'false: no contour lies over `Em` in bar 3',
    );
    const two = lamps('from 5: 0', 'contour swell bars 1 to 2\n    contour home bars 3 to 4');
    assert.equal(two.answer('same contour throughout'), 'false: `home` lies over `Em` in bar 3, and `swell` before');
    assert.equal(two.finding('same contour throughout').points, 'Em');
    assert.equal(two.mended('same contour throughout'), 'no fix');
  });
});

describe('a scale', () => {
  it('has all notes of the melody', () => {
    assert.equal(swell.answer('scale G major'), 'true');
    assert.equal(swell.why('scale G major'), 'The melody has C D E G A B; F# of it does not sound.');
    assert.equal(
      swell.answer('scale A minor pentatonic'),
      'false: bar 3 sounds B4, which A minor pentatonic does not have',
    );
    assert.equal(swell.finding('scale A minor pentatonic').points, 'Em');
    // The first of the usual scales on A that has C D E G A B.
    assert.equal(swell.mended('scale A minor pentatonic'), 'scale A minor');
  });
  it('has all that sounds where there is no melody', () => {
    const chords = new ClaimedLesson(
      'key G major\nprogression p\n  G as 320003 | D as xx0232\nsection s\n  progression p',
    );
    assert.equal(chords.answer('scale G major'), 'true');
    assert.equal(chords.answer('scale C major'), 'false: bar 2 sounds F#4, which C major does not have');
    assert.equal(chords.mended('scale C major'), 'scale C lydian');
  });
});
