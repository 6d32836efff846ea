/** Chord diagrams as text. */
import assert from 'node:assert/strict';
import { textDiagram } from '../../server/src/draw/text-diagram.ts';
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';
import { GUITAR } from '../support/score.ts';

const list = (text: string) => parseFretList(text, 0)!;

describe('A chord diagram as text', () => {
  it('shows an open C', () => {
    assert.equal(
      textDiagram(list('x32010'), list('x32010'), GUITAR),
      ['x     o   o', '═══════════', '│ │ │ │ 1 │', '│ │ 2 │ │ │', '│ 3 │ │ │ │', '│ │ │ │ │ │'].join('\n'),
    );
  });

  it('begins at the lowest fret up the neck, and says which', () => {
    assert.equal(
      textDiagram(list('x-x-9-0-8-10'), list('x-x-2-0-1-3'), GUITAR),
      ['x x   o', '───────────', '│ │ │ │ 1 │  fret 8', '│ │ 2 │ │ │', '│ │ │ │ │ 3', '│ │ │ │ │ │'].join('\n'),
    );
  });

  it('marks frets without a known finger, on any number of strings', () => {
    const ukulele = instrumentWith(tuningNamed('ukulele')!);
    assert.equal(
      textDiagram(list('0003'), undefined, ukulele),
      ['o o o', '═══════', '│ │ │ │', '│ │ │ │', '│ │ │ ●', '│ │ │ │'].join('\n'),
    );
  });
});
