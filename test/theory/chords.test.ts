import assert from 'node:assert/strict';
import type { Chord } from '../../server/src/theory/chord.ts';
import {
  chordWithBass,
  degreeOver,
  parseChord,
  sameChord,
  suspendsMinor,
  toneOf,
  transposeChord,
} from '../../server/src/theory/chord.ts';
import { formatDegree, parseDegree } from '../../server/src/theory/interval.ts';
import { parseKey } from '../../server/src/theory/key.ts';
import { formatNoteName, parseNoteName, semitone } from '../../server/src/theory/note.ts';

const chord = (text: string): Chord => {
  const read = parseChord(text);
  assert.ok(read, `${text} is not read`);
  return read;
};
const degrees = (text: string): string =>
  chord(text)
    .tones.map((tone) => formatDegree(tone.degree, 'R'))
    .join(' ');
const notes = (text: string): string =>
  chord(text)
    .tones.map((tone) => formatNoteName(tone.name))
    .join(' ');

/** canonical suffix | its degrees, as harmony books list them | other spellings of the trade, on C */
const SPELLINGS = `
        | R 3 5           | maj M major Maj
m       | R b3 5          | min - mi minor Min MIN −
5       | R 5             | (no3) (omit3) no3
aug     | R 3 #5          | + (#5) Aug
dim     | R b3 b5         | ° o º m(b5)
sus4    | R 4 5           | sus (sus4)
sus2    | R 2 5           | (sus2)
sus4add9 | R 4 5 9        | sus2sus4 sus24
6       | R 3 5 6         | maj6 M6 add6 add13 (6)
m6      | R b3 5 6        | min6 -6 m(add6)
6/9     | R 3 5 6 9       | 69 6(9) 6add9 maj6/9 M69
m6/9    | R b3 5 6 9      | m69 -69 min6/9
7       | R 3 5 b7        | dom7
maj7    | R 3 5 7         | M7 Δ Δ7 △ △7 ma7 Maj7 MA7 7M 7maj j7
m7      | R b3 5 b7       | min7 -7 mi7 MI7 −7
m(maj7) | R b3 5 7        | mM7 mMaj7 m/maj7 -Δ -Δ7 minmaj7 m(M7) m#7 m(#7) -maj7 min(maj7)
dim7    | R b3 b5 bb7     | °7 o7
m7b5    | R b3 b5 b7      | ø ø7 Ø -7b5 min7b5 m7(b5) m7-5 m7♭5 half-dim half-dim7
dim(maj7) | R b3 b5 7     | °M7 °Δ dimmaj7 °(maj7)
7#5     | R 3 #5 b7       | +7 aug7 7+ 7(#5) 7+5 7♯5 7aug
maj7#5  | R 3 #5 7        | +maj7 augmaj7 +M7 maj7+ Δ#5 M7(#5)
7b5     | R 3 b5 b7       | 7-5 7(b5)
maj7b5  | R 3 b5 7        | Δb5
7sus4   | R 4 5 b7        | 7sus
7sus2   | R 2 5 b7        |
9sus4   | R 4 5 b7 9      | 9sus 11sus4 7sus4add9 7sus4(9)
13sus4  | R 4 5 b7 9 13   | 13sus
7b9sus4 | R 4 5 b7 b9     | 7sus4b9 7sus4(b9)
9       | R 3 5 b7 9      | 7add9 7(9) dom9
maj9    | R 3 5 7 9       | M9 Δ9 maj7add9 maj7(9) 9M
m9      | R b3 5 b7 9     | min9 -9 m7add9 m7(9)
m(maj9) | R b3 5 7 9      | mM9 m(M9) -Δ9
m9b5    | R b3 b5 b7 9    | ø9
9#5     | R 3 #5 b7 9     | +9 aug9 9+
11      | R 3 5 b7 9 11   |
m11     | R b3 5 b7 9 11  | min11 -11 m9add11
13      | R 3 5 b7 9 13   | 9add13 9(13) 7(9,13)
maj13   | R 3 5 7 9 13    | M13 Δ13
m13     | R b3 5 b7 9 13  | -13 m9add13
7add13  | R 3 5 b7 13     | 7(13) 7(6) 7add6
m7add11 | R b3 5 b7 11    | m7(11) m7add4 m11(no9)
add9    | R 3 5 9         | add2 2 (add9) (9)
madd9   | R b3 5 9        | m(add9) madd2 -add9
add11   | R 3 5 11        | add4 (add11) (add4)
madd11  | R b3 5 11       | m(add11) madd4
7b9     | R 3 5 b7 b9     | 7(b9) 7-9 7♭9
7#9     | R 3 5 b7 #9     | 7(#9) 7+9 7♯9
7(b9,#9) | R 3 5 b7 b9 #9 | 7b9#9 7(b9 #9)
7#11    | R 3 5 b7 #11    | 7(#11) 7+11
7b13    | R 3 5 b7 b13    | 7(b13) 7-13
9#11    | R 3 5 b7 9 #11  | 9(#11)
13b9    | R 3 5 b7 b9 13  | 13(b9)
13#11   | R 3 5 b7 9 #11 13 | 13(#11)
maj7#11 | R 3 5 7 #11     | M7#11 Δ#11 maj7(#11)
maj9#11 | R 3 5 7 9 #11   | M9#11
7(b9,#11) | R 3 5 b7 b9 #11 | 7(b9, #11) 7b9#11 7(b9)(#11) 7(♭9,♯11)
7(#5,b9) | R 3 #5 b7 b9   | 7#5b9 7b9#5 +7b9
7alt    | R 3 b5 #5 b7 b9 #9 | alt 7(alt)
m(b6)   | R b3 5 b6       | m(addb6) m(b13)
m(add#11) | R b3 5 #11    | m(#11)
(addb9) | R 3 5 b9        | (b9)
5add9   | R 5 9           | add9(no3)
6/9(no3) | R 5 6 9        |
7(no3)  | R 5 b7          | 7no3 7(omit3)
(b5)    | R 3 b5          | (-5)
7(no5)  | R 3 b7          | 7no5 7(omit5)
6(no5)  | R 3 6           |
5(addb9) | R 5 b9         | (addb9,no3)
(addb9,no3,no5) | R b9    | (b9)(no3,no5)
`;

