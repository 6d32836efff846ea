/** How claims are read: their section, their bar, what is said of a place that is not there, and how they move with a key. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../../server/src/analyze.ts';
import { judge, trueClaims } from '../../../server/src/truth/claims/index.ts';
import { ClaimedLesson } from '../../support/claims.ts';

const TWO = `
  key G major
  progression quay
    G as 320003 | D as xx0232 C as x32010
  section verse
    progression quay
  section coda
    progression quay bars 1 to 1
`;
const two = new ClaimedLesson(TWO);

/** Messages of the findings that a claim alone is to blame for. */
const said = (claim: string, lesson = TWO): readonly string[] =>
  analyze(`${lesson.replace(/^ {2}/gm, '')}\nclaim ${claim}\n`)
    .findings.filter(({ span }) => span.start >= lesson.replace(/^ {2}/gm, '').length)
    .map(({ code, message }) => `${code}: ${message}`);

describe('the example of the language', () => {
  const sample = analyze(readFileSync('samples/harbour-lamps.lesson', 'utf8'));
  it('claims five things that hold', () => {
    const { claims } = sample.lesson;
    assert.equal(claims.length, 5);
    for (const claim of claims) assert.deepEqual(judge(claim, sample.lesson, sample.score), { holds: true });
  });
  it('makes no sentence true that does not hold when it is claimed', () => {
    const text = readFileSync('samples/harbour-lamps.lesson', 'utf8').replace(/^claim .*\n/gm, '');
    const { lesson, score } = analyze(text);
    const truths = trueClaims(lesson, score);
    assert.ok(truths.length > 50);
    const claimed = analyze(`${text}\n${truths.map((one) => `claim ${one.text}`).join('\n')}\n`);
    assert.equal(claimed.lesson.claims.length, truths.length);
    const wrong = claimed.findings.filter(({ code }) => code.includes('claim'));
    assert.deepEqual(
      wrong.map(({ message }) => message),
      [],
    );
  });
});

describe('a claim’s section', () => {
  it('stands before a bar or at the end, and may be left out where there is one', () => {
    assert.equal(two.answer('verse bar 2 chord 2 is C'), 'true');
    assert.equal(two.answer('bar 1 is G in coda'), 'true');
    assert.equal(two.answer('no barre in coda'), 'true');
  });
  it('must be said of a bar where there are several', () => {
    assert.deepEqual(said('bar 1 is G'), [
      'claim-nowhere: Each section counts its own bars: say which is meant, `verse` or `coda`.',
    ]);
    assert.equal(two.mended('bar 1 is G'), 'verse bar 1 is G');
    assert.deepEqual(said('melody D in bar 1'), [
      'claim-nowhere: Each section counts its own bars: say which is meant, `verse` or `coda`.',
    ]);
  });
  it('must be there, and be one', () => {
    assert.deepEqual(said('no barre in cod'), ['unknown-name: No section is called `cod`; do you mean `coda`?']);
    assert.deepEqual(said('verse bar 1 is G in coda'), [
      'claim-nowhere: This speaks of `verse` and of `coda`; leave one of them out.',
    ]);
    assert.deepEqual(said('verse bar 1 is G in verse'), []);
  });
});

describe('a claim’s bar', () => {
  it('must be there, and its chord too', () => {
    assert.deepEqual(said('verse bar 3 is G'), [
      'claim-nowhere: `verse` has bars 1 to 2, so there is no bar 3; name another.',
    ]);
    assert.deepEqual(said('verse bar 2 chord 3 is G'), [
      'claim-nowhere: Bar 2 has 2 chords, so there is no chord 3 in it; name another.',
    ]);
    assert.deepEqual(said('melody starts on 5 except bars 2 to 1 in verse'), [
      'claim-nowhere: Bars 2 to 1 run backwards; write the lower number first.',
    ]);
    assert.deepEqual(said('bar 1 is G', 'key G major\n'), [
      'claim-nowhere: There is no section yet, so there is no bar to claim anything of; write one.',
    ]);
  });
});

describe('a claim that cannot be read', () => {
  it('is told why', () => {
    assert.deepEqual(
      said('verse bar 1 is Gxyz').map((one) => one.split(':')[0]),
      ['unknown-chord'],
    );
    assert.deepEqual(
      said('common tone H throughout').map((one) => one.split(':')[0]),
      ['unknown-note'],
    );
    assert.deepEqual(
      said('open 9 throughout').map((one) => one.split(':')[0]),
      ['unknown-string'],
    );
    assert.deepEqual(
      said('melody starts on 8').map((one) => one.split(':')[0]),
      ['unknown-tone'],
    );
    assert.deepEqual(
      said('frets 5 to 3').map((one) => one.split(':')[0]),
      ['number-out-of-range'],
    );
    assert.deepEqual(
      said('playable at 4000').map((one) => one.split(':')[0]),
      ['number-out-of-range'],
    );
  });
});

describe('a claim in another key', () => {
  const moved = (key: string, claims: string): readonly string[] => {
    const { variants } = analyze(`${TWO.replace(/^ {2}/gm, '')}${claims}\nvariant high\n  key ${key} major\n`);
    const [{ lesson, score }] = variants;
    return lesson.claims.map((claim) => JSON.stringify(judge(claim, lesson, score).holds));
  };
  it('moves with it, symbols and notes alike', () => {
    // Two frets up, the chords of G major are those of A major.
    const claims =
      'claim verse bar 1 is G\nclaim verse bar 2 is D\nclaim scale G major\nclaim common tone G in coda throughout';
    assert.deepEqual(moved('A', claims.replace(' in coda throughout', ' throughout in coda')), [
      'true',
      'true',
      'true',
      'true',
    ]);
  });
});
