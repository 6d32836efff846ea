import assert from 'node:assert/strict';
import * as note from '../../server/src/theory/note.ts';

const name = (text: string): note.NoteName => note.parseNoteName(text)!;
const pitch = (text: string): note.Pitch => note.parsePitch(text)!;

describe('notes', () => {
  it('are read with every sign and written with # and b', () => {
    const spellings: readonly (readonly [string, string])[] = [
      ['F#', 'F#'],
      ['Bb', 'Bb'],
      ['B♭', 'Bb'],
      ['C♯', 'C#'],
      ['G♮', 'G'],
      ['F##', 'F##'],
      ['Ebb', 'Ebb'],
      ['F𝄪', 'F##'],
      ['A𝄫', 'Abb'],
    ];
    for (const [written, meant] of spellings) assert.equal(note.formatNoteName(name(written)), meant, written);
  });
  it('begin with a capital from A to G and carry nothing else', () => {
    for (const wrong of ['h', 'H', 'bb', 'c#', 'C#b', 'C4', 'Cm', '', ' C', 'F####']) {
      assert.equal(note.parseNoteName(wrong), undefined, wrong);
    }
    for (const wrong of ['D', 'd2', 'D2.5', 'D123']) assert.equal(note.parsePitch(wrong), undefined, wrong);
  });
  it('sound as scientific pitch notation has it: C4 is MIDI 60, and the octave turns over at the letter C', () => {
    const numbers: readonly (readonly [string, number])[] = [
      ['C4', 60],
      ['B#3', 60],
      ['Cb4', 59],
      ['A4', 69],
      ['E2', 40],
      ['D2', 38],
      ['Eb4', 63],
      ['C-1', 0],
    ];
    for (const [text, number] of numbers) {
      assert.equal(note.midi(pitch(text)), number, text);
      assert.equal(note.formatPitch(note.pitchFromMidi(number, name(text.replace(/-?\d+$/, '')))), text);
    }
  });
  it('are the same sound or the same name', () => {
    assert.ok(note.sameSound(name('F#'), name('Gb')) && !note.sameName(name('F#'), name('Gb')));
    assert.ok(note.sameSound(name('E#'), name('F')) && note.sameSound(name('B#'), name('C')));
    assert.equal(note.semitone(name('Cb')), 11);
  });
  it('are moved by interval and spelled on the letter that the interval asks for', () => {
    const moves: readonly (readonly [string, number, number, string])[] = [
      ['D', 2, 4, 'F#'], // a major third
      ['B', 2, 4, 'D#'],
      ['G#', 2, 4, 'B#'],
      ['D#', 2, 4, 'F##'],
      ['E', 3, 6, 'A#'], // an augmented fourth
      ['E', 4, 6, 'Bb'], // a diminished fifth
      ['Eb', 6, 9, 'Dbb'], // a diminished seventh
      ['C', -1, -1, 'B'],
      ['C', -2, -4, 'Ab'],
    ];
    for (const [from, letters, semitones, to] of moves) {
      assert.equal(note.formatNoteName(note.transposeName(name(from), letters, semitones)), to, `${from} to ${to}`);
    }
    assert.equal(note.formatPitch(note.transposePitch(pitch('B3'), 1, 1)), 'C4');
    assert.equal(note.formatPitch(note.transposePitch(pitch('C4'), -1, -1)), 'B3');
  });
  it('fall back to a usual name where exact spelling would need four signs', () => {
    assert.equal(note.formatNoteName(note.transposeName(name('E###'), 2, 5)), 'C');
  });
});