describe('chord symbols', () => {
  const rows = SPELLINGS.split('\n').filter((line) => line.includes('|'));
  for (const row of rows) {
    const [suffix, meant, others] = row.split('|').map((part) => part.trim());
    it(`C${suffix} is ${meant}, however it is written`, () => {
      assert.equal(degrees(`C${suffix}`), meant);
      assert.equal(chord(`C${suffix}`).symbol, `C${suffix}`);
      // A space inside parentheses belongs to the spelling; every other one divides two spellings.
      for (const other of others.match(/(?:\([^)]*\)|\S)+/g) ?? []) {
        assert.equal(chord(`C${other}`).symbol, `C${suffix}`, `C${other}`);
      }
    });
  }
  it('are spelled note by note from the root', () => {
    const spelled: Readonly<Record<string, string>> = {
      D7: 'D F# A C',
      B7: 'B D# F# A',
      Ebm7: 'Eb Gb Bb Db',
      'D#7': 'D# F## A# C#',
      'E7#9': 'E G# B D F##',
      Aaug: 'A C# E#',
      Edim7: 'E G Bb Db',
      'Bbmaj7#11': 'Bb D F A E',
      Gb: 'Gb Bb Db',
      'C#maj7': 'C# E# G# B#',
      Ebb7: 'Ebb Gb Bbb Dbb',
    };
    for (const [symbol, meant] of Object.entries(spelled)) assert.equal(notes(symbol), meant);
  });
  it('take unicode signs and write # and b', () => {
    assert.equal(chord('B♭m7♭5/A♭').symbol, 'Bbm7b5/Ab');
    assert.equal(chord('F♯°7').symbol, 'F#dim7');
  });
  it('have a slash bass, which a root of the same sound is not', () => {
    assert.equal(chord('D/F#').symbol, 'D/F#');
    assert.equal(formatNoteName(chord('C6/9/E').bass!), 'E');
    assert.equal(chord('C/C').bass, undefined);
    assert.equal(chordWithBass(chord('G/B'), undefined).symbol, 'G');
    assert.equal(chordWithBass(chord('G'), parseNoteName('F#')!).symbol, 'G/F#');
  });
  it('let a space decide between A #5 and A#5', () => {
    assert.equal(chord('A #5').symbol, 'Aaug');
    assert.equal(chord('A#5').symbol, 'A#5');
    assert.equal(chord('C minor').symbol, 'Cm');
    assert.equal(chord('E b5').symbol, 'E(b5)');
  });
  it('are not read at all where a part of them is not read', () => {
    const unread =
      'N.C. H Hm c am Cfoo C7foo C7b9foo C/H C/ C//E C(b9 C7(b9)) Cx C8 C10 C15 C7b8 Cadd8 Cm5 C9b9 C11#11 C7sus3 Cno9 Csus4(no3) C4';
    for (const text of unread.split(' ')) assert.equal(parseChord(text), undefined, text);
    assert.equal(parseChord(''), undefined);
    assert.equal(parseChord('C  m'), undefined);
    assert.equal(parseChord(`C7${'(b9)'.repeat(40)}`), undefined);
  });
  it('keep apart what they promise and what players leave out', () => {
    const optional = (text: string): string =>
      chord(text)
        .tones.filter((tone) => tone.optional)
        .map((tone) => formatDegree(tone.degree, 'R'))
        .join(' ');
    assert.equal(optional('Am7'), '5');
    assert.equal(optional('G5'), '');
    assert.equal(optional('Bm7b5'), '');
    assert.equal(optional('C13'), '5 9');
  });
  it('lose their root only where the symbol says so', () => {
    assert.equal(degrees('E11b9(no1)'), '3 5 b7 b9 11');
    assert.equal(formatNoteName(chord('E11b9(no1)').root), 'E');
  });
  it('are transposed bass and all', () => {
    assert.equal(transposeChord(chord('D/F#'), 1, 2).symbol, 'E/G#');
    assert.equal(transposeChord(chord('C/D'), 2, 3).symbol, 'Eb/F');
    assert.equal(transposeChord(chord('Am7/G'), 2, 3).symbol, 'Cm7/Bb');
    assert.equal(transposeChord(chord('Bb7#9'), -1, -1).symbol, 'A7#9');
  });
  it('are the same music in different spellings', () => {
    const same = (a: string, b: string): boolean => sameChord(chord(a), chord(b));
    assert.ok(same('Gb/Bb', 'F#/A#'));
    assert.ok(same('Cadd9/D', 'C/D'));
    assert.ok(same('G9', 'G9(no5)'));
    assert.ok(same('F6/9(no3)', 'F6sus2'));
    assert.ok(same('G13', 'G7add13'), 'the ninth of a thirteenth may be missing');
    assert.ok(!same('C6', 'Am7/C'), 'the roots differ');
    assert.ok(!same('D', 'D/F#'), 'the basses differ');
    assert.ok(!same('Cadd9', 'C9'), 'the seventh differs');
    assert.ok(!same('Csus2', 'Cadd9'), 'the third differs');
  });
});

