/** A chord on the fingerboard: what stands where, by form. */
import assert from 'node:assert/strict';
import { drawNeck } from '../../server/src/draw/neck.ts';
import { svgOf } from '../../server/src/draw/svg.ts';
import type { Shape } from '../../server/src/draw/drawing.ts';
import { analyze } from '../../server/src/analyze.ts';
import type { Instrument } from '../../server/src/fretboard/instrument.ts';
import type { Voicing } from '../../server/src/realise/score.ts';
import { elementsOf } from '../support/markup.ts';

function voiced(symbol: string, frets: string, above = ''): { voicing: Voicing; instrument: Instrument } {
  const { lesson, score } = analyze(
    `${above}grip ${symbol} ${frets}\nprogression a\n  ${symbol}\nsection s\n  progression a\n`,
  );
  return { voicing: score.sections[0].bars[0].chords[0].voicing!, instrument: lesson.settings.instrument };
}

function neck(symbol: string, frets: string, width = 900, above = '') {
  const { voicing, instrument } = voiced(symbol, frets, above);
  return drawNeck(symbol, voicing, instrument, width);
}

const wordsOf = (shapes: readonly Shape[], style: string): readonly string[] =>
  shapes.flatMap((shape) =>
    shape.kind === 'label' && shape.style === style ? shape.runs.map(({ text }) => text) : [],
  );
const stylesOf = (shapes: readonly Shape[]): readonly string[] =>
  shapes.flatMap(({ style }) => (style?.startsWith('dot') || style === 'mute' ? [style] : []));

describe('a chord on the neck', () => {
  // D with the third in the bass and the open G string: third, eleventh, root, fifth from the fourth string up.
  const shapes = neck('D', 'x-x-4-0-3-5').shapes;

  it('shows what each string is by its form, from the lowest string up', () => {
    assert.deepEqual(stylesOf(shapes), ['mute', 'mute', 'dot tone', 'dot colour hollow', 'dot root', 'dot tone']);
  });
  it('names the tones, those of open strings before the nut', () => {
    assert.deepEqual(wordsOf(shapes, 'finger'), ['3', 'R', '5']);
    assert.deepEqual(wordsOf(shapes, 'degree'), ['11']);
  });
  it('has the highest string on top, as in the tab, and goes to the octave', () => {
    const names = shapes.filter((shape) => shape.kind === 'label' && shape.style === 'small' && shape.x === 8);
    const heights = names.map((shape) => (shape.kind === 'label' ? shape.y : 0));
    assert.deepEqual(
      heights,
      [...heights].sort((a, b) => b - a),
    );
    assert.deepEqual(wordsOf(shapes, 'small').slice(0, 5), ['3', '5', '7', '9', '12']);
  });
  it('shows a capo that leaves strings free, and counts from it as the tab does', () => {
    const { shapes: halved } = neck('Em', '0-0-2-0-0-0', 900, 'capo 2 on 5 4 3\n');
    assert.equal(halved.filter(({ style }) => style === 'capo').length, 1);
    assert.deepEqual(wordsOf(halved, 'small').slice(0, 5), ['capo', '3', '5', '7', '9']);
  });
  it('fits its width, and shows the part of the neck with the shape where there is no room for all of it', () => {
    for (const width of [280, 420, 900]) {
      for (const frets of ['x-x-9-0-8-10', 'x-x-x-16-15-17', '3-2-0-0-0-3']) {
        const drawn = neck('G', frets, width);
        assert.ok(drawn.width <= width, `${drawn.width} in ${width}`);
        const { voicing } = voiced('G', frets);
        const pressed = voicing.frets.filter((fret) => fret !== null && fret > 0).length;
        assert.equal(
          stylesOf(drawn.shapes).filter((style) => style.startsWith('dot') && !style.includes('hollow')).length,
          pressed,
        );
        for (const shape of drawn.shapes) if (shape.kind === 'label') assert.ok(shape.x > 0 && shape.x < width);
      }
    }
  });
  it('is well-formed, and is told in words', () => {
    const drawn = neck('D', 'x-x-4-0-3-5', 300, 'capo 2 on 5 4 3\n');
    elementsOf(svgOf(drawn));
    assert.match(drawn.says, /^D: string six silent/);
  });
});
