/** What is offered behind `claim`, and what a claim says under the pointer. */
import assert from 'node:assert/strict';
import { completionLabels, completionLines, hoverText } from '../support/check-features.ts';

const LAMPS = `
  key G major
  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2
  progression quay
    G | D | Em
  section verse "The quay"
    progression quay
    shape lamp
`;

const offered = (claim: string): readonly string[] => completionLabels(`${LAMPS}\n  claim ${claim}\n`);

describe('completion of claims', () => {
  it('offers what is true, with its figures', () => {
    const all = offered('<|>');
    for (const claim of [
      'open 3 throughout',
      'reach at most 2',
      'no barre',
      'common tone G3 throughout',
      'frets 3 to 10',
      'bar 2 is Dadd11/F#',
      'bar 2 open 3 adds 11',
      'bar 2 tones 3 11 R 5',
    ])
      assert.ok(all.includes(claim), claim);
  });
  it('offers nothing that is not', () => {
    const all = offered('<|>');
    assert.ok(
      !all.some((claim) => claim.startsWith('melody') || claim.startsWith('thumb') || claim.startsWith('same')),
    );
    assert.ok(!all.some((claim) => claim.startsWith('open 2') || claim.startsWith('bar 1 open')));
  });
  it('goes on from what is typed', () => {
    assert.deepEqual(offered('open <|>'), ['3 throughout']);
    assert.deepEqual(offered('bar 2 is <|>'), ['Dadd11/F#']);
    assert.deepEqual(offered('bar 2 op<|>'), ['is Dadd11/F#', 'open 3 adds 11', 'tones 3 11 R 5']);
    assert.deepEqual(offered('thumb <|>'), []);
  });
  it('names an only section where its name was begun', () => {
    assert.ok(!offered('<|>').some((claim) => claim.includes('verse')));
    assert.deepEqual(offered('verse bar 2 is <|>'), ['Dadd11/F#']);
    assert.deepEqual(offered('no barre in <|>'), ['verse']);
  });
  it('names sections where there are several', () => {
    const all = completionLines(`${LAMPS}
  section coda
    progression quay
    shape lamp
  claim <|>
`);
    assert.ok(all.includes('no barre (of 6 shapes)'));
    assert.ok(all.includes('no barre in coda (of 3 shapes)'));
    assert.ok(all.includes('coda bar 2 is Dadd11/F# (F# G D A)'));
    assert.ok(!all.some((claim) => claim.startsWith('bar ')));
  });
  it('offers in a variant what is true of it', () => {
    // Two frets higher the open third string is another tone: it no longer belongs to the shapes of G and Em.
    const all = completionLabels(`${LAMPS}
  variant high
    key A major
    claim bar 1 is <|>
`);
    assert.ok(all.length > 0);
    assert.ok(!all.includes('G'));
  });
  it('offers the words of the language while nothing is played yet', () =>
    assert.ok(completionLabels('claim <|>\n').includes('playable')));
});

describe('a claim’s hover', () => {
  const hover = (claim: string): string => hoverText(`${LAMPS}\n  ${claim}\n`);
  it('says that it is true, and why', () =>
    assert.equal(
      hover('claim open <|>3 throughout'),
      '[open 3 throughout]\nTrue. String 3 rings open in all 3 shapes, a colour in 1 of them.',
    ));
  it('says what is true instead', () =>
    assert.equal(
      hover('claim bar 2 is <|>D'),
      '[bar 2 is D]\nNot true: bar 2 sounds `Dadd11/F#`, from the lowest note F# G D A.',
    ));
  it('says why it is open', () =>
    assert.equal(
      hover('claim melody starts <|>on 5'),
      '[melody starts on 5]\nNot decided: there is no melody in verse.',
    ));
  it('is judged in its variant', () => {
    const page = hoverText(`${LAMPS}
  variant bare
    capo 3
    claim reach <|>at most 1
`);
    assert.equal(page, '[reach at most 1]\nNot true: `G` in bar 1 spans 2 frets, from 8 to 10.');
  });
  it('stands with the reference at the keyword', () => {
    const page = hover('cl<|>aim no barre');
    assert.match(page, /^\[claim\]\nclaim: A sentence about the lesson/);
    assert.match(page, /True\. In 3 shapes every finger holds one string\.$/);
  });
});