describe('a note over a chord', () => {
  const over = (symbol: string, note: string, key?: string): string => {
    const tone = degreeOver(
      chord(symbol),
      semitone(parseNoteName(note)!),
      key === undefined ? undefined : parseKey(key),
    );
    return `${formatDegree(tone.degree, 'R')} ${formatNoteName(tone.name)} ${tone.role}`;
  };
  it('has the degree and spelling of the chord where it is one of its tones', () => {
    assert.equal(over('D7', 'Gb'), '3 F# chord tone');
    assert.equal(over('Edim7', 'C#'), 'bb7 Db chord tone');
    assert.equal(over('Am', 'A'), 'R A root');
    assert.equal(over('Dsus4', 'G'), '4 G chord tone');
    assert.equal(over('C7#9', 'Eb'), '#9 D# chord tone');
  });
  it('is a 9, 11 or 13 above third and seventh, and a 2, 4 or 6 where they are missing', () => {
    assert.equal(over('C', 'D'), '9 D colour');
    assert.equal(over('C5', 'D'), '2 D colour');
    assert.equal(over('Em', 'A'), '11 A colour');
    assert.equal(over('E5', 'A'), '4 A colour');
    assert.equal(over('C7', 'A'), '13 A colour');
    assert.equal(over('C', 'A'), '6 A colour');
  });
  it('is #11, not b5, and b13, not #5, while the natural fifth is in the chord', () => {
    assert.equal(over('Dm', 'Ab'), '#11 G# colour');
    assert.equal(over('C7', 'Ab'), 'b13 Ab colour');
    assert.equal(over('C', 'G#'), 'b6 Ab colour');
    assert.equal(over('A7', 'C'), '#9 B# colour');
  });
  it('is spelled as the key spells it where the chord leaves that open', () => {
    assert.equal(over('Am', 'Eb', 'A minor blues'), 'b5 Eb colour');
    assert.equal(over('F', 'B', 'F lydian'), '#11 B colour');
  });
});

