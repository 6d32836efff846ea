/** Tabs that an author wrote out, drawn and written again: how notes are played, words, endings, repeats, ties. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import type { Drawing } from '../../server/src/draw/drawing.ts';
import { drawSystems } from '../../server/src/draw/section.ts';
import { spokenBar } from '../../server/src/draw/spoken.ts';
import { svgOf } from '../../server/src/draw/svg.ts';
import { textTab } from '../../server/src/draw/text-tab.ts';
import { readSign } from '../../server/src/lesson/signs.ts';
import type { BarScore } from '../../server/src/realise/score.ts';
import { Dice } from '../support/dice.ts';
import { labelBoxes, overlapping, struckThrough } from '../support/label-boxes.ts';
import { bar, GUITAR, plan, section, lessonWith } from '../support/score.ts';

/** A lesson whose only section plays the tab of these lines. */
const lessonOf = (tab: string, more = '', meter = '4/4'): string =>
  `lesson "Small things"\nkey G major\nmeter ${meter}\ntempo 84\n\ntab etude\n${tab}\n\nsection verse "Verse"\n  tab etude\n${more}`;

const drawn = (text: string, width = 960): readonly Drawing[] => drawnFrom(analyze(text), width);

function drawnFrom({ lesson, score }: ReturnType<typeof analyze>, width: number): readonly Drawing[] {
  const [{ name, plan: planned }] = lesson.sections;
  const instrument = lesson.settings.instrument;
  return drawSystems({ name, plan: planned, score: score.sections[0], instrument }, width).map(
    ({ drawing }) => drawing,
  );
}

const svg = (text: string, width?: number): string =>
  drawn(text, width)
    .map((one) => svgOf(one))
    .join('');

/** The tab below the section's title. */
function tabOf(text: string, width = 80): string {
  const { lesson, score } = analyze(text);
  const tab = textTab(lesson, score, [], width);
  return tab.slice(tab.indexOf('\n\n', tab.indexOf('\nVerse')) + 2);
}

function spoken(text: string): readonly string[] {
  return analyze(text).score.sections[0].bars.map((each) => spokenBar(each));
}

const texts = (drawings: readonly Drawing[], style: string): readonly string[] =>
  drawings.flatMap(({ shapes }) => labelBoxes(shapes).flatMap((one) => (one.style === style ? [one.text] : [])));

const STUDY = lessonOf(`  each 1/8
  chords G | C
  1 | 3  -   -  -   <12> - -  -  | -  -  -   -   -  - -    x     |
  2 | -  0   -  1h3 -    - 0  -  | -  1  h3  p1  -  1 -    g1h3  |
  3 | -  -   0  -   -    - -  -  | 0  -  -   -   0  - 2b4  -     |
  4 | -  -   -  -   -    - -  (2)| -  -  -   -   2  - -    -     |
  6 | 3  -   -  -   -    3 -  -  | 3  -  -   -   -  - 3~   -     |
  pluck   p+a i m i a p i m | p+m i - - p+m i p+i m
  fingers 3+4 - - 1 - 3 - 2 | - - - - - - - -
`);

