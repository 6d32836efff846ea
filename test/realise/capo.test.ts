/** Symbols name shapes: what sounds under capos, in lowered tunings and in re-entrant ones. */
import assert from 'node:assert/strict';
import type { Capo } from '../../server/src/fretboard/instrument.ts';
import { shapeShift } from '../../server/src/fretboard/shape-pitch.ts';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import type { Voicing } from '../../server/src/realise/score.ts';
import { soundingKey } from '../../server/src/realise/sounding.ts';
import { formatKey } from '../../server/src/theory/key.ts';
import { formatPitch } from '../../server/src/theory/note.ts';
import { fretsOf, instrument, key, planOf, settingsOf, shapeOf, type Parts } from '../support/plan.ts';

function play(progression: string, parts: Parts, tuning?: string, capo?: Capo) {
  const settings = settingsOf({ instrument: instrument(tuning, capo) });
  return realiseSection(planOf(progression, parts), settings, new RealiseCache()).bars;
}

const voicing = (symbol: string, frets: string, tuning?: string, capo?: Capo, inKey = 'G major'): Voicing =>
  play(`${symbol} as ${frets}`, { key: inKey }, tuning, capo)[0].chords[0].voicing!;

const notes = ({ strings }: Voicing): string => strings.map(({ pitch }) => formatPitch(pitch)).join(' ');
const shapeNotes = ({ strings }: Voicing): string => strings.map(({ shapePitch }) => formatPitch(shapePitch)).join(' ');

describe('a capo', () => {
  it('keeps the name of the shape beside the name that sounds', () => {
    const g = voicing('G', '320003', 'standard', { fret: 3 });
    assert.deepEqual([g.shapeNames[0], g.sounding[0]], ['G', 'Bb']);
    assert.equal(shapeNotes(g), 'G2 B2 D3 G3 B3 G4');
    assert.equal(notes(g), 'Bb2 D3 F3 Bb3 D4 Bb4');
  });

  it('spells by the key that sounds', () => {
    assert.equal(voicing('Em', '022000', 'standard', { fret: 3 }).sounding[0], 'Gm');
    assert.equal(voicing('D/F#', '200232', 'standard', { fret: 3 }).sounding[0], 'F/A');
    assert.equal(voicing('D', 'xx0232', 'standard', { fret: 2 }, 'D major').sounding[0], 'E');
  });

  it('finds the same shapes as without', () => {
    const rule = shapeOf('strings 4 2 1', 'tones 3 R 5', 'open 3', 'frets 1 to 12', 'reach 2');
    const without = play('G | D | Em', { rule }).map(fretsOf);
    assert.deepEqual(play('G | D | Em', { rule }, 'standard', { fret: 3 }).map(fretsOf), without);
  });
});

describe('a partial capo', () => {
  // On the second fret of strings 5, 4 and 3 the open strings are to the shapes D A D G A D, and sound E B E A B E.
  const capo = { fret: 2, strings: [5, 4, 3] };

  it('makes other shapes, a whole step lower than they sound', () => {
    const d = voicing('D', '000200', 'standard', capo, 'D major');
    assert.equal(shapeNotes(d), 'D2 A2 D3 A3 A3 D4');
    assert.equal(notes(d), 'E2 B2 E3 B3 B3 E4');
    assert.deepEqual([d.shapeNames[0], d.sounding[0]], ['D5', 'E5']);
  });

  it('leaves the frets behind it on the free strings alone', () => {
    const rule = shapeOf('strings 6 5 4', 'tones R 5 R', 'frets 0 to 12');
    for (const bar of play('Eb | E | F', { rule, key: 'D major' }, 'standard', capo)) {
      const first = bar.chords[0].voicing?.frets[0];
      assert.ok(first === undefined || first === 0 || first! > 2);
    }
  });
});

describe('a tuning lowered as a whole', () => {
  it('keeps the shapes and their names', () => {
    const g = voicing('G', '320003', 'half-step-down');
    assert.deepEqual([g.shapeNames[0], g.sounding[0]], ['G', 'Gb']);
    assert.equal(shapeNotes(g), 'G2 B2 D3 G3 B3 G4');
    assert.equal(voicing('Em', '022000', 'whole-step-down').sounding[0], 'Dm');
  });

  it('is known by its notes, and not confused with other tunings', () => {
    const shift = (tuning: string): number => shapeShift(instrument(tuning));
    assert.deepEqual(
      ['Eb2 Ab2 Db3 Gb3 Bb3 Eb4', 'whole-step-down', 'drop-c-sharp', 'drop-c'].map(shift),
      [-1, -2, -1, -2],
    );
    assert.deepEqual(
      ['standard', 'drop-d', 'open-g', 'dadgad', 'baritone', 'ukulele', 'bass'].map(shift),
      [0, 0, 0, 0, 0, 0, 0],
    );
    assert.equal(shapeShift(instrument('half-step-down', { fret: 1 })), 0);
  });
});

describe('the key that sounds', () => {
  it('has the fewest signs', () => {
    const sounds = (name: string, fret: number): string =>
      formatKey(soundingKey(key(name), instrument('standard', { fret })));
    assert.equal(sounds('G major', 3), 'Bb major');
    assert.equal(sounds('C major', 1), 'Db major');
    assert.equal(sounds('E minor', 2), 'F# minor');
    assert.equal(sounds('D major', 4), 'F# major');
    assert.equal(sounds('F major', 1), 'Gb major');
    assert.equal(sounds('A dorian', 2), 'B dorian');
  });
});

describe('a re-entrant tuning', () => {
  it('names no slash that nobody wrote', () => {
    // F on a ukulele is A C F A with its lowest note C: everybody calls it F.
    assert.equal(voicing('F', '2010', 'ukulele', undefined, 'C major').sounding[0], 'F');
  });

  it('takes the lowest note by what sounds', () => {
    const rule = shapeOf('strings 4 3 2 1', 'frets 0 to 5', 'bass R');
    for (const bar of play('C | F | G', { rule, key: 'C major' }, 'ukulele')) {
      const { voicing: found } = bar.chords[0];
      if (!found) continue;
      const lowest = [...found.strings].sort((a, b) => a.midi - b.midi)[0];
      assert.equal(lowest.role, 'root');
    }
  });
});
