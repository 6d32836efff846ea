/** Slips that players make: each is read as it was meant, and answered with the right way to write it. */
import assert from 'node:assert/strict';
import { readDocument } from '../../server/src/syntax/document.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { findingsOf } from '../support/check-findings.ts';
import { analyze } from '../../server/src/analyze.ts';
import { formatKey } from '../../server/src/theory/key.ts';

/** The text with the first fix of every finding that is about its words. */
function corrected(text: string): string {
  const about = ['misspelt-word', 'needless-word', 'stray-colon', 'unknown-chord'];
  const edits = findingsOf(text)
    .filter(({ code }) => about.includes(code))
    .flatMap(({ fixes }) => fixes[0]?.edits ?? []);
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((result, { span, text: words }) => result.slice(0, span.start) + words + result.slice(span.end), text);
}

/** Whether every line could be read to its end. */
const isRead = (text: string): boolean =>
  readDocument(text).statements.every(({ tree }) => [tree.head, ...tree.body].every(({ broken }) => !broken));

/** What was written, and what it becomes; both are read alike. */
function checkSlips(pairs: readonly (readonly [written: string, right: string])[], head = ''): void {
  const within = (line: string): string => (head === '' ? `${line}\n` : `${head}\n  ${line}\n`);
  for (const [written, right] of pairs) {
    assert.equal(corrected(within(written)), within(right), written);
    assert.ok(isRead(within(written)), `${written} is read`);
    assert.deepEqual(shapeOf(within(written)), shapeOf(within(right)), written);
    // What is in doubt is left as it stands; capitals are in no doubt.
    assert.equal(formatText(within(written)).toLowerCase(), within(written).toLowerCase());
  }
}

/** All words of the tree, without their places. */
const shapeOf = (text: string): string =>
  JSON.stringify(
    readDocument(text).statements.map(({ tree }) => [tree.keyword, tree.head, tree.body]),
    (name, value: unknown) => (['start', 'end', 'problems', 'keyword'].includes(name) ? undefined : value),
  );

describe('slips that need no word', () => {
  it('chords and keys in other spellings', () => {
    for (const chords of ['Gmaj | Dmaj', 'Gmajor | Dmin | Amin7', '| G | D |', 'G|D|Em'])
      assert.deepEqual(findingsOf(`progression p\n  ${chords}\n`), [], chords);
    for (const [written, name] of [
      ['d major', 'D major'],
      ['Gmaj', 'G major'],
      ['Am', 'A minor'],
      ['F sharp minor', 'F# minor'],
      ['Eflat major', 'Eb major'],
      ['E-flat major', 'Eb major'],
      ['E flat major', 'Eb major'],
      ['F-sharp minor', 'F# minor'],
      ['G Major', 'G major'],
    ]) {
      const { lesson, findings } = analyze(`key ${written}\n`);
      assert.deepEqual([formatKey(lesson.settings.key), findings], [name, []], written);
    }
  });

  it('tunings as players say them', () => {
    for (const written of ['dropped D', 'drop D', 'Drop-D']) {
      const { lesson, findings } = analyze(`tuning ${written}\n`);
      assert.deepEqual([lesson.settings.instrument.tuning.name, findings], ['drop-d', []], written);
    }
  });

  it('tabs for blanks, before a line and within it', () => {
    const text = 'meter\t3/4\nprogression\tp\n\tG\t|\tD\nsection\ts\n\tprogression\tp\n';
    assert.deepEqual(findingsOf(text), []);
    assert.equal(shapeOf(text), shapeOf(text.replaceAll(/\t/g, ' ')));
  });
});