describe('a degree over a chord', () => {
  const tone = (symbol: string, degree: string, key = 'C major'): string =>
    formatNoteName(toneOf(chord(symbol), parseDegree(degree)!, /[b#]/.test(degree), parseKey(key)!)!);
  it('follows the quality of the chord', () => {
    assert.equal(tone('Am', '3'), 'C');
    assert.equal(tone('A', '3'), 'C#');
    assert.equal(tone('Bm7b5', '5'), 'F');
    assert.equal(tone('Bdim7', '7'), 'Ab');
    assert.equal(tone('C7b9', '9'), 'Db');
  });
  it('is the suspended tone for the third of a sus chord', () => {
    assert.equal(tone('Dsus4', '3'), 'G');
    assert.equal(tone('Dsus2', '3'), 'E');
  });
  it('takes 2 and 9, 4 and 11, 6 and 13 for one', () => {
    assert.equal(tone('C9', '2'), 'D');
    assert.equal(tone('Csus2', '9'), 'D');
    assert.equal(tone('C7#11', '4'), 'F#');
    assert.equal(tone('C6', '13'), 'A');
  });
  it('comes from the key where the chord does not name it', () => {
    assert.equal(tone('G', '7', 'G major'), 'F#');
    assert.equal(tone('G', '7', 'C major'), 'F');
    assert.equal(tone('Em', '9', 'C major'), 'F');
    assert.equal(tone('A5', '3', 'A minor'), 'C');
    assert.equal(tone('Am', '6', 'A minor pentatonic'), 'F');
  });
  it('is absolute with an accidental', () => {
    assert.equal(tone('C', 'b3'), 'Eb');
    assert.equal(tone('Dm', '#11'), 'G#');
  });
});

describe('suspended minor chords', () => {
  it('contradict themselves and are not read', () => {
    for (const text of ['Am7sus4', 'Amsus2', 'A-7sus', 'Bbm9sus4']) {
      assert.equal(parseChord(text), undefined, text);
      assert.ok(suspendsMinor(text), text);
    }
    assert.ok(!suspendsMinor('Amaj7sus2') && !suspendsMinor('A7sus4'));
  });
});
