/** The tab in plain text, as it is read. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { columns } from '../../server/src/draw/graphemes.ts';
import { textTab } from '../../server/src/draw/text-tab.ts';
import { bar, D, G, lessonWith, quay, section } from '../support/score.ts';
import type { BarScore } from '../../server/src/realise/score.ts';

function tabOf(inMeter: string, bars: readonly BarScore[], width = 80): string {
  const lesson = lessonWith('Small things', inMeter, [section('verse', 'The quay', inMeter, bars)]);
  return textTab(lesson, { sections: [{ bars, difficulty: 2 }] }, [], width);
}

/** The part below the head and the section's title. */
const body = (tab: string): string => tab.slice(tab.indexOf('The quay') + 'The quay\n\n'.length);

describe('The tab as text', () => {
  it('draws a small lesson from its text', () => {
    const { lesson, score, findings } = analyze(`lesson "Harbour lamps"
key G major
meter 3/4
tempo 84
shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3
  reach 2
progression quay
  G at 8 | D
cell ripple
  each 1/8
  p4 i3 m2 i3 m2 i3
contour swell on 1
  each 1/4
  from 5: 0 -1 0
section verse "The quay at dusk"
  progression quay
  shape lamp
  cell ripple
  contour swell
`);
    // Voicings, frets and names are those of an independent calculation by hand.
    const expected = `\
The quay at dusk

   1                        2
    G                        D
                             sounds Dadd11/F#
E |-'10'----'8'----'10'----|-'5'----'3'----'5'----|
B |----------8------8------|---------3------3-----|
G |------0------0-------0--|-----0------0------0--|
D |--9---------------------|--4-------------------|
A |------------------------|----------------------|
E |------------------------|----------------------|
     pa  i   ma i   ma  i     pa i   ma i   ma i
     1   &   2  &   3   &     1  &   2  &   3  &

'5' melody · p thumb · i index · m middle · a ring finger
letters together: plucked together
`;
    const tab = textTab(lesson, score, findings);
    assert.equal(tab.slice(tab.indexOf('The quay')), expected);
    assert.match(tab, /^Harbour lamps\nG major · 3\/4 · quarter = 84 · standard tuning, E A D G B E/);
  });

  it('says how notes are swung', () => {
    const { lesson, score } = analyze('lesson "A"\nswing 1/8\n');
    assert.match(textTab(lesson, score, []), / · swung eighths · standard tuning/);
  });

  it('shows where a bar begins with what sounds on', () => {
    const { lesson, score } = analyze(
      'melody held on 1\n  each 1/4\n  5 7 8 10 1/2 | r 1/4 7 8 - | - - 5 7\nsection verse\n  melody held\n',
    );
    const tab = textTab(lesson, score, []);
    const [third] = tab.split('\n').filter((line) => line.includes(' = '));
    assert.ok(third.indexOf('=') > third.indexOf('r'), third);
    assert.match(tab, /r rest · = held on from the bar before/);
  });

  it('lines up first digits where melody and two-digit frets meet', () => {
    assert.equal(
      body(tabOf('2/4', [bar(1, [], '1/8', 'p4=10+*1=12 i3=9 m2=10+*1=8 p4=7')])),
      `\
   1
E |-'12'----'8'----|
B |----------10----|
G |------9---------|
D |--10---------7--|
A |----------------|
E |----------------|
     p   i   m  p
     1   &   2  &

'5' melody · p thumb · i index · m middle · letters together: plucked together
`,
    );
  });

  it('shows strokes, accents, rests and muted strings', () => {
    assert.equal(
      body(tabOf('4/4', [bar(1, [], '1/4', 'down:0-2-2-1-0-0> up:0-2-2-1-0-0 mute:0-2-2-1-0-0 r')])),
      `\
   1
E |-0--0--x-----|
B |-0--0--x-----|
G |-1--1--x-----|
D |-2--2--x-----|
A |-2--2--x-----|
E |-0--0--x-----|
    ↓  ↑  x  r
    >
    1  2  3

↓ strum down · ↑ strum up · x muted stroke · > accent · r rest
`,
    );
  });

  it('shows a bar that was not read in its place', () => {
    const tab = tabOf('2/4', [
      bar(1, [G], '1/8', 'p4=9 i3=0 m2=8 i3=0'),
      { ...bar(2, [D], '1/4', '', '1/2'), broken: true },
    ]);
    assert.match(tab, /2 not read/);
    assert.match(tab, /\|\.{5,}\|/);
  });

  it('keeps every line within the width', () => {
    for (const width of [40, 60, 80, 120]) {
      const tab = tabOf('3/4', quay(), width);
      for (const line of tab.split('\n')) assert.ok(columns(line) <= width, `wider than ${width}: ${line}`);
    }
  });

  it('puts bars on lines in fours and twos', () => {
    const bars = Array.from({ length: 8 }, (_, index) => bar(index + 1, [], '1/4', 'p6=0 p5=0 p6=0 p5=0'));
    const rows = tabOf('4/4', bars, 90)
      .split('\n')
      .filter((line) => /^ +\d/.test(line) && !line.includes('&'))
      .map((line) => line.trim().split(/\s+/));
    assert.deepEqual(rows[0], ['1', '2', '3', '4']);
  });

  it('shows control characters of a title as a harmless sign', () => {
    const lesson = lessonWith('Red \u001b[31m alert\u202e', '3/4', []);
    const tab = textTab(lesson, { sections: [] }, []);
    assert.equal(tab.split('\n')[0], 'Red \ufffd[31m alert\ufffd');
  });

  it('counts sixteenths, triplets and 6/8 as players do', () => {
    const count = (inMeter: string, each: string, steps: string): string => {
      const lines = body(tabOf(inMeter, [bar(1, [], each, steps)])).split('\n');
      return lines[lines.findIndex((line) => line.startsWith('E')) + 7].trim().replace(/ +/g, ' ');
    };
    assert.equal(count('1/4', '1/16', 'p6=0 p6=0 p6=0 p6=0'), '1 e & a');
    assert.equal(count('1/4', '1/12', 'p6=0 p6=0 p6=0'), '1 tri let');
    assert.equal(count('6/8', '1/8', 'p6=0 p6=0 p6=0 p6=0 p6=0 p6=0'), '1 2 3 4 5 6');
  });
});