describe('slips that are read and answered', () => {
  it('a setting with a word or a sign too many', () =>
    checkSlips([
      ['meter 3/4 time', 'meter 3/4'],
      ['time 3/4', 'meter 3/4'],
      ['capo: 2', 'capo 2'],
      ['capo 2nd fret', 'capo 2'],
      ['capo fret 2', 'capo 2'],
      ['capo 2 on 5th 4th', 'capo 2 on 5 4'],
      ['tempo 84 bpm', 'tempo 84'],
      ['tempo 84bpm', 'tempo 84'],
      ['tempo: 84', 'tempo 84'],
      ['tempo = 84', 'tempo 84'],
      ['key of G major', 'key G major'],
      ['hand Large', 'hand large'],
      ['hand average', 'hand medium'],
      ['swing eighths', 'swing 1/8'],
      ['swing 8ths', 'swing 1/8'],
      ['time signature 3/4', 'meter 3/4'],
      ['capo on 3rd fret', 'capo 3'],
      ['capo at 3', 'capo 3'],
      ['tempo dotted quarter = 60', 'tempo 3/8 = 60'],
      ['Tempo 84', 'tempo 84'],
      ['84 bpm', 'tempo 84'],
      ['84bpm', 'tempo 84'],
      ['quarter = 84', 'tempo 1/4 = 84'],
      ['standard tuning', 'tuning standard'],
      ['drop D tuning', 'tuning drop D'],
    ]));

  it('a tempo and a tuning under another statement', () => {
    for (const [written, right] of [
      ['84 bpm', 'tempo 84'],
      ['strings D2 A2 D3 G3', 'tuning D2 A2 D3 G3'],
    ])
      checkSlips([[`meter 3/4\n${written}`, `meter 3/4\n${right}`]]);
  });

  it('strings, tones and frets of a shape', () => {
    checkSlips(
      [
        ['strings string1 string2', 'strings 1 2'],
        ['strings 6th 5th', 'strings 6 5'],
        ['strings 6, 5, 4', 'strings 6 5 4'],
        ['strings E A D', 'strings 6 5 4'],
        ['strings D G B e', 'strings 4 3 2 1'],
        ['open D B', 'open 4 2'],
        ['open e B G', 'open 1 2 3'],
        ['tones root third 5th', 'tones R 3 5'],
        ['color 9', 'colour 9'],
        ['reach 3 frets', 'reach 3'],
        ['frets 1-12', 'frets 1 to 12'],
        ['frets 1 12', 'frets 1 to 12'],
      ],
      'shape lamp',
    );
    checkSlips([
      ['grip C x 3 2 0 1 0', 'grip C x-3-2-0-1-0'],
      ['contour swell on the 1st string', 'contour swell on 1'],
      ['section "verse"', 'section verse'],
      ['section verse:', 'section verse'],
      ['section verse 1', 'section verse-1'],
      ['form verse 1 verse 2 coda', 'form verse-1 verse-2 coda'],
      ['show verse bar 1-4', 'show verse bars 1 to 4'],
      ['show verse bar 1 to 4 as tab', 'show verse bars 1 to 4 as tab'],
      ['show verse bars 3', 'show verse bar 3'],
      ['claim verse bar 1 sounds G', 'claim verse bar 1 is G'],
      ['claim no barre chords', 'claim no barre'],
      ['claim reach 3', 'claim reach at most 3'],
    ]);
  });

  it('titles and paths without their quotes', () => {
    checkSlips([
      ['lesson Porch light', 'lesson "Porch light"'],
      ['use parts.lesson', 'use "parts.lesson"'],
      ['use lamp, ripple from ../parts.lesson', 'use lamp, ripple from "../parts.lesson"'],
    ]);
    checkSlips(
      [
        ['by A teacher', 'by "A teacher"'],
        ['focus bends, slow slides', 'focus "bends", "slow slides"'],
        ['level beginner', 'level 1'],
        ['needs first-triads.lesson', 'needs "first-triads.lesson"'],
      ],
      'lesson "A waltz"',
    );
    checkSlips(
      [
        ['step Slowly now at 60', 'step "Slowly now" at 60'],
        ['step "Slowly" 60 to 84 by 6', 'step "Slowly" from 60 to 84 by 6'],
        ['step "Slowly" 60', 'step "Slowly" at 60'],
        ['step "Slowly" at 60 for 3 min', 'step "Slowly" at 60 for 3 minutes'],
      ],
      'practice',
    );
  });

  it('the strings of a tab as plain text names them', () => {
    checkSlips(
      [
        ['e| 0 - 3 |', '1| 0 - 3 |'],
        ['E | 3 - |', '6 | 3 - |'],
        ['string2 | 0 - |', '2 | 0 - |'],
        ['4: | 0 - |', '4 | 0 - |'],
      ],
      'tab coda',
    );
    checkSlips([
      [
        'tab coda\n  e | 0 |\n  B | 1 |\n  G | 2 |\n  D | 3 |\n  A | 4 |\n  D | 5 |',
        'tab coda\n  1 | 0 |\n  2 | 1 |\n  3 | 2 |\n  4 | 3 |\n  5 | 4 |\n  6 | 5 |',
      ],
      [
        'tab coda\n  D | 0 |\n  A | 1 |\n  G | 2 |\n  D | 3 |\n  A | 4 |\n  D | 5 |',
        'tab coda\n  1 | 0 |\n  2 | 1 |\n  3 | 2 |\n  4 | 3 |\n  5 | 4 |\n  6 | 5 |',
      ],
      [
        'tab coda\n  D | 0 |\n  A | 1 |\n  D | 2 |\n  G | 3 |\n  B | 4 |\n  E | 5 |',
        'tab coda\n  6 | 0 |\n  5 | 1 |\n  4 | 2 |\n  3 | 3 |\n  2 | 4 |\n  1 | 5 |',
      ],
      ['tab coda\n  G | 0 |\n  D | 1 |\n  E | 2 |', 'tab coda\n  3 | 0 |\n  4 | 1 |\n  6 | 2 |'],
    ]);
    assert.match(findingsOf('tab coda\n  1 | --5-8h10 |\n')[0].message, /do you mean `- - 5 - 8h10`\?/);
  });

  it('lines of a section by other names', () =>
    checkSlips(
      [
        ['lyrics low- tide', 'words low- tide'],
        ['repeat 2', 'times 2'],
        ['strum waltz', 'cell waltz'],
        ['1. home', 'ending 1 home'],
        ['2nd ending: home', 'ending 2 home'],
        ['ending 1. home', 'ending 1 home'],
      ],
      'section verse',
    ));

  it('a spelling of other shores', () => checkSlips([['license "CC0"', 'licence "CC0"']], 'lesson "A waltz"'));

  it('chords of two words, and other signs for bar lines and beats', () =>
    checkSlips(
      [
        ['D minor | A min | C maj 7 | G major', 'Dm | Am | Cmaj7 | G'],
        ['G sus 4 | G', 'Gsus4 | G'],
        ['G - D – Em', 'G | D | Em'],
        ['G . . . | D', 'G / / / | D'],
        ['G as 3 2 0 0 0 3 | D', 'G as 3-2-0-0-0-3 | D'],
      ],
      'progression quay',
    ));

  it('a chord that is said in full', () => {
    assert.equal(corrected('progression p\n  G7th | D\n'), 'progression p\n  G7 | D\n');
  });

  it('lengths in words', () =>
    checkSlips(
      [
        ['each eighth', 'each 1/8'],
        ['each 1/8th', 'each 1/8'],
        ['each 8', 'each 1/8'],
        ['each 16th notes', 'each 1/16'],
        ['each 1/4.', 'each 3/8'],
        ['p6 1/2. i3', 'p6 3/4 i3'],
      ],
      'cell ripple',
    ));

  it('a dotted length behind a note', () => {
    checkSlips([['7 1/2. 5 1/4. 3', '7 3/4 5 3/8 3']], 'melody landing on 1');
    checkSlips([['from 5: 0 1/4. -1', 'from 5: 0 3/8 -1']], 'contour swell on 1');
  });
});

