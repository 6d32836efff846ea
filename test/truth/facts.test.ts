/** The facts that prose may tell. The music is that of the language's own example, whose answers were worked out by hand. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { factAt, factsBehind, isKnown } from '../../server/src/truth/facts.ts';

const LAMPS = readFileSync('samples/harbour-lamps.lesson', 'utf8');

/** The fact, or `! what is wrong <the part of the path> [what would do]`. */
function told(path: string, text = LAMPS): string {
  const { lesson, score } = analyze(text);
  const fact = factAt(path, lesson, score);
  if (isKnown(fact)) return fact.value;
  return `! ${fact.unknown} <${path.slice(fact.at.start, fact.at.end)}> [${fact.near.join(' ')}]`;
}

const table = (text: string, rows: Readonly<Record<string, string>>): void => {
  const { lesson, score } = analyze(text);
  const found = Object.keys(rows).map((path) => {
    const fact = factAt(path, lesson, score);
    return [path, isKnown(fact) ? fact.value : fact.unknown];
  });
  assert.deepEqual(Object.fromEntries(found), rows);
};

describe('a fact about a chord', () => {
  // D as x-x-4-0-3-5: F# and D and A with the open G, which is a fourth above the root, an eleventh where the third sounds too.
  it('is told as players say it', () =>
    table(LAMPS, {
      'verse.2.chord': 'D',
      'verse.2.sounds': 'Dadd11/F#',
      'verse.2.tones': '3 11 R 5',
      'verse.2.notes': 'F# G D A',
      'verse.2.frets': 'x-x-4-0-3-5',
      'verse.2.colour': 'eleventh',
      'verse.1.colour': 'none',
      'verse.2.reach': '2',
      'verse.2.melody': 'A G A',
      'verse.2.string3.interval': 'eleventh',
      'verse.2.string3.degree': '11',
      'verse.2.string3.note': 'G',
      'verse.3.string4.interval': 'minor third',
      'verse.4.sounds': 'Am7/G',
      'verse.4.colour': 'flat seventh',
    }));
  it('names what sounds under a capo, and the shape by its symbol', () =>
    // Three frets up every note is a minor third higher: D is heard as F, F# as A, G as B flat.
    table(`${LAMPS}\ncapo 3\n`, {
      'verse.2.chord': 'D',
      'verse.2.sounds': 'Fadd11/A',
      'verse.2.frets': 'x-x-4-0-3-5',
      'verse.2.notes': 'A Bb F C',
      'verse.2.string3.interval': 'eleventh',
      'verse.2.string3.note': 'Bb',
      'lesson.key': 'G major',
      'lesson.soundingKey': 'Bb major',
      'lesson.capo': '3',
    }));
  it('may be that of the second chord of a bar', () => {
    const two = 'grip G 320003\ngrip D xx0232\nprogression a\n  G D\nsection s\n  progression a\n';
    table(two, {
      's.1.chord': 'G',
      's.1.1.chord': 'G',
      's.1.2.chord': 'D',
      's.1.2.frets': 'x-x-0-2-3-2',
      's.1.2.notes': 'D A D F#',
      's.1.2.reach': '1',
      's.1.2.string1.interval': 'major third',
    });
    assert.equal(
      told('s.1.3.chord', two),
      '! There are 2 chords in bar 1 of `s`, and so no chord 3; name another. <3> []',
    );
  });
  it('gives numerals their symbol', () => {
    assert.equal(told('s.1.chord', 'key G major\nprogression a\n  V7/V\nsection s\n  progression a\n'), 'A7');
  });
});

describe('a fact about a section or the lesson', () => {
  it('is what the lesson says', () =>
    table(LAMPS, {
      'verse.bars': '8',
      'verse.title': 'The quay at dusk',
      'verse.meter': '3/4',
      'lesson.title': 'Harbour lamps',
      'lesson.key': 'G major',
      'lesson.soundingKey': 'G major',
      'lesson.tempo': '84',
      'lesson.tuning': 'standard',
      'lesson.capo': 'none',
      'lesson.level': '3',
      'lesson.minutes': '15',
      'lesson.focus': 'three-note chords up the neck and a ringing open string',
    }));
  it('names a capo on some strings with them', () => {
    assert.equal(told('lesson.capo', 'capo 2 on 5 4 3'), '2 on strings 5, 4 and 3');
    assert.equal(told('lesson.tuning', 'tuning D2 A2 D3 G3 A3 E4'), 'D A D G A E');
  });
});

