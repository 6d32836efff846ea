/** Chord diagrams: which signs stand on which strings. */
import assert from 'node:assert/strict';
import { drawDiagram, drawnFrets, firstFretWords, windowOf } from '../../server/src/draw/diagram.ts';
import type { Drawing, Shape } from '../../server/src/draw/drawing.ts';
import { svgOf } from '../../server/src/draw/svg.ts';
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed, tuningOf } from '../../server/src/fretboard/tuning.ts';
import { parsePitch } from '../../server/src/theory/note.ts';
import { elementsOf } from '../support/markup.ts';
import { D, GUITAR, voicing } from '../support/score.ts';

const diagram = (words: Parameters<typeof voicing>[0]): Drawing => drawDiagram(words.symbol, voicing(words), GUITAR);
const styles = (drawing: Drawing): readonly string[] =>
  drawing.shapes
    .map((shape: Shape) => shape.style ?? '')
    .filter((style) => style.startsWith('dot') || style === 'mute');
const C = { symbol: 'C', frets: 'x-3-2-0-1-0', fingers: 'x-3-2-0-1-0', degrees: 'R 3 5 R 3' };
const F = { symbol: 'F', frets: '1-3-3-2-1-1', fingers: '1-3-4-2-1-1', degrees: 'R 5 R 3 5 R' };

describe('A chord diagram', () => {
  it('draws roots square, chord tones round, colours as diamonds, open strings hollow', () => {
    assert.deepEqual(styles(diagram(D)), ['mute', 'mute', 'dot tone', 'dot colour hollow', 'dot root', 'dot tone']);
    assert.deepEqual(
      diagram(D).shapes.flatMap((shape) => (shape.style?.startsWith('dot') ? [shape.kind] : [])),
      ['circle', 'path', 'box', 'circle'],
    );
  });

  it('begins at the nut for first positions and says the fret elsewhere', () => {
    assert.ok(diagram(C).shapes.some((shape) => shape.style === 'nut'));
    const up = diagram(D);
    assert.ok(!up.shapes.some((shape) => shape.style === 'nut'));
    assert.match(svgOf(up), /class="small"[^>]*>3</);
  });

  it('shows at least four frets, and all that a wide shape needs', () => {
    assert.deepEqual(windowOf(parseFretList('x32010', 6)!), { from: 1, frets: 4 });
    assert.deepEqual(windowOf(parseFretList('x-x-9-0-8-10', 6)!), { from: 8, frets: 4 });
    assert.deepEqual(windowOf(parseFretList('1-x-x-x-x-6', 6)!), { from: 1, frets: 6 });
    assert.deepEqual(windowOf(parseFretList('000000', 6)!), { from: 1, frets: 4 });
  });

  it('joins the strings of a barre', () => {
    assert.equal(diagram(F).shapes.filter((shape) => shape.style === 'barre').length, 1);
    assert.equal(diagram(C).shapes.filter((shape) => shape.style === 'barre').length, 0);
  });

  it('counts from the nut where a capo leaves strings free', () => {
    const partly = instrumentWith(tuningNamed('standard')!, { capo: { fret: 2, strings: [5, 4, 3] } });
    assert.deepEqual(drawnFrets(parseFretList('0-0-2-0-0-0', 6)!, partly), [0, 0, 4, 0, 0, 0]);
    const whole = instrumentWith(tuningNamed('standard')!, { capo: { fret: 2 } });
    assert.deepEqual(drawnFrets(parseFretList('0-0-2-0-0-0', 6)!, whole), [0, 0, 2, 0, 0, 0]);
  });

  it('draws that capo, and calls its first fret what the tab calls it', () => {
    const partly = instrumentWith(tuningNamed('standard')!, { capo: { fret: 2, strings: [5, 4, 3] } });
    const first = (frets: string): string => {
      const list = parseFretList(frets, 6)!;
      return firstFretWords(list, partly, windowOf(drawnFrets(list, partly)));
    };
    assert.equal(first('0-0-0-11-0-0'), '11');
    assert.equal(first('7-x-x-x-9-x'), '7');
    // A finger at fret 5 behind the capo lies beside one at fret 7 of a free string.
    assert.equal(first('x-5-7-x-7-x'), '5/7');
    const shown = (frets: string): readonly Shape[] =>
      drawDiagram('Em', voicing({ symbol: 'Em', frets }, partly), partly).shapes.filter(
        ({ style }) => style === 'capo',
      );
    assert.equal(shown('0-0-2-0-0-0').length, 1);
    assert.equal(shown('0-0-0-11-0-0').length, 0);
  });

  it('draws 3 to 12 strings, in well-formed SVG', () => {
    for (let strings = 3; strings <= 12; strings++) {
      const frets = Array.from({ length: strings }, (_, index) => index % 5).join('-');
      const notes = Array.from({ length: strings }, (_, index) => parsePitch(`E${1 + Math.floor(index / 2)}`)!);
      const instrument = instrumentWith(tuningOf(notes)!);
      const drawing = drawDiagram('<&>', voicing({ symbol: '<&>', frets, fingers: frets }, instrument), instrument);
      assert.equal(styles(drawing).length, strings);
      elementsOf(svgOf(drawing));
    }
  });
});
