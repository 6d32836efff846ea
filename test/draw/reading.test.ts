/** The four readings of a tab and its diagrams: other words in the same places, and none over another. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { drawDiagram } from '../../server/src/draw/diagram.ts';
import type { Drawing, Group, Label } from '../../server/src/draw/drawing.ts';
import { READINGS, type Reading } from '../../server/src/draw/look.ts';
import { drawNeck } from '../../server/src/draw/neck.ts';
import { drawSystems } from '../../server/src/draw/section.ts';
import { overlapping } from '../support/label-boxes.ts';
import { D, GUITAR, voicing } from '../support/score.ts';

function systems(name: string, reading: Reading, width = 960): readonly Drawing[] {
  const { lesson, score } = analyze(readFileSync(`samples/${name}.lesson`, 'utf8'));
  const { instrument } = lesson.settings;
  return lesson.sections.flatMap((section, index) =>
    drawSystems({ name: 'a', plan: section.plan, score: score.sections[index], instrument, reading }, width).map(
      ({ drawing }) => drawing,
    ),
  );
}

const notesIn = (drawing: Drawing): readonly Label[] =>
  drawing.shapes
    .filter((shape): shape is Group => shape.kind === 'group')
    .flatMap(({ shapes }) => shapes)
    .filter((shape): shape is Label => shape.kind === 'label' && shape.style.startsWith('fret'));

const wordsOf = (labels: readonly Label[]): string => labels.map(({ runs }) => runs[0].text).join(' ');

describe('A tab in four readings', () => {
  it('says what each note is by its fret, its interval, its name and its finger', () => {
    // The second bar of the quay: D as x-x-4-0-3-5 with the open G, under a melody A G A on string 1.
    const words = (reading: Reading): string => wordsOf(notesIn(systems('harbour-lamps', reading)[0]).slice(9, 18));
    assert.equal(words('frets'), '4 5 0 3 3 0 3 5 0');
    assert.equal(words('intervals'), '3 5 11 R 11 11 R 5 11');
    assert.equal(words('notes'), 'F# A G D G G D A G');
    assert.match(words('fingers'), /^2 3 0 1 \d 0 1 3 0$/);
  });

  it('has everything in the same places, and nothing over anything else', () => {
    for (const name of ['harbour-lamps', 'night-tram', 'one-note-many-ways', 'what-the-ferryman-swears']) {
      for (const width of [380, 960]) {
        const usual = systems(name, 'frets', width);
        for (const reading of READINGS) {
          const drawn = systems(name, reading, width);
          const places = (all: readonly Drawing[]): unknown => all.map((one) => notesIn(one).map(({ x }) => x));
          assert.deepEqual(places(drawn), places(usual));
          assert.deepEqual(
            drawn.flatMap((one) => overlapping(one)),
            [],
            `${name} ${reading} ${width}`,
          );
        }
      }
    }
  });
});

describe('A diagram', () => {
  const signs = (drawing: Drawing): readonly string[] =>
    drawing.shapes.flatMap((shape) =>
      shape.kind === 'label' && /^(?:finger|degree)/.test(shape.style) ? [shape.runs[0].text] : [],
    );
  const chord = voicing({ ...D, fingers: 'x-x-2-0-1-3' });

  it('carries fingers, intervals or notes on its signs, open strings too', () => {
    const of = (reading: Reading): readonly string[] =>
      signs(drawDiagram('D', chord, GUITAR, { reading, leftHanded: false }));
    assert.deepEqual(of('frets'), ['2', '1', '3']);
    assert.deepEqual(of('fingers'), ['2', '1', '3']);
    assert.deepEqual(of('intervals'), ['3', '11', 'R', '5']);
    assert.deepEqual(of('notes'), ['F#', 'G', 'D', 'A']);
  });

  it('is mirrored for a left-handed player, and so is the neck', () => {
    for (const draw of [
      (leftHanded: boolean) => drawDiagram('D', chord, GUITAR, { reading: 'frets', leftHanded }),
      (leftHanded: boolean) => drawNeck('D', chord, GUITAR, 700, { look: { reading: 'frets', leftHanded } }),
    ]) {
      const middles = (drawing: Drawing): readonly number[] =>
        drawing.shapes.flatMap((shape) => (shape.kind === 'circle' ? [shape.x] : []));
      const [right, left] = [middles(draw(false)), middles(draw(true))];
      assert.equal(left.length, 2);
      // The two round signs keep their distance, and change sides.
      assert.equal(left[1] - left[0], -(right[1] - right[0]));
      assert.equal(draw(true).width, draw(false).width);
    }
  });
});