describe('a fact that is not there', () => {
  it('is said at the part of the path that is wrong, with what would do', () => {
    assert.equal(told('vers.1.chord'), '! No section is called `vers`; do you mean `verse`? <vers> [verse]');
    for (const path of ['verse 2 chord', 'verse/2/chord'])
      assert.equal(
        told(path),
        `! The parts of a fact are joined by dots; write \`verse.2.chord\`. <${path}> [verse.2.chord]`,
      );
    assert.equal(told('verse.9.chord'), '! `verse` has 8 bars, so there is no bar 9; name another. <9> []');
    assert.equal(told('verse.2.sound'), '! A chord has no fact `sound`; do you mean `sounds`? <sound> [sounds]');
    assert.equal(told('verse.chord'), '! `chord` is told of a bar; write `verse.1.chord`. <chord> [1.chord]');
    assert.equal(told('2.chord'), '! A bar needs its section before it; write `verse.2`. <2> [verse.2]');
    assert.equal(
      told('verse.2.string6.note'),
      '! String 6 is silent in bar 2 of `verse`; strings 4, 3, 2 and 1 sound. <string6> []',
    );
    assert.equal(
      told('verse.2.string7.note'),
      '! There is no string 7; strings are counted from 1, the highest, to 6. <string7> []',
    );
    assert.equal(
      told('verse.1.chord.x'),
      '! `chord` is the fact itself, so nothing can follow it; take the rest out. <.x> []',
    );
  });
  it('may be a path that breaks off', () => {
    for (const path of [
      '',
      'verse',
      'verse.',
      'verse.2',
      'verse.2.',
      'verse.2.1',
      'verse.2.string3',
      'lesson',
      '.',
      '..',
    ])
      assert.match(told(path), /^! [A-Z`].*\.( <| \[)/, path);
  });
  it('of a tab has its highest notes for the melody', () => {
    const tab = 'key G major\n\ntab coda\n  each 1/4\n  1 | 3 - 2 0 |\n  6 | 3 - - 0 |\n\nsection s\n  tab coda\n';
    assert.equal(told('s.1.melody', tab), 'G F# E');
  });

  it('is a silence, a melody that nobody plays, or a setting that nobody states', () => {
    const text = 'progression a\n  G | N.C.\nsection s\n  progression a\n';
    assert.equal(told('s.2.chord', text), 'N.C.');
    assert.match(told('s.2.sounds', text), /^! Bar 2 of `s` is silent there/);
    assert.match(told('s.1.melody', text), /^! No melody sounds in bar 1 of `s`/);
    assert.match(told('lesson.level', text), /^! The lesson does not say it; add the line `level 2`/);
  });
});

describe('a fact that something else leaves open', () => {
  const open = (text: string, path: string): void => {
    const { lesson, score, findings } = analyze(text);
    const fact = factAt(path, lesson, score);
    assert.deepEqual(isKnown(fact) && [fact.value, fact.untold], ['–', true], path);
    assert.ok(findings.some(({ severity }) => severity === 'error'));
    assert.ok(!findings.some(({ code }) => code === 'unknown-fact'));
  };
  const withFact = (body: string, path: string): string => `${body}text\n  {${path}}\n`;
  it('is a dash, and no second error', () => {
    const impossible =
      'shape s\n  strings 6 5\n  tones R 3\n  frets 1 to 2\n  reach 0\nprogression a\n  G\nsection v\n  progression a\n  shape s\n';
    for (const path of ['v.1.sounds', 'v.1.frets', 'v.1.string6.note']) open(withFact(impossible, path), path);
    const unreadable = 'progression a\n  Gx9\nsection v\n  progression a\n';
    for (const path of ['v.1.sounds', 'v.1.1.notes']) open(withFact(unreadable, path), path);
    const nothing = 'section v\n  progression a\n';
    for (const path of ['v.3.sounds', 'v.1.string2.note', 'v.bars']) open(withFact(nothing, path), path);
  });
});

describe('the way to a fact', () => {
  const steps = (path: string): readonly string[] => {
    const { lesson, score } = analyze(LAMPS);
    return factsBehind(path, lesson, score).map(({ name, value }) =>
      value === undefined ? `${name} …` : `${name} ${value}`,
    );
  };
  it('can be gone step by step', () => {
    assert.deepEqual(steps(''), ['verse …', 'lesson …']);
    assert.deepEqual(steps('verse').slice(6), [
      '7 …',
      '8 …',
      'bars 8',
      'title The quay at dusk',
      'key G major',
      'meter 3/4',
      'tempo 84',
    ]);
    assert.deepEqual(steps('verse.2').slice(0, 3), ['chord D', 'sounds Dadd11/F#', 'tones 3 11 R 5']);
    assert.deepEqual(steps('verse.2').slice(-4), ['string4 …', 'string3 …', 'string2 …', 'string1 …']);
    assert.deepEqual(steps('verse.2.string3'), ['interval eleventh', 'degree 11', 'note G']);
    assert.deepEqual(steps('verse.2.chord'), []);
    assert.deepEqual(steps('nowhere'), []);
  });
  it('leads to facts that are known', () => {
    const { lesson, score } = analyze(LAMPS);
    const walk = (path: string): void => {
      for (const { name, value } of factsBehind(path, lesson, score)) {
        const whole = path === '' ? name : `${path}.${name}`;
        if (value === undefined) walk(whole);
        else {
          const fact = factAt(whole, lesson, score);
          assert.equal(isKnown(fact) && fact.value, value, whole);
        }
      }
    };
    walk('');
  });
});
