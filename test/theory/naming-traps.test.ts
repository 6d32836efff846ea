import assert from 'node:assert/strict';
import { parseChord, sameChord, transposeChord } from '../../server/src/theory/chord.ts';
import { midi, parseNoteName, parsePitch, formatNoteName } from '../../server/src/theory/note.ts';
import { misnames, nameVoicing } from '../../server/src/theory/name-voicing.ts';

const notes = (text: string): number[] => text.split(' ').map((each) => midi(parsePitch(each)!));
const names = (text: string): string[] => nameVoicing(notes(text), {}).map((each) => each.name);
const first = (text: string): string => names(text)[0];
const wrong = (symbol: string, sounds: string): boolean => misnames(parseChord(symbol)!, notes(sounds)) !== undefined;

describe('what people get wrong', () => {
  it('a slash bass is the lowest note that sounds, which may be an open string', () => {
    assert.equal(first('A2 D3 A3 C#4 E4'), 'Aadd11');
    assert.ok(wrong('A/D', 'A2 D3 A3 C#4 E4'));
    assert.equal(first('D3 A3 C#4 E4'), 'A/D');
    assert.equal(first('A2 E3 G#3 C#4 E4'), 'Amaj7');
    assert.ok(wrong('A/Ab', 'A2 E3 G#3 C#4 E4'));
    assert.equal(first('E2 A2 E3 A3 C#4 E4'), 'A/E');
  });
  it('a name that needs a third is wrong where none sounds', () => {
    assert.equal(first('G2 D3 G3'), 'G5');
    assert.ok(wrong('G', 'G2 D3 G3') && wrong('Gm', 'G2 D3 G3') && wrong('Gsus2', 'G2 D3 G3'));
    assert.equal(first('D3 A3 D4 E4'), 'Dsus2');
    assert.ok(wrong('Dadd9', 'D3 A3 D4 E4'));
  });
  it('nothing is suspended where a third sounds, in whatever octave', () => {
    assert.equal(first('C3 E3 G3 D4 E4'), 'Cadd9');
    assert.ok(wrong('Csus2', 'C3 E3 G3 D4 E4'));
    assert.equal(parseChord('Am7sus4'), undefined);
  });
  it('9, maj9, 11 and 13 need the seventh; without it they are added, and 13 is 6', () => {
    assert.equal(first('C3 E3 G3 D4 G4'), 'Cadd9');
    assert.equal(first('G2 D3 A3 B3'), 'Gadd9');
    assert.equal(first('C3 E3 G3 A3'), 'C6');
    assert.equal(first('B2 F#3 D#4 E4'), 'Badd11');
    assert.ok(wrong('C9', 'C3 E3 G3 D4 G4') && wrong('Gmaj9', 'G2 D3 A3 B3') && wrong('C13', 'C3 E3 G3 A3'));
    assert.equal(parseChord('C(13)')!.symbol, 'C6');
  });
  it('there is no #5 while the natural fifth sounds', () => {
    for (const name of names('E2 D#3 G#3 B3 B3 E4')) assert.ok(!name.includes('#5') && !name.includes('aug'), name);
    assert.equal(first('E2 G#2 B2 C3 D3'), 'E7b13');
    assert.equal(first('A2 C3 E3 F3'), 'Fmaj7/A');
    const minorSixth = nameVoicing(notes('A2 C3 E3 F3'), { intended: parseChord('Am')! })[0].name;
    assert.equal(minorSixth, 'Am(b6)');
  });
  it('open strings are part of the chord: a moved shape has another name at every fret', () => {
    assert.equal(first('E2 A2 D3 G3 B3 E4'), 'Em7add11');
    // The E shape moved up under open strings 2 and 1, frets 1, 3, 5 and 7 (f-f2-f2-f1-0-0).
    assert.equal(first('G2 D3 G3 B3 B3 E4'), 'G6');
    assert.equal(first('A2 E3 A3 C#4 B3 E4'), 'Aadd9');
    assert.equal(first('B2 F#3 B3 D#4 B3 E4'), 'Badd11');
    assert.equal(first('F#2 C#3 F#3 A#3 B3 E4'), 'F#7add11');
  });
  it('a minor chord with an eleventh is not a dominant one', () => {
    assert.equal(first('A2 D3 G3 C4 E4 A4'), 'Am7add11');
    assert.ok(wrong('A11', 'A2 D3 G3 C4 E4 A4'));
  });
  it('a grip in drop 2 is an inversion, not an altered chord', () => {
    assert.equal(first('E3 A3 C#4 G#4'), 'Amaj7/E');
    assert.equal(first('G3 C4 E4 B4'), 'Cmaj7/G');
  });
  it('a spread triad is a triad', () => {
    assert.equal(first('F2 C3 A3'), 'F');
    assert.equal(first('A2 F3 C4'), 'F/A');
  });
  it('a space decides between A #5 and A#5, and no name of ours leaves the question open', () => {
    assert.equal(parseChord('A #5')!.symbol, 'Aaug');
    assert.deepEqual(
      parseChord('A#5')!.tones.map((tone) => formatNoteName(tone.name)),
      ['A#', 'E#'],
    );
    assert.equal(first('A2 C#3 F3'), 'Aaug');
  });
});

