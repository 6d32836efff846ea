/** What is open below the music: the neck, the voicings, the open strings, the variants, of the chord that is looked at. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { previewOf } from '../../server/src/features/preview.ts';
import { PLAIN_VIEW, type PanelAsked, type PreviewView } from '../../server/src/protocol.ts';
import { elementsOf } from '../support/markup.ts';

const LAMPS = readFileSync('samples/harbour-lamps.lesson', 'utf8');

function panel(text: string, asked: PanelAsked, more: Partial<PreviewView> = {}, width = 1000) {
  const opened = previewOf(analyze(text), width, { ...PLAIN_VIEW, ...more, panel: asked }).panel;
  assert.ok(opened);
  for (const { content } of opened.blocks) elementsOf(content);
  return { ...opened, html: opened.blocks.map(({ content }) => content).join('\n') };
}

/** What can be read of HTML, without what draws. */
const words = (html: string): string =>
  html
    .replace(/<svg.*?<\/svg>/gs, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

const labels = (html: string): readonly string[] => [...html.matchAll(/aria-label="([^"]*)"/g)].map(([, says]) => says);

const SECOND = { bar: 'verse.2', chord: 0 };

describe('The neck below the music', () => {
  it('shows the chord at the cursor, its melody and its reach', () => {
    const { title, html } = panel(LAMPS, { kind: 'neck', ...SECOND });
    assert.equal(title, 'D in bar 2 of The quay at dusk');
    // On a scale of 648 mm fingertips at frets 3 and 5 lie 60 mm apart: 648 · (2^(−3/12) − 2^(−5/12)), a quarter fret behind the wires.
    assert.match(words(html), /^D sounds Dadd11\/F# reach 60 mm, index to ring finger at frets 3 and 5, comfortable$/);
    assert.match(
      labels(html)[0],
      /string one fret five, ring finger; melody: string one fret five, string one fret three/,
    );
    assert.match(html, />60 mm<\/text>/);
    assert.match(html, />19<\/text>/, 'the whole fingerboard');
  });
  it('names notes or fingers where these are read', () => {
    const signs = (more: Partial<PreviewView>): readonly string[] =>
      [
        ...panel(LAMPS, { kind: 'neck', ...SECOND }, more).html.matchAll(/class="(?:finger|degree)"[^>]*>([^<]*)</g),
      ].map(([, text]) => text);
    assert.deepEqual(signs({ reading: 'intervals' }), ['3', '11', 'R', '5']);
    assert.deepEqual(signs({ reading: 'notes' }), ['F#', 'G', 'D', 'A']);
    assert.deepEqual(signs({ reading: 'fingers' }), ['2', '1', '3']);
  });
  it('asks for a chord where none is pointed at, or it is gone', () => {
    for (const asked of [{}, { bar: 'verse.99', chord: 0 }, { bar: 'nowhere.1' }, { bar: 'verse.2', chord: 7 }])
      assert.match(words(panel(LAMPS, { kind: 'neck', ...asked }).html), /^Put the cursor on a chord/);
  });
});

describe('The voicings below the music', () => {
  const OPEN = 'key C major\nprogression p\n  C | F at 8\nsection s\n  progression p\n  shape open-chords\n';

  it('are those of the chord by its shape, the one that is played marked', () => {
    const { html } = panel(LAMPS, { kind: 'voicings', ...SECOND });
    assert.match(words(html), /^One voicing by shape lamp\. .* Dadd11\/F# 2\.0, moderate$/);
    assert.match(html, /data-pin="x-x-4-0-3-5" aria-pressed="true"/);
  });
  it('say what sounds on which string, so that a page can pluck them', () => {
    // F sharp, G, D and A on strings 4 to 1 as MIDI numbers, and the open strings of a guitar.
    const { html } = panel(LAMPS, { kind: 'voicings', ...SECOND });
    assert.match(html, /data-open="64 59 55 50 45 40"/);
    assert.match(html, /data-sounds="4:54 3:55 2:62 1:69"/);
    // A capo is counted.
    const high = panel(LAMPS.replace('tuning standard', 'tuning standard\ncapo 2'), { kind: 'voicings', ...SECOND });
    assert.match(high.html, /data-open="66 61 57 52 47 42"/);
    assert.match(high.html, /data-sounds="4:56 3:57 2:64 1:71"/);
  });
  it('come easiest first, two dozen at first and more where more is asked for', () => {
    const first = panel(OPEN, { kind: 'voicings', bar: 's.1', chord: 0 });
    const pins = (html: string): readonly string[] => [...html.matchAll(/data-pin="([^"]*)"/g)].map(([, pin]) => pin);
    assert.equal(pins(first.html).length, 24);
    assert.match(first.html, /data-most="48">\d+ more</);
    const more = panel(OPEN, { kind: 'voicings', bar: 's.1', chord: 0, most: 48 });
    assert.deepEqual(pins(more.html).slice(0, 24), pins(first.html));
    const { length } = pins(more.html);
    assert.ok(length > 24 && length <= 48, `${length}`);
    assert.equal(new Set(pins(more.html)).size, length);
  });
  it('can be set free where the chord is pinned', () => {
    assert.doesNotMatch(panel(OPEN, { kind: 'voicings', bar: 's.1', chord: 0 }).html, /data-unpin/);
    assert.match(panel(OPEN, { kind: 'voicings', bar: 's.2', chord: 0 }).html, /data-unpin/);
  });
});

describe('The open-string map', () => {
  const cells = (html: string, chord: string): readonly string[] => {
    const row = new RegExp(`<th scope="row">${chord}</th>(.*?)</tr>`, 's').exec(html)?.[1] ?? '';
    return [...row.matchAll(/<td>(.*?)<\/td>/gs)].map(([, cell]) => words(cell));
  };

  it('says what each open string is to each chord, and what the chord would be called', () => {
    const { title, html } = panel(LAMPS, { kind: 'open-strings' });
    assert.equal(title, 'Open strings over The quay at dusk');
    assert.match(words(html), /^over 6 · E 5 · A 4 · D 3 · G 2 · B 1 · E /);
    // E over G is a sixth, A a ninth, D and B belong to it, G is its root; G over D is an eleventh a semitone above its F sharp.
    assert.deepEqual(cells(html, 'G'), ['6 → G6/E', '9 → G/A', '5', 'R · rings', '3', '6 → G6']);
    assert.equal(cells(html, 'D')[3], '11 · rings ⌇');
    assert.deepEqual(
      [0, 2].map((at) => cells(html, 'Em')[at]),
      ['R', 'b7 → Em7/D'],
    );
  });
  it('says the same in a sentence', () => {
    const says = labels(panel(LAMPS, { kind: 'open-strings' }).html);
    assert.ok(says.includes('String 6 open over G: sixth; the chord would sound G 6 over E.'), says.join('\n'));
    assert.ok(
      says.includes('String 3 open over D: eleventh; it rings already; it rubs against the major third on string 4.'),
      says.join('\n'),
    );
  });
  it('offers the shape’s line for strings beside the shape, and frets for all', () => {
    const { html } = panel(LAMPS, { kind: 'open-strings' });
    const cell = (key: string): string => new RegExp(`<button[^>]*data-key="${key}"[^>]*>`).exec(html)![0];
    assert.match(cell('0.6'), /data-frets="0-x-9-0-8-10" data-line="open 6 3" data-shape="lamp"/);
    assert.match(cell('0.3'), /data-rings="true" data-frets="x-x-9-x-8-10" data-line="no open line"/);
    assert.doesNotMatch(cell('0.1'), /data-line/, 'string 1 carries the chord');
  });
});

describe('The variants below the music', () => {
  it('stand side by side where there is room, with the difficulty before and after', () => {
    const { html } = panel(LAMPS, { kind: 'variants', ...SECOND });
    assert.match(html, /data-variants="beside"/);
    assert.match(
      words(html),
      /As written difficulty 1\.8, easy Gentler, sounding in B flat difficulty 1\.8 → 1\.\d, easy · .*capo 3/,
    );
    assert.match(panel(LAMPS, { kind: 'variants' }, {}, 500).html, /data-variants="tabs"/);
  });
  it('are said not to be there', () =>
    assert.match(words(panel('key C major\n', { kind: 'variants' }).html), /^This lesson has no variants/));
});

describe('Text of a lesson in a panel', () => {
  it('is never markup', () => {
    const text = LAMPS.replaceAll('"The quay at dusk"', '"<img src=x onerror=alert(1)>"').replace(
      '"Gentler, sounding in B flat"',
      '"<b>x</b>"',
    );
    for (const kind of ['neck', 'voicings', 'open-strings', 'variants'] as const) {
      const { html } = panel(text, { kind, ...SECOND });
      assert.doesNotMatch(html, /<img|<b>x/);
    }
  });
});
