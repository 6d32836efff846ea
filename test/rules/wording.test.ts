/** Findings in lessons, as a teacher meets them: what is said, where, and how grave it is. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { Finding } from '../../server/src/util/finding.ts';
import { checkFindings, findingsOf, gravity, mended } from '../support/check-findings.ts';
import { lesson } from '../support/syntax-outline.ts';

describe('a stretch', () => {
  const wide = (level: string, hand: string) => lesson`
    lesson "Far apart"
      level ${level}

    hand ${hand}

    progression quay
      C as 8-x-x-x-x-12

    section verse
      progression quay
  `;

  it('is a hint for most, and a warning for a beginner', () => {
    assert.deepEqual(gravity(wide('3', 'medium')), ['hint stretch-wide']);
    assert.deepEqual(gravity(wide('2', 'medium')), ['warning stretch-wide']);
  });

  it('names the hand, the fingers, their frets and the millimetres', () => {
    // On a string of 648 mm fret 8 lies at 239.79 mm and is 24.28 wide, fret 12 at 324 and 19.27; the fingertip a quarter of the
    // width behind the wire: (324 − 4.82) − (239.79 − 6.07) = 85.46.
    assert.match(
      findingsOf(wide('3', 'medium'))[0].message,
      /medium hand: index finger at fret 8, little finger at fret 12, 85.5 mm apart/,
    );
  });

  it('depends on the hand', () => {
    assert.deepEqual(gravity(wide('3', 'large')), []);
    assert.deepEqual(gravity(wide('3', 'small')), ['hint stretch-wide']);
  });
});

describe('a grip', () => {
  it('is judged by the fingers that its author gives it', () => {
    const text = (fingers: string) => lesson`
      grip C5 x-3-5-x-x-x
        fingers ${fingers}

      progression quay
        C5

      section verse
        progression quay
    `;
    // Frets 3 and 5 lie 60 mm apart: at home between index and ring finger, a stretch between index and middle finger.
    assert.deepEqual(gravity(text('x-1-3-x-x-x')), []);
    assert.deepEqual(gravity(text('x-1-2-x-x-x')), ['hint stretch-wide']);
  });

  it('must have its fingers where its frets are', () => {
    checkFindings(`
      grip Am x02210
        fingers x02310

      grip C x32010
        fingers x32110
    ;   ^^^^^^^^^^^^^^ fingers-against-frets: These fingers do not fit the frets: string 3 rings open and needs none.

      grip F xx3211
        fingers xx1342
    ;   ^^^^^^^^^^^^^^ fingers-against-frets: These fingers do not fit the frets: the index finger at fret 3 would lie above the middle finger at fret 1.
    `);
  });

  it('that sounds another chord is renamed together with the chords that take it', () => {
    // Open A, E, A, B and E: neither C nor C#, and the B is the suspended second.
    const text = lesson`
      grip A x02200

      progression quay
        A | E | A

      section verse
        progression quay
    `;
    assert.deepEqual(gravity(text), ['warning misnamed-chord']);
    assert.equal(mended(text), text.replaceAll(/\bA\b/g, 'Asus2'));
    assert.deepEqual(findingsOf(mended(text)), []);
  });
});

describe('frets by which no string sounds', () => {
  it('are answered once, at the grip or at the chord, and can become silence', () => {
    const text = lesson`
      grip C xxxxxx

      progression quay
        G as x-x-x-x-x-x | C

      section verse
        progression quay
    `;
    assert.deepEqual(gravity(text), ['error no-string-sounds', 'error no-string-sounds']);
    assert.match(mended(text), /N\.C\. \| C/);
  });
});

describe('a symbol', () => {
  it('whose third the shape leaves out by design is hinted at, and can be named truly', () => {
    const text = lesson`
      progression quay
        Am | F5

      section verse
        progression quay
        shape power-chords
    `;
    assert.deepEqual(gravity(text), ['hint misnamed-chord']);
    assert.equal(mended(text), text.replace('Am', 'A5'));
  });

  it('with a seventh that nothing sounds is warned of', () => {
    checkFindings(`
      progression quay
        G7 as 3-2-0-0-0-3
    ;   ^^^^^^^^^^^^^^^^^ misnamed-chord: Nothing sounds the flat seventh, F, of \`G7\`; it sounds \`G\`.

      section verse
        progression quay
    `);
  });

  it('of a sixth says that there is no seventh, for a numeral too', () => {
    // A, E, A, B and E over C: C E A B, a major seventh with the sixth above it.
    checkFindings(`
      key C major

      progression quay
        I6/9 as x-3-2-2-0-0
    ;   ^^^^^^^^^^^^^^^^^^^ misnamed-chord: \`I6/9\` does not say what sounds: B, a major seventh against its sixth A; it sounds \`Cmaj7add13\`.

      section verse
        progression quay
    `);
  });

  it('of which only a third sounds, among other notes, is another chord', () => {
    // E B E B E: the power chord on E, with no G in it.
    checkFindings(`
      progression quay
        G as x79900
    ;   ^^^^^^^^^^^ misnamed-chord: Nothing sounds the root, G, of \`G\`; it sounds \`E5\`.

      section verse
        progression quay
    `);
  });

  it('may leave colours unsaid', () => {
    checkFindings(`
      progression quay
        C as x-3-2-0-3-0

      section verse
        progression quay
    `);
  });

  it('names the shape under a capo, and so do the findings', () => {
    checkFindings(`
      capo 3

      progression quay
        D as x-x-4-0-3-5
    ;   ^^^^^^^^^^^^^^^^ open-string-clash: In \`D\` open string 3 (G3) rubs against F#3 on string 4; keep it if you like it, or leave one of them out.

      section verse
        progression quay
    `);
  });

  it('is spelled by its key where the key has the note', () => {
    checkFindings(`
      key Eb major

      progression quay
        Eb as x-6-8-8-8-6 | G#maj7 as 4-x-5-5-4-x
    ;                       ^^^^^^ note-against-key: G# is Ab in Eb major; spell it so, and its place in the key can be seen.
        D#m as x-6-8-8-7-6 | D/Gb as 2-x-0-2-3-2
    ;   ^^^ note-against-key: D# is Eb in Eb major; spell it so, and its place in the key can be seen.
    ;                        ^^^^ note-against-key: Gb is F# in this chord; spell it so, and it shows as one of its tones.

      section verse
        progression quay
    `);
  });
});

describe('a pin', () => {
  it('says where the voicings do lie', () => {
    // G on strings 4, 2 and 1 as third, root and fifth: B at fret 9, G at 8, D at 10; an octave lower it would lie below the nut.
    checkFindings(`
      shape lamp
        strings 4 2 1
        tones 3 R 5

      progression quay
        G at 3
    ;     ^^^^ pin-against-shape: No voicing of \`G\` in \`lamp\` begins at fret 3; there is one at fret 8.

      section verse
        progression quay
        shape lamp
    `);
  });

  it('must agree with the frets beside it', () => {
    checkFindings(`
      progression quay
        G at 5 as 3-2-0-0-0-3
    ;     ^^^^ pin-against-shape: The frets of \`G\`, 3-2-0-0-0-3, begin at fret 2, not at 5; leave out one of the two.

      section verse
        progression quay
    `);
  });
});

describe('a shape without a voicing', () => {
  it('is shown the one nearest to the frets that it may have', () => {
    // G as third, root and fifth on strings 4, 2 and 1 lies at frets 9, 8 and 10: two beyond 8. An octave up it lies at 20 to 22.
    const text = (range: string) => lesson`
      shape lamp
        strings 4 2 1
        tones 3 R 5
        frets ${range}

      progression quay
        G

      section verse
        progression quay
        shape lamp
    `;
    for (const [range, right] of [
      ['1 to 8', 'frets 1 to 10'],
      ['11 to 18', 'frets 8 to 18'],
    ]) {
      assert.match(findingsOf(text(range))[0].message, /the nearest is x-x-9-x-8-10\.$/, range);
      assert.equal(mended(text(range)), text(range).replace(`frets ${range}`, right));
    }
    // C closely on strings 4 to 2 lies at frets 2 0 1, 5 5 5, 10 9 8 and 14 12 13; the last is two frets beyond 12, and no easier.
    const close = text('11 to 12')
      .replace('tones 3 R 5', 'spacing close')
      .replace('4 2 1', '4 3 2')
      .replace('G\n', 'C\n');
    assert.match(findingsOf(close)[0].message, /the nearest is x-x-14-12-13-x\.$/);
  });
});

describe('a slash bass that a shape does not have', () => {
  const text = (chord: string, ...sections: readonly string[]): string =>
    `${lesson`
    shape lamp
      strings 4 3 2
      tones R 3 5

    progression quay
      ${chord}

    section verse
      progression quay
      shape lamp
  `}${sections.join('')}`;

  it('is kept by frets that have it, or may leave the symbol', () => {
    const [{ fixes }] = findingsOf(text('D/F#'));
    assert.deepEqual(
      fixes.map(({ title }) => title),
      ['Keep the bass: `D/F# as 2-0-0-2-3-2`', 'Write `D`'],
    );
    assert.deepEqual(findingsOf(mended(text('D/F#'))), []);
  });

  it('is never taken from an `over`, which says that it is wanted', () => {
    const [{ fixes }] = findingsOf(text('D over F#'));
    assert.deepEqual(
      fixes.map(({ title }) => title),
      ['Keep the bass: `D as 2-0-0-2-3-2`'],
    );
    assert.deepEqual(findingsOf(mended(text('D over F#'))), []);
  });

  it('is left alone where another section does play it', () => {
    const [{ code, fixes }] = findingsOf(text('D/F#', 'section chorus\n  progression quay\n'));
    assert.deepEqual([code, fixes], ['bass-against-shape', []]);
  });
});

describe('a cell', () => {
  it('is told of a silent string once, with all the bars and chords', () => {
    checkFindings(`
      progression quay
        D as x-x-0-2-3-2 | G as 3-2-0-0-0-3 | A as x-0-2-2-2-0 | D as x-x-0-2-3-2

      cell ripple
        p6 i3 m2 i3 p4 i3 m2 i3
    ;   ^^ silent-string-plucked: \`ripple\` plucks string 6, which is silent over \`D\` and \`A\` (bars 1, 3 and 4); pluck one that sounds.

      section verse
        progression quay
        cell ripple
    `);
  });

  it('may be half a bar, or two bars', () => {
    for (const notes of ['p(bass) i3 m2 i3', 'p(bass) i3 m2 i3 a1 i3 m2 i3 | p(bass) i3 m2 i3 a1 - - -']) {
      const text = `progression quay\n  G as 3-2-0-0-0-3\n\ncell ripple\n  ${notes}\n\nsection verse\n  progression quay\n  cell ripple\n`;
      assert.deepEqual(findingsOf(text), [], notes);
    }
  });

  it('must have whole bars between its bar lines', () => {
    checkFindings(`
      progression quay
        G as 3-2-0-0-0-3

      cell ripple
    ;      ^^^^^^ cell-misses-bar: \`ripple\` has a bar of 3/4 and does not fit bars of 4/4; add 1/4.
        p(bass) i3 m2 i3 a1 i3 | p(bass) i3 m2 i3 a1 i3 m2 i3 m2 i3

      section verse
        progression quay
        cell ripple
    `);
  });
});

describe('words that are nearly right', () => {
  it('are answered with the word that was meant', () => {
    checkFindings(`
      lesson "Slips"
        licens "CC-BY-4.0"
    ;   ^^^^^^ misspelt-word: \`licens\` is not a word that can stand here; you surely mean \`licence\`.
        bpm 84
    ;   ^^^ unknown-line: \`lesson\` has no line \`bpm\`; it has \`by\`, \`level\`, \`focus\`, \`minutes\`, \`licence\` and \`needs\`.

      key d majr
    ;     ^^^^^^ unknown-key: \`d majr\` is no full name of a key; do you mean \`D major\`?

      progression quay
        H7 | Cmja7 | Gdur | X
    ;   ^^ unknown-chord: \`H7\` is no chord I can read; do you mean \`B7\`?
    ;        ^^^^^ unknown-chord: \`Cmja7\` is no chord I can read; do you mean \`Cmaj7\`?
    ;                ^^^^ unknown-chord: \`Gdur\` is no chord I can read; do you mean \`G\`?
    ;                       ^ unexpected-word: \`X\` cannot stand behind \`|\`; what fits is a bar line, \`/\`, \`%\`, \`N.C.\`, a chord or the end of the line.
    `);
  });
});

describe('a minor chord that is suspended', () => {
  it('is told that its third cannot be both', () => {
    checkFindings(`
      progression quay
        Am7sus4 | G
    ;   ^^^^^^^ unknown-chord: \`Am7sus4\` asks for a minor third and suspends it; a suspended chord has no third: write \`A7sus4\`.
    `);
  });
});

describe('a name that is not used', () => {
  it('is no finding in a file of parts', () => {
    assert.deepEqual(findingsOf('cell ripple\n  p4 i3 m2 i3\n'), []);
  });

  it('is no finding while a name of that kind is misspelt', () => {
    const text = lesson`
      progression quay
        G | C

      section verse
        progression quai
    `;
    assert.deepEqual(gravity(text), ['error unknown-name']);
  });
});

describe('any piece of a lesson', () => {
  const sample = readFileSync('samples/harbour-lamps.lesson', 'utf8');
  const lines = sample.split('\n');

  it('has findings inside the text, in order, without doubles, and fixes whose edits do not overlap', () => {
    for (let less = 0; less < lines.length; less++) {
      for (const text of [lines.slice(0, less).join('\n'), lines.filter((_, line) => line !== less).join('\n')]) {
        checkPlaces(text, findingsOf(text));
      }
    }
  });

  function checkPlaces(text: string, findings: readonly Finding[]): void {
    const seen = new Set<string>();
    let before = 0;
    for (const { span, code, message, related, fixes } of findings) {
      const mark = `${span.start} ${span.end} ${code} ${message}`;
      assert.ok(!seen.has(mark), `twice: ${mark}`);
      seen.add(mark);
      assert.ok(span.start >= before, `out of order: ${mark}`);
      before = span.start;
      const edits = fixes.map((fix) => [...fix.edits].sort((a, b) => a.span.start - b.span.start));
      const places = [span, ...related.map((one) => one.span), ...edits.flat().map((edit) => edit.span)];
      for (const { start, end } of places) assert.ok(start >= 0 && start <= end && end <= text.length, mark);
      for (const each of edits) {
        each.forEach((edit, i) => assert.ok(i === 0 || each[i - 1].span.end <= edit.span.start, `overlap: ${mark}`));
      }
    }
  }
});