describe('what general theory libraries get wrong', () => {
  it('first inversions of major triads are major triads', () => {
    assert.equal(first('E3 G3 C4'), 'C/E');
    assert.equal(first('B2 D3 G3'), 'G/B');
    assert.equal(first('F#2 A2 D3'), 'D/F#');
  });
  it('a barre F is F and nothing else', () => {
    assert.deepEqual(names('F2 C3 F3 A3 C4 F4'), ['F']);
  });
  it('a plain major triad has no suffix and Cadd9 has one', () => {
    assert.equal(first('F3 A3 C4'), 'F');
    assert.equal(parseChord('Cadd9')!.quality, 'add9');
  });
  it('every symbol that players write is read', () => {
    const symbols = 'Gadd9/A Gmaj9/F# D/Eb G5/D Cmadd11 Gadd11 F#7add11 Badd4 E7b9add11 D#mb6b9/B Em(b6) Emb6 FM';
    for (const symbol of symbols.split(' ')) assert.ok(parseChord(symbol), symbol);
  });
  it('a bad note name is no chord, not a smaller one', () => {
    for (const text of ['C/X', 'H7', 'Cb9/Hb', 'Q', 'E7b9addx']) assert.equal(parseChord(text), undefined, text);
    assert.equal(parseNoteName('X'), undefined);
  });
  it('the slash bass goes along in a transposition', () => {
    assert.equal(transposeChord(parseChord('G/B')!, 1, 2).symbol, 'A/C#');
    assert.equal(transposeChord(parseChord('D/Eb')!, 1, 2).symbol, 'E/F');
  });
  it('a ninth without its fifth is a ninth', () => {
    assert.equal(first('C3 E3 Bb3 D4'), 'C9');
  });
  it('altered and unusual chords have the names that players use', () => {
    assert.equal(first('E2 G#3 D4 G4'), 'E7#9');
    assert.equal(nameVoicing(notes('E2 B2 D3 F3 G#3 A3'), { intended: parseChord('E7b9')! })[0].name, 'E7(b9,add11)');
    assert.equal(first('C3 E3 G#3 B3'), 'Cmaj7#5');
    assert.equal(first('C3 Eb3 G3 B3'), 'Cm(maj7)');
    assert.ok(names('E2 F#3 B3 D#4 B4 E4').includes('Badd11/E'));
  });
  it('spelling follows root and key, not flats alone', () => {
    const spelled = (symbol: string): string =>
      parseChord(symbol)!
        .tones.map((tone) => formatNoteName(tone.name))
        .join(' ');
    assert.equal(spelled('D#7'), 'D# F## A# C#');
    assert.equal(spelled('G#m7#5'), 'G# B D## F#');
    assert.equal(first('E2 B2 E3 G#3'), 'E');
    assert.equal(first('C#3 E3 G#3'), 'C#m');
    assert.ok(sameChord(parseChord('Gb7')!, parseChord('F#7')!));
  });
});