describe('A written tab as text', () => {
  it('has the signs in which it was written, first digits of a column lined up', () => {
    assert.equal(
      tabOf(STUDY),
      `\
   1                              2
    G                              C
    34       1         3      2
E |-3-------------<12>-----------|--------------------------x-|
B |----0-----1-h3---------0------|----1--h3-p1----1------g1h3-|
G |-------0----------------------|-0-----------0-----2b4------|
D |--------------------------(2)-|-------------2--------------|
A |------------------------------|----------------------------|
E |-3------------------3---------|-3-----------------3~-------|
    pa i  m  i     a   p  i   m    pm i        pm i  pi     m
    1  &  2  &  a  3   &  4   &    1  &   2  & 3  &  4      &

p thumb · i index · m middle · a ring finger
letters together: plucked together · digits above the strings: fretting fingers
x dead note · (5) ghost note · <12> harmonic · h3 hammer-on · p1 pull-off
7b9 bend to the pitch of 9 · 5~ vibrato · g5 grace note
`,
    );
  });

  it('tells slides up and down, all bends, slaps, taps, accents and the palm', () => {
    const lead = lessonOf(`  each 1/8
  1 | 12> t15 p12 - 2<14> - - - |
  2 | 8b10 8b10r8 8pb10 8pb10r8 7b1/4 5/9 \\5 r |
  6 | s0 - - x x - - - |
  palm * - - * * - - -
`);
    const rows = tabOf(lead, 100).split('\n');
    assert.deepEqual(tokens(rows.find((row) => row.startsWith('B'))!), [
      '8b10',
      '8b10r8',
      '8pb10',
      '8pb10r8',
      '7b1/4',
      '5',
      '/9',
      '\\5',
    ]);
    assert.deepEqual(tokens(rows.find((row) => row.startsWith('E'))!), ['12', 't15', 'p12', '2<14>']);
    assert.match(rows.join('\n'), /^ +>$/m);
    assert.match(rows.join('\n'), /^ +\* +\* +\*$/m);
  });

  it('shows repeats and endings around the bars, and says how often the section is played', () => {
    const text = `lesson "Small things"
key G major
meter 2/4
tempo 84
tab one
  each 1/4
  6 | 3 3 |
tab two
  each 1/4
  5 | 2 2 |
section verse "Verse"
  tab etude
  times 2
  ending 1 one
  ending 2 two
tab etude
  each 1/4
  4 | 0 2 | 4 2 |
`;
    assert.equal(
      tabOf(text),
      `\
                    ending 1  ending 2
    1       2       3         4
E |:-------|-------|--------:|--------|
B |:-------|-------|--------:|--------|
G |:-------|-------|--------:|--------|
D |:-0--2--|-4--2--|--------:|--------|
A |:-------|-------|--------:|-2--2---|
E |:-------|-------|-3--3---:|--------|
     1  2    1  2    1  2      1  2

|: and :| repeat what is between
`,
    );
    const { lesson, score } = analyze(text.replace('times 2', 'times 3'));
    assert.match(textTab(lesson, score, []), /^Verse · three times$/m);
  });

  it('writes nothing that the language would not read', () => {
    for (let seed = 1; seed <= 40; seed++) {
      for (const row of tabOf(generated(new Dice(seed)), 200).split('\n')) {
        if (!/^[EADGB] \|/.test(row)) continue;
        for (const token of tokens(row)) assert.ok(readSign(token), `seed ${seed}: ${token} in ${row}`);
      }
    }
  });
});

/** What stands on a row of a string. */
const tokens = (row: string): readonly string[] =>
  row
    .slice(2)
    .split(/[-|:]+/)
    .filter((token) => token !== '');

