/** Tunings by name and by notes. The notes are those that every book on the guitar, the bass and the ukulele gives. */
import assert from 'node:assert/strict';
import { FEWEST_STRINGS, MOST_STRINGS, tuningNamed, tuningNames, tuningOf } from '../../server/src/fretboard/tuning.ts';
import { midi, parsePitch } from '../../server/src/theory/note.ts';
import type { Pitch } from '../../server/src/theory/note.ts';

const notes = (text: string): Pitch[] => text.split(' ').map((note) => parsePitch(note) ?? assert.fail(note));

describe('tunings', () => {
  it('standard is E A D G B E, from E2 to E4', () => {
    assert.deepEqual(tuningNamed('standard')?.strings.map(midi), [40, 45, 50, 55, 59, 64]);
    assert.equal(tuningNamed('standard')?.scaleLength, 648);
  });

  for (const [name, midis] of [
    ['drop-d', [38, 45, 50, 55, 59, 64]],
    ['double-drop-d', [38, 45, 50, 55, 59, 62]],
    ['dadgad', [38, 45, 50, 55, 57, 62]],
    ['open-g', [38, 43, 50, 55, 59, 62]],
    ['open-d', [38, 45, 50, 54, 57, 62]],
    ['open-e', [40, 47, 52, 56, 59, 64]],
    ['open-a', [40, 45, 52, 57, 61, 64]],
    ['open-c', [36, 43, 48, 55, 60, 64]],
    ['half-step-down', [39, 44, 49, 54, 58, 63]],
    ['whole-step-down', [38, 43, 48, 53, 57, 62]],
    ['drop-c', [36, 43, 48, 53, 57, 62]],
    ['seven-string', [35, 40, 45, 50, 55, 59, 64]],
    ['eight-string', [30, 35, 40, 45, 50, 55, 59, 64]],
    ['baritone', [35, 40, 45, 50, 54, 59]],
    ['bass', [28, 33, 38, 43]],
    ['five-string-bass', [23, 28, 33, 38, 43]],
    ['ukulele', [67, 60, 64, 69]],
    ['tenor', [48, 55, 62, 69]],
  ] as const) {
    it(`${name} sounds ${midis.join(' ')}`, () => assert.deepEqual(tuningNamed(name)?.strings.map(midi), midis));
  }

  it('every name on the list is a tuning of just those notes, and no two are alike', () => {
    for (const { name, notes: text, says } of tuningNames) {
      const tuning = tuningNamed(name);
      assert.equal(tuning?.strings.length, text.split(' ').length, name);
      assert.deepEqual(tuning?.strings, notes(text), name);
      assert.ok(says.length > 0);
      assert.equal(tuningOf(notes(text))?.name, name);
    }
    assert.equal(new Set(tuningNames.map((each) => each.name)).size, tuningNames.length);
    assert.equal(new Set(tuningNames.map((each) => each.notes)).size, tuningNames.length);
  });

  it('only a tuning with a string lower than the one before it is re-entrant', () => {
    const reentrant = tuningNames.filter(({ name }) => tuningNamed(name)?.reentrant).map(({ name }) => name);
    assert.deepEqual(reentrant, ['high-strung', 'ukulele']);
    assert.equal(tuningOf(notes('E2 A2 A2 D3'))?.reentrant, false, 'a unison is not');
  });

  it('a tuning of its own is named by its notes', () => {
    assert.equal(tuningOf(notes('C2 A2 D3 G3 A3 D4'))?.name, 'C2 A2 D3 G3 A3 D4');
  });

  it('takes its usual length from what it looks like', () => {
    assert.equal(tuningOf(notes('D2 G2 C3 F3 Bb3 D4'))?.scaleLength, 648);
    assert.equal(tuningOf(notes('D1 A1 D2 G2'))?.scaleLength, 864, 'a bass');
    assert.equal(tuningOf(notes('A4 D4 F#4 B4'))?.scaleLength, 381, 'a ukulele');
  });

  it(`has ${FEWEST_STRINGS} to ${MOST_STRINGS} strings, or is none`, () => {
    const many = (count: number): Pitch[] => Array.from({ length: count }, () => notes('E2')[0]);
    assert.deepEqual(
      [2, 3, 12, 13].map((count) => tuningOf(many(count))?.strings.length),
      [undefined, 3, 12, undefined],
    );
  });

  it('does not know a name that nobody uses', () => {
    for (const name of ['', 'Standard', 'constructor', 'toString', 'drop-q'])
      assert.equal(tuningNamed(name), undefined);
  });
});