describe('what nobody can be sure of', () => {
  it('is left to the general words', () => {
    for (const line of ['strings D A D', 'strings E B', 'strings -3', 'frets low to high', 'tones major'])
      assert.deepEqual(
        findingsOf(`shape lamp\n  ${line}\n`).filter(({ fixes }) => fixes.length > 0),
        [],
        line,
      );
  });

  it('does not take apart what is right', () => {
    for (const text of ['progression p\n  G in E minor | D in D major\n', 'section s "the string"\n', 'key A minor\n'])
      assert.ok(isRead(text), text);
  });
});

describe('bar lines', () => {
  const section = 'section verse\n  progression quay\n';
  const codes = (chords: string, head = ''): readonly string[] =>
    findingsOf(`${head}progression quay\n  ${chords}\n${section}`).map(({ code }) => code);

  it('that are all missing are asked for, once, with a fix for every line', () => {
    const text = `progression quay\n  G D Em held C ; four\n  Am C D\n${section}`;
    const [finding, ...others] = findingsOf(text);
    assert.deepEqual([finding.code, finding.severity, others.length], ['bar-lines-missing', 'information', 0]);
    const [{ edits }] = finding.fixes;
    const mended = [...edits]
      .reverse()
      .reduce((result, { span, text: words }) => result.slice(0, span.start) + words + result.slice(span.end), text);
    assert.equal(mended, text.replace('G D Em held C', 'G | D | Em held | C').replace('Am C D', 'Am | C | D'));
  });

  it('are not asked for where there is one, where beats are counted, or where few chords share a bar', () => {
    for (const chords of ['G D Em C |', 'G D Em C | G', 'G D Em', 'G / D /', 'G D', 'G\n  D\n  Em\n  C'])
      assert.deepEqual(codes(chords), [], chords);
    assert.deepEqual(codes('G D Em C ; not | here'), ['bar-lines-missing']);
  });
});
