/** The example of the language: what it must find was worked out by hand, string by string, apart from any program. */
import assert from 'node:assert/strict';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import { formatDegree } from '../../server/src/theory/interval.ts';
import { formatPitch } from '../../server/src/theory/note.ts';
import type { SectionScore } from '../../server/src/realise/score.ts';
import { cellOf, contourOf, fretsOf, planOf, played, settingsOf, shapeOf } from '../support/plan.ts';

const parts = {
  rule: shapeOf('strings 4 2 1', 'tones 3 R 5', 'open 3', 'frets 1 to 12', 'reach 2'),
  cell: cellOf('each 1/8', 'p4 i3 m2 i3 m2 i3'),
  contour: contourOf(1, '1/4', '5', '0 -1 0'),
  meter: '3/4',
};

const quay = (): SectionScore =>
  realiseSection(
    planOf('G | D | Em | Am | Em | D | G at 8 | G held', parts),
    settingsOf({ level: 3 }),
    new RealiseCache(),
  );

const G = 'x-x-9-0-8-10';
const D = 'x-x-4-0-3-5';
const EM = 'x-x-5-0-5-7';
const AM = 'x-x-10-0-10-12';

describe('Harbour lamps', () => {
  const { bars } = quay();
  const voicing = (bar: number) => bars[bar - 1].chords[0].voicing!;

  it('has the voicings of the eight bars, the pin at 8 being the same as without', () => {
    assert.deepEqual(bars.map(fretsOf), [G, D, EM, AM, EM, D, G, G]);
  });

  it('sounds these notes, the lowest first', () => {
    const notes = [1, 2, 3, 4].map((bar) =>
      [...voicing(bar).strings]
        .sort((a, b) => a.midi - b.midi)
        .map(({ pitch }) => formatPitch(pitch))
        .join(' '),
    );
    assert.deepEqual(notes, ['G3 B3 G4 D5', 'F#3 G3 D4 A4', 'G3 G3 E4 B4', 'G3 C4 A4 E5']);
  });

  it('is called by these names', () => {
    assert.deepEqual(
      [1, 2, 3, 4].map((bar) => voicing(bar).sounding[0]),
      ['G', 'Dadd11/F#', 'Em/G', 'Am7/G'],
    );
  });

  it('hears the open third string double, colour, double and colour the chords', () => {
    const open = [1, 2, 3, 4].map((bar) => voicing(bar).strings.find(({ string }) => string === 3)!);
    assert.deepEqual(
      open.map(({ role, degree }) => `${role} ${formatDegree(degree, 'R')}`),
      ['doubling R', 'colour 11', 'doubling b3', 'colour b7'],
    );
  });

  it('rubs in bar 2 alone, G3 against F#3', () => {
    assert.deepEqual(
      bars.map(({ chords }) =>
        chords[0].voicing!.clashes.map(
          ({ open, against }) => `${formatPitch(open.pitch)} ${formatPitch(against.pitch)}`,
        ),
      ),
      [[], ['G3 F#3'], [], [], [], ['G3 F#3'], [], []],
    );
  });

  it('sings on the first string, from the fifth down a step and back', () => {
    assert.deepEqual(
      [1, 2, 3, 4].map((bar) => bars[bar - 1].chords[0].contour!.frets.join(' ')),
      ['10 8 10', '5 3 5', '7 5 7', '12 10 12'],
    );
  });

  it('plays the ripple under the melody, and strikes the last chord once', () => {
    assert.equal(played(bars[0]), '0 p4:9 ~a1:10  1/8 i3:0  1/4 m2:8 ~a1:8  3/8 i3:0  1/2 m2:8 ~a1:10  5/8 i3:0');
    assert.equal(played(bars[7]), '0 down4:9 down3:0 down2:8 ~1:10  1/4 ~1:8  1/2 ~1:10');
  });

  it('has exactly one voicing for each chord', () => {
    assert.deepEqual(
      bars.map(({ chords }) => chords[0].choices),
      [1, 1, 1, 1, 1, 1, 1, 1],
    );
  });

  it('is the same from a cold start, and from a cache that has seen other things', () => {
    const cache = new RealiseCache();
    realiseSection(planOf('G | C', parts), settingsOf(), cache);
    realiseSection(planOf('G | D', { ...parts, key: 'D major' }), settingsOf(), cache);
    const again = realiseSection(
      planOf('G | D | Em | Am | Em | D | G at 8 | G held', parts),
      settingsOf({ level: 3 }),
      cache,
    );
    assert.equal(JSON.stringify(again), JSON.stringify(quay()));
  });
});
