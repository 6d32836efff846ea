/** Systems of bars: nothing overlaps, everything is there, and the SVG is well formed whatever a lesson says. */
import assert from 'node:assert/strict';
import type { Drawing } from '../../server/src/draw/drawing.ts';
import { drawSystems } from '../../server/src/draw/section.ts';
import { svgOf } from '../../server/src/draw/svg.ts';
import type { BarScore } from '../../server/src/realise/score.ts';
import { labelBoxes, overlapping } from '../support/label-boxes.ts';
import { elementsOf } from '../support/markup.ts';
import { AM, bar, D, EM, G, GUITAR, plan, quay } from '../support/score.ts';

function systems(inMeter: string, bars: readonly BarScore[], width: number): readonly Drawing[] {
  const section = { name: 'verse', plan: plan(inMeter, bars), score: { bars, difficulty: 1 }, instrument: GUITAR };
  return drawSystems(section, width).map(({ drawing }) => drawing);
}

const LONG = { symbol: 'Cmaj9#11', frets: 'x-3-2-0-1-0', sounds: 'Cmaj13#11(no5)/Bb', colours: '13' };
const CROWDED: readonly BarScore[] = [
  bar(1, [LONG, D, EM, AM], '1/16', Array.from({ length: 16 }, () => 'p4=10+*a1=12').join(' ')),
  bar(2, [G, LONG], '1/4', 'down:3-2-0-0-0-3> up:3-2-0-0-0-3 mute:3-2-0-0-0-3 r'),
  bar(3, [LONG], '1/12', 'p5=3 i3=0 m2=1 p5=3+i3=0+m2=1+a1=0:3/4'),
];

describe('A system of bars', () => {
  it('lets no name, number or letter overlap another, at any width', () => {
    for (const width of [280, 400, 640, 960, 1600]) {
      for (const drawing of [...systems('3/4', quay(), width), ...systems('4/4', CROWDED, width)])
        assert.deepEqual(overlapping(drawing), [], `at ${width} pixels, ${drawing.says}`);
    }
  });

  it('fits its width where the bars can be squeezed into it', () => {
    for (const width of [280, 640, 960]) {
      for (const drawing of systems('3/4', quay(), width)) assert.equal(drawing.width, width);
    }
  });

  it('draws every bar once, in order, in fours where there is room and in twos where there is less', () => {
    const bars = [...quay(), ...quay().map((each) => ({ ...each, number: each.number + 4 }))];
    const numbers = (width: number): readonly string[] => systems('3/4', bars, width).map(({ says }) => says);
    assert.deepEqual(numbers(960), ['bars 1 to 4', 'bars 5 to 8']);
    assert.deepEqual(numbers(480), ['bars 1 to 2', 'bars 3 to 4', 'bars 5 to 6', 'bars 7 to 8']);
  });

  it('keeps a pick-up in the first system, and does not count it', () => {
    const bars = [bar(0, [], '1/4', '*2=3'), ...quay()];
    assert.deepEqual(
      systems('3/4', bars, 1200).map(({ says }) => says),
      ['bars 0 to 4'],
    );
  });

  it('colours no damped stroke as an open string', () => {
    const [drawing] = systems('4/4', [bar(1, [G], '1/4', 'down:3-2-0-0-0-3 mute:3-2-0-0-0-3')], 900);
    const open = labelBoxes(drawing.shapes).filter(({ style }) => style.split(' ').includes('open'));
    assert.deepEqual(
      open.map(({ text }) => text),
      ['0', '0', '0'],
    );
  });

  it('sets an accent close above what it is about, whatever else stands over the system', () => {
    const [drawing] = systems('4/4', [bar(1, [G], '1/4', 'p4=0> a1=3> p4=0 i3=0')], 900);
    const svg = svgOf(drawing);
    const middles = [...svg.matchAll(/class="stem" d="M\S+ (\S+)L\S+ (\S+)L/g)].map(([, , y]) => Number(y));
    const top = labelBoxes(drawing.shapes).find(({ text }) => text === 'E')!;
    const string = (top.top + top.bottom) / 2;
    assert.equal(middles.length, 2);
    for (const y of middles) assert.ok(string - y > 8 && string - y < 18, `${y} above the string at ${string}`);
  });

  it('gives time its room: a half note is wider than an eighth', () => {
    const [drawing] = systems('4/4', [bar(1, [], '1/8', 'p6=1:1/2 p6=2:1/4 p6=3 p6=4')], 900);
    const xs = labelBoxes(drawing.shapes)
      .filter(({ style }) => style === 'fret')
      .map(({ left, right }) => (left + right) / 2);
    const [half, quarter, eighth] = [xs[1] - xs[0], xs[2] - xs[1], xs[3] - xs[2]];
    assert.ok(Math.abs(half - 2 * quarter) < 0.01 && Math.abs(quarter - 2 * eighth) < 0.01, `${xs}`);
  });

  it('says each bar in words, and makes it a button', () => {
    const svg = svgOf(systems('3/4', quay(), 960)[0]);
    assert.match(
      svg,
      /<g class="bar" data-bar="verse\.2" tabindex="0" role="button" aria-label="bar 2, D sounding D add 11/,
    );
  });

  it('tells melody, open strings and colours apart by class', () => {
    const svg = svgOf(systems('3/4', quay(), 960)[0]);
    assert.match(svg, /class="fret melody"[^>]*>10</);
    assert.match(svg, /class="fret open"[^>]*>0</);
    assert.match(svg, /sounds Dadd11\/F# · <tspan class="colour">11<\/tspan>/);
    assert.equal(svg.match(/class="ring"/g)?.length, 12);
  });

  it('says which event each number shows, but only where it can be marked while it sounds', () => {
    const [drawing] = systems('3/4', quay(), 960);
    const numbers = [...svgOf(drawing).matchAll(/data-bar="([^"]+)"|data-note="(\d+)"[^>]*>([^<]+)</g)];
    const second = numbers.findIndex(([, id]) => id === 'verse.2');
    const shown = numbers.slice(second + 1, second + 5).map(([, , note, text]) => `${note}:${text}`);
    const { events } = quay()[1];
    assert.deepEqual(
      shown,
      shown.map((one) => `${one.split(':')[0]}:${events[Number(one.split(':')[0])].fret}`),
    );
    assert.equal(new Set(shown).size, 4);
    assert.doesNotMatch(svgOf(drawing, ''), /data-note/);
  });

  it('draws a broken bar as one, and goes on behind it', () => {
    const svg = svgOf(systems('3/4', [{ ...bar(1, [], '1/4', '', '3/4'), broken: true }, ...quay().slice(1)], 960)[0]);
    assert.match(svg, /class="broken"/);
    assert.match(svg, />not read</);
    assert.match(svg, /data-bar="verse\.2"/);
  });

  it('escapes what a lesson says, and keeps the SVG well formed', () => {
    const evil = { ...G, symbol: `G"><script>alert('&')</script>\u0000`, sounds: '<b>' };
    const svg = svgOf(systems('3/4', [bar(1, [evil], '1/4', 'p4=9')], 960)[0]);
    assert.ok(!elementsOf(svg).includes('script'));
    assert.ok(!svg.includes('\u0000'));
  });

  it('writes numbers with at most two decimals', () => {
    for (const drawing of systems('4/4', CROWDED, 777))
      assert.doesNotMatch(svgOf(drawing), /\d\.\d{3}|e-\d|NaN|-0[ "]/);
  });
});