describe('A written tab as a drawing', () => {
  it('draws numbers in the brackets of their kind, slurs with their letters and bends with how far they go', () => {
    const all = drawn(STUDY);
    const frets = [...texts(all, 'fret'), ...texts(all, 'fret open')];
    for (const sign of ['×', '(2)', '‹12›', '3']) assert.ok(frets.includes(sign), sign);
    assert.deepEqual(texts(all, 'grace'), ['1']);
    const small = texts(all, 'small');
    assert.deepEqual(
      small.filter((word) => /^[hp]$|full/.test(word)),
      ['full', 'h', 'h', 'p', 'h'],
    );
  });

  it('gives amounts in the words of the trade', () => {
    const bends = lessonOf('  each 1/4\n  3 | 7b1/4 7b8 7b9 7b10 | 7b11 - - - |\n');
    assert.deepEqual(
      texts(drawn(bends), 'small').filter((word) => !/^[1-9A-G]$/.test(word)),
      ['¼', '½', 'full', '1½'],
    );
    assert.match(svg(bends), />2<\/text>/);
  });

  it('leaves what joins bars out of hearing and of clicks', () => {
    assert.match(svg(STUDY), /<g aria-hidden="true" pointer-events="none">/);
  });

  it('ties over a bar line and over the end of a system', () => {
    const held = lessonOf(`  each 1/4\n${'  1 | 3 1 0 1 | - - 3 0 |\n'.repeat(4)}`);
    const { score } = analyze(held);
    assert.equal(score.sections[0].bars[1].tied?.length, 1);
    // One arc a tie; a tie that the end of a system cuts has two.
    const arcs = (width: number): number => svg(held, width).match(/ d="M[\d. ]+Q[\d. ]+"/g)?.length ?? 0;
    assert.equal(drawn(held, 1400).length, 1);
    assert.equal(arcs(1400), 4);
    assert.equal(drawn(held, 160).length, 8);
    assert.equal(arcs(160), 8);
  });

  it('draws the same for what is held in no new system as before: an edit draws its own system again, and no other', () => {
    const lines = (last: number): string =>
      `  each 1/4\n${'  1 | 3 1 0 1 | 0 1 3 0 |\n'.repeat(3)}  1 | 3 1 0 1 | 0 1 3 ${last} |\n`;
    const { lesson, score } = analyze(lessonOf(lines(1)));
    const [{ name, plan: planned }] = lesson.sections;
    const { bars } = score.sections[0];
    const changed = [...bars.slice(0, -1), { ...bars[7] }];
    const draw = (some: readonly BarScore[]): readonly Drawing[] =>
      drawSystems({ name, plan: planned, score: { bars: some, difficulty: 1 }, instrument: GUITAR }, 300).map(
        ({ drawing }) => drawing,
      );
    const [before, after] = [draw(bars), draw(changed)];
    assert.ok(before.length > 2);
    assert.deepEqual(
      after.map((drawing, index) => drawing === before[index]),
      before.map((_, index) => index < before.length - 1),
    );
  });

  it('lets nothing cover anything else on tabs of all kinds, at any width', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const text = generated(new Dice(seed));
      const analysis = analyze(text);
      for (const width of [300, 500, 1000]) {
        for (const drawing of drawnFrom(analysis, width)) {
          const where = `seed ${seed} at ${width}, ${drawing.says}\n${text}`;
          assert.deepEqual(overlapping(drawing), [], where);
          assert.deepEqual(struckThrough(drawing), [], where);
        }
      }
    }
  });
});

/** A tab of two systems of bars with every sign there is, and now and then a frame around it. */
function generated(dice: Dice): string {
  const [each, steps] = dice.pick([
    ['1/16', 16],
    ['1/8', 8],
    ['1/8 triplet', 12],
  ] as const);
  const fret = (): number => dice.between(1, 14);
  const sign = (): string => {
    const at = fret();
    return dice.pick([
      `${at}`,
      `${at}`,
      '0',
      'x',
      `(${at})`,
      '<12>',
      `${at}<${at + 12}>`,
      `${at}b${at + 2}`,
      `${at}b${at + 1}r${at}`,
      `${at}pb${at + 2}`,
      `${at}b1/4`,
      `${at}~`,
      `${at}b${at + 3}~`,
      `g${at}h${at + 2}`,
      `${at}h${at + 2}p${at}`,
      `${at}/${at + 3}`,
      `s${at}`,
      `t${at}`,
      `h${at}`,
      `p${at}`,
      `\\${at}`,
      `${at}>`,
      'r',
    ]);
  };
  const bars = dice.between(1, 3);
  const rows = dice.some([1, 2, 3, 4, 5, 6], dice.between(1, 4)).map((string) => {
    const filled = dice.between(8, 60);
    const inBar = (): string => Array.from({ length: steps }, () => (dice.chance(filled) ? sign() : '-')).join(' ');
    return `  ${string} | ${Array.from({ length: bars }, inBar).join(' | ')} |`;
  });
  const marks = (label: string, some: readonly string[]): string =>
    `  ${label} ${Array.from({ length: bars }, () => Array.from({ length: steps }, () => dice.pick(some)).join(' ')).join(' | ')}`;
  const more = [
    ...(dice.chance(50) ? [marks('pluck', ['p', 'i', 'm', 'a', '-'])] : []),
    ...(dice.chance(50) ? [marks('fingers', ['1', '2', '3', '-'])] : []),
    ...(dice.chance(50) ? [marks('palm', ['*', '*', '*', '-'])] : []),
    ...(dice.chance(50)
      ? [`  chords ${Array.from({ length: bars }, () => dice.pick(['G', 'Cmaj7#11', 'D / Em /'])).join(' | ')}`]
      : []),
  ];
  return lessonOf(
    [`  each ${each}`, ...more, ...rows].join('\n'),
    dice.chance(40) ? `  times ${dice.between(2, 4)}\n` : '',
  );
}

