/** The list of findings as a whole: its order, its limit, what is silenced, and that equal findings are one. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { MOST_FINDINGS } from '../../server/src/rules/findings.ts';
import { checkFindings } from '../support/check-findings.ts';
import { lesson } from '../support/syntax-outline.ts';

const findingsOf = (text: string) => analyze(text).findings;

describe('findings', () => {
  it('stand in the order of the text, whoever found them', () => {
    checkFindings(`
      lesson "Harbour lamps"
      capo: 2
    ;     ^ stray-colon: \`capo\` needs no colon behind it; the line is read without, so take it out.
      progression quay
        G | Qm
    ;       ^^ unexpected-word: \`Qm\` cannot stand behind \`|\`; what fits is a bar line, \`/\`, \`%\`, \`N.C.\`, a chord or the end of the line.
      section verse
        progression quey
    ;               ^^^^ unknown-name: No progression is called \`quey\`; do you mean \`quay\`?
    `);
  });

  it('lie inside the text, even where it ends too early', () => {
    for (const text of [
      '',
      '\n',
      'shape',
      'lesson "',
      'tempo 4000',
      '\ufefflesson "A\r\nshape x\r\n  strings 9',
      '"',
    ]) {
      for (const { span, related } of findingsOf(text)) {
        for (const place of [span, ...related.map((one) => one.span)]) {
          assert.ok(place.start >= 0 && place.start <= place.end && place.end <= text.length, JSON.stringify(text));
        }
      }
    }
  });

  it('end with a word about the rest where they are too many', () => {
    const text = 'Nothing begins like this.\n\n'.repeat(MOST_FINDINGS + 3);
    const findings = findingsOf(text);
    assert.equal(findings.length, MOST_FINDINGS + 1);
    assert.equal(findings.at(-1)!.code, 'too-many-findings');
    assert.match(findings.at(-1)!.message, /3 more/);
  });
});

describe('a finding that is allowed', () => {
  const clash = (comment: string) => lesson`
    progression quay
      D as x-x-4-0-3-5${comment}

    section verse
      progression quay
  `;

  it('is silent on its own line', () => {
    assert.deepEqual(
      findingsOf(clash('')).map((one) => one.code),
      ['open-string-clash'],
    );
    assert.deepEqual(findingsOf(clash(' ; allow open-string-clash')), []);
  });

  it('is silent below a comment that stands alone', () => {
    const text = clash('').replace('  D as', '  ; allow open-string-clash\n  D as');
    assert.deepEqual(findingsOf(text), []);
  });

  it('is not silenced by another code, nor on another line', () => {
    assert.deepEqual(
      findingsOf(clash(' ; allow stretch-wide')).map((one) => one.code),
      ['open-string-clash'],
    );
    assert.deepEqual(
      findingsOf(`; allow open-string-clash\n\n${clash('')}`).map((one) => one.code),
      ['open-string-clash'],
    );
  });

  it('must exist', () => {
    checkFindings(`
      cell ripple
        p4 i3 m2 i3 ; allow open-string-crash
    ;                       ^^^^^^^^^^^^^^^^^ unknown-allowed-code: No finding is called \`open-string-crash\`, so nothing is allowed by this; do you mean \`open-string-clash\`?
    `);
  });
});

describe('the same finding at several chords', () => {
  it('is said once and names the other bars', () => {
    checkFindings(`
      progression quay
        D as x-x-4-0-3-5 | G as 3-x-0-0-0-3 | % | D as x-x-4-0-3-5 | %
    ;   ^^^^^^^^^^^^^^^^ open-string-clash: In \`D\` open string 3 (G3) rubs against F#3 on string 4; keep it if you like it, or leave one of them out. (also bars 4 and 5)

      section verse
        progression quay
    `);
  });

  it('is said once where two sections play the progression', () => {
    const text = lesson`
      progression quay
        D as x-x-4-0-3-5

      section verse
        progression quay

      section coda
        progression quay
    `;
    assert.deepEqual(
      findingsOf(text).map((one) => one.message),
      ['In `D` open string 3 (G3) rubs against F#3 on string 4; keep it if you like it, or leave one of them out.'],
    );
  });
});
