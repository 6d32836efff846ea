import assert from 'node:assert/strict';
import { readDocument } from '../../server/src/syntax/document.ts';
import type { Pattern } from '../../server/src/syntax/patterns.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { isGroup, type Leaf, type Line, type Part } from '../../server/src/syntax/tree.ts';
import { cutWords } from '../../server/src/syntax/words.ts';
import { generateLesson, type Wishes } from '../support/generate-lesson.ts';
import { mutate } from '../support/mutate.ts';
import { problemsOf } from '../support/syntax-outline.ts';

const SEEDS = Array.from({ length: 300 }, (_, i) => i + 1);

/** A text a seed, and some of each other kind of file. */
const everyKind = once((): readonly string[] =>
  SEEDS.flatMap((seed) => {
    const others: readonly Wishes['kind'][] = seed <= 60 ? ['course', 'library', 'parts'] : [];
    return [generateLesson(seed), ...others.map((kind) => generateLesson(seed, { kind }))];
  }),
);

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}

const placeOf = (keyword: string, form: string): string => `${keyword}: ${form}`;

/** What stands in a line: its labels, its words, its marks. */
const elementsOf = (line: Line, text: string): readonly string[] => [
  ...labelsOf(line.parts),
  ...cutWords(text.slice(line.start, line.end), 0).words.map((word) =>
    word.kind === 'word' ? `word ${word.text}` : `mark ${word.kind}`,
  ),
];

const labelsOf = (parts: readonly Part[]): readonly string[] =>
  parts.flatMap((part) => [`label ${part.label}`, ...(isGroup(part) ? labelsOf(part.parts) : [])]);

const leavesOf = (parts: readonly Part[]): readonly Leaf[] =>
  parts.flatMap((part) => (isGroup(part) ? leavesOf(part.parts) : [part]));

/** All that may stand in a line, by its pattern. */
function elementsIn(pattern: Pattern): readonly string[] {
  switch (pattern.is) {
    case 'word':
      return [`word ${pattern.word}`];
    case 'choice':
      return pattern.words.map((one) => `word ${one}`);
    case 'slot':
      return [`label ${pattern.label}`];
    case 'mark':
      return [`mark ${pattern.kind}`];
    case 'group':
      return [`label ${pattern.label}`, ...elementsIn(pattern.of)];
    case 'optional':
      return elementsIn(pattern.of);
    case 'repeat':
      return [...elementsIn(pattern.of), ...(pattern.between ? elementsIn(pattern.between) : [])];
    default:
      return pattern.of.flatMap(elementsIn);
  }
}

describe('generated lessons', () => {
  it('read without a problem', () => {
    for (const seed of SEEDS) {
      const text = generateLesson(seed);
      assert.deepEqual(problemsOf(text), [], `seed ${seed}\n${text}`);
    }
  });
  it('are the same for the same seed, and differ for others', () => {
    assert.equal(generateLesson(7), generateLesson(7));
    assert.equal(mutate(generateLesson(7), 9), mutate(generateLesson(7), 9));
    assert.equal(new Set(SEEDS.map((seed) => generateLesson(seed))).size, SEEDS.length);
  });
  it('hold every statement and every line of the table, with every word and slot that they have', () => {
    const seen = new Set<string>();
    for (const text of everyKind()) {
      for (const { tree } of readDocument(text).statements) {
        for (const line of tree.keyword === undefined ? [] : [tree.head, ...tree.body]) {
          const place = placeOf(tree.keyword!, line.form);
          seen.add(place);
          for (const element of elementsOf(line, tree.text)) seen.add(`${place}: ${element}`);
        }
      }
    }
    const wanted = statements.flatMap((form) => [
      placeOf(form.keyword, 'head'),
      ...elementsIn(form.head).map((element) => `${placeOf(form.keyword, 'head')}: ${element}`),
      ...form.body.flatMap(({ label, pattern }) => [
        placeOf(form.keyword, label),
        ...elementsIn(pattern).map((element) => `${placeOf(form.keyword, label)}: ${element}`),
      ]),
    ]);
    assert.ok(wanted.length > 250, 'the table was walked');
    assert.deepEqual(
      [...new Set(wanted)].filter((one) => !seen.has(one)),
      [],
    );
  });
  it('hold every sign of a melody and of a tab, every kind of fact, and remarks in every statement', () => {
    const melodies = new Set<string>();
    const tabs = new Set<string>();
    const facts = new Set<string>();
    const remarked = new Set<string>();
    for (const text of everyKind()) {
      for (const { tree } of readDocument(text).statements) {
        for (const { alone } of tree.comments) remarked.add(`${tree.keyword} ${alone ? 'above' : 'beside'}`);
        for (const path of (tree.prose ? tree.text : '').matchAll(/[^\\]\{([^}]+)\}/g))
          facts.add(path[1].split('.').at(-1)!);
        for (const line of tree.body) {
          const kinds = line.form === 'notes' ? melodies : line.form === 'row' ? tabs : undefined;
          if (kinds) for (const { text: sign } of leavesOf(line.parts)) kinds.add(sign.replaceAll(/\d+/g, '1'));
        }
      }
    }
    const signs = '1 - r x (1) <1> 1<1> h1 p1 /1 \\1 1h1p1 1b1 1b1r1 1pb1 1b1/1~ 1~ (1)~ g1h1 s1 t1 1>'.split(' ');
    const missing = (wanted: readonly string[], found: ReadonlySet<string>): readonly string[] =>
      wanted.filter((one) => !found.has(one));
    assert.deepEqual(missing([...signs, 'g1', '1/1'], melodies), []);
    assert.deepEqual(missing([...signs, '1/1\\1', '...'], tabs), []);
    const chordFacts = 'chord sounds tones notes frets fingers colour melody reach interval degree note'.split(' ');
    assert.deepEqual(missing([...chordFacts, ...'bars title key soundingKey tempo capo'.split(' ')], facts), []);
    assert.deepEqual(
      missing(
        statements.map((form) => `${form.keyword} beside`),
        remarked,
      ),
      [],
    );
  });
  it('hold as many bars and sections as are asked for', () => {
    const { statements: read } = readDocument(generateLesson(3, { bars: 30, sections: 5 }));
    const progressions = read.filter(({ tree }) => tree.keyword === 'progression');
    assert.equal(progressions.length, 5);
    assert.equal(read.filter(({ tree }) => tree.keyword === 'section').length, 5);
    // Each line holds four bars at most.
    for (const { tree } of progressions) assert.equal(tree.body.length, 8);
  });
  it('hold a slip where one is asked for, most of the time', () => {
    const broken = SEEDS.filter((seed) => problemsOf(generateLesson(seed, { only: 'broken' })).length > 0);
    assert.ok(broken.length > SEEDS.length / 2, `${broken.length} of ${SEEDS.length}`);
  });
});
