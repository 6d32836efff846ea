import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Chord } from '../../server/src/theory/chord.ts';
import { parseChord } from '../../server/src/theory/chord.ts';
import { keyOf, modeNames, parseKey } from '../../server/src/theory/key.ts';
import type { NamingContext } from '../../server/src/theory/name-voicing.ts';
import { nameVoicing } from '../../server/src/theory/name-voicing.ts';
import { parseNoteName, semitone } from '../../server/src/theory/note.ts';
import { looksLikeNumeral, parseNumeral } from '../../server/src/theory/numeral.ts';

/** One to six notes between the low E of a guitar and its 24th fret. */
const voicing = fc.array(fc.integer({ min: 40, max: 88 }), { minLength: 1, maxLength: 6 });
const intended = fc.constantFrom(
  'C',
  'F#',
  'Bb',
  'Em',
  'Am7',
  'D7',
  'Gmaj7',
  'C7alt',
  'Bm7b5',
  'G5',
  'Dsus4',
  'C9(no3)',
  'C7#11',
  'C7b13',
  'C/D',
  'Ebdim7',
);
const context: fc.Arbitrary<NamingContext> = fc
  .record({
    symbol: fc.option(intended),
    key: fc.option(
      fc.constantFrom('G major', 'A minor', 'Db major', 'E dorian', 'C# minor', 'A minor blues', 'G# major'),
    ),
    reentrant: fc.boolean(),
    flats: fc.boolean(),
  })
  .map(({ symbol, key, reentrant, flats }) => ({
    ...(symbol === null ? {} : { intended: parseChord(symbol)! }),
    ...(key === null ? {} : { key: parseKey(key)! }),
    reentrant,
    flats,
  }));

const classes = (midis: readonly number[]): Set<number> => new Set(midis.map((each) => each % 12));

function promised(chord: Chord): Set<number> {
  const all = chord.tones.map((tone) => semitone(tone.name));
  return new Set(chord.bass ? [...all, semitone(chord.bass)] : all);
}

describe('every name that is written for a voicing', () => {
  it('reads back to what sounds, apart from tones that the trade leaves out', () => {
    fc.assert(
      fc.property(voicing, context, (midis, given) => {
        const sounding = classes(midis);
        const named = nameVoicing(midis, given);
        assert.ok(named.length > 0);
        // A single note is named as a note.
        if (sounding.size === 1) return;
        for (const { name, strict } of named) {
          const chord = parseChord(name);
          assert.ok(chord, name);
          assert.equal(chord.symbol, name);
          const own = promised(chord);
          const optional = new Set(chord.tones.filter((tone) => tone.optional).map((tone) => semitone(tone.name)));
          const fifth = (semitone(chord.root) + 7) % 12;
          const tooMany = [...own].filter((each) => !sounding.has(each) && each !== fifth && !optional.has(each));
          assert.deepEqual(tooMany, [], name);
          // Looser names may turn a suspended fourth into an eleventh, but drop nothing either.
          assert.deepEqual(
            [...sounding].filter((each) => !own.has(each)),
            [],
            `${name} ${strict}`,
          );
        }
      }),
      { numRuns: 4000, seed: 1 },
    );
  });
  it('has the lowest note for its bass, and each name once', () => {
    fc.assert(
      fc.property(voicing, (midis) => {
        const named = nameVoicing(midis, {});
        assert.equal(new Set(named.map((each) => each.name)).size, named.length);
        if (classes(midis).size === 1) return;
        for (const { name } of named) {
          const chord = parseChord(name)!;
          assert.equal(semitone(chord.bass ?? chord.root), Math.min(...midis) % 12, name);
        }
      }),
      { numRuns: 1000, seed: 2 },
    );
  });
  it('does not depend on the order of the notes, nor on how often they are asked for', () => {
    fc.assert(
      fc.property(voicing, context, (midis, given) => {
        const named = nameVoicing(midis, given);
        assert.deepEqual(nameVoicing([...midis].reverse(), given), named);
      }),
      { numRuns: 500, seed: 3 },
    );
  });
});

describe('any text', () => {
  const scraps = fc.constantFrom(
    ...'C F# G b # m maj M 6 7 9 11 13 / sus sus2 add no omit ( ) , dim ø ° + - Δ alt aug 5 3 1 b9 #11 V ii'.split(' '),
    ' ',
  );
  const text = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc.array(scraps, { maxLength: 8 }).map((parts) => parts.join('')),
    fc.array(scraps, { maxLength: 7 }).map((parts) => `C${parts.join('')}`),
  );
  it('is a chord whose canonical spelling reads back to itself, or none', () => {
    fc.assert(
      fc.property(text, (written) => {
        const chord = parseChord(written);
        if (!chord) return;
        const again = parseChord(chord.symbol);
        assert.ok(again, `${written} became ${chord.symbol}`);
        assert.deepEqual(again, chord);
      }),
      { numRuns: 20000, seed: 4 },
    );
  });
  it('is a key or none, a numeral or none', () => {
    const key = parseKey('C major')!;
    fc.assert(
      fc.property(text, (written) => {
        parseKey(written);
        if (parseNumeral(written, key)) assert.ok(looksLikeNumeral(written));
      }),
      { numRuns: 3000, seed: 5 },
    );
  });
});

describe('scales', () => {
  it('rise from their tonic within an octave in every mode', () => {
    for (const mode of modeNames()) {
      const key = keyOf(parseNoteName('Eb')!, mode)!;
      const heights = key.scale.map((note) => (semitone(note) - semitone(key.tonic) + 12) % 12);
      assert.deepEqual(
        [...heights].sort((a, b) => a - b),
        heights,
        mode,
      );
      assert.equal(heights[0], 0);
      assert.equal(new Set(heights).size, heights.length);
    }
  });
});