describe('Words under notes', () => {
  const SYLLABLES = 'lan- terns - are burn- - ing lowextraordinarily'.split(' ');

  /** A bar of quarters on string 1, each with a syllable: `lan-` is joined to the next, `-` held. */
  function sung(number: number, words: readonly string[]): BarScore {
    const made = bar(number, [], '1/8', words.map((_, index) => `*1=${index}`).join(' '));
    let joined = false;
    const events = made.events.map((event, index) => {
      if (words[index] !== '-') joined = words[index].endsWith('-');
      return { ...event, syllable: { text: words[index].replace('-', ''), joined } };
    });
    return { ...made, events };
  }

  const bars = [sung(1, SYLLABLES), sung(2, ['-', ...SYLLABLES.slice(1)]), sung(3, SYLLABLES)];

  it('stand apart from each other, each in the middle below its note', () => {
    const draw = (width: number): readonly Drawing[] =>
      drawSystems(
        { name: 'verse', plan: plan('4/4', bars), score: { bars, difficulty: 1 }, instrument: GUITAR },
        width,
      ).map(({ drawing }) => drawing);
    for (const width of [300, 500, 900, 1500])
      for (const drawing of draw(width)) assert.deepEqual(overlapping(drawing), []);
    const [drawing] = draw(1500);
    const boxes = labelBoxes(drawing.shapes);
    const middle = (text: string, style: string): number => {
      const found = boxes.find((one) => one.text === text && one.style === style)!;
      return (found.left + found.right) / 2;
    };
    assert.ok(Math.abs(middle('terns', 'word') - middle('1', 'fret melody')) < 0.01);
  });

  it('are written with hyphens where they are joined and lines where they are held', () => {
    const lesson = lessonWith('Small things', '4/4', [section('verse', 'The quay', '4/4', [bars[0]])]);
    const tab = textTab(lesson, { sections: [{ bars: [bars[0]], difficulty: 2 }] }, []);
    assert.match(tab, /^ +lan- +terns_+ +are +burn- +- +ing +lowextraordinarily$/m);
  });
});

describe('A written tab in words', () => {
  it('tells how each note is played as players tell each other', () => {
    assert.deepEqual(
      spoken(
        lessonOf(`  each 1/4
  2 | 7b9 7b1/4 7b8r7 7pb9 | 5~ h7 p5 \\3 | x (5) <12> 2<14> | s0 t12 - g5h7 |
  palm - - - - | * - - - | - - - - | - - - -
`),
      ),
      [
        'bar 1, string two, fret seven, bend a whole tone; string two, fret seven, bend a quarter tone; ' +
          'string two, fret seven, bend a semitone and let down; string two, fret seven, bent a whole tone before it is plucked',
        'bar 2, string two, fret five, vibrato, palm muted; string two, hammer on to fret seven; string two, pull off to fret five; ' +
          'string two, slide to fret three',
        'bar 3, string two, dead note; string two, fret five, ghost note; string two, harmonic at fret twelve; ' +
          'string two, fret two, harmonic at fret fourteen',
        'bar 4, slap, string two, open; tap, string two, fret twelve; grace note, string two, fret five; string two, hammer on to fret seven',
      ],
    );
  });

  it('tells repeats, endings and fingers in the bars that are drawn', () => {
    const text = `lesson "Small things"
key G major
meter 2/4
tempo 84
tab one
  each 1/4
  6 | 3 3 |
  fingers 3 2 |
section verse "Verse"
  tab etude
  times 3
  ending 1 one
  ending 3 etude
tab etude
  each 1/4
  4 | 0 2 |
`;
    const says = [...svg(text).matchAll(/aria-label="(bar \d[^"]*)"/g)].map(([, words]) => words);
    assert.deepEqual(says, [
      'bar 1, repeat from here, string four, open; string four, fret two',
      'bar 2, ending one and two, string six, fret three, with the ring finger; string six, fret three, with the middle, repeat',
      'bar 3, ending three, string four, open; string four, fret two',
    ]);
  });
});
