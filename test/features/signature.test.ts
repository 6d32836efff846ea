/** Signature help as a teacher sees it: the ways of saying a line, with the word that the cursor is at in angle brackets. */
import assert from 'node:assert/strict';
import { cursorIn } from '../support/check-features.ts';
import { signatureAt } from '../../server/src/features/signature.ts';
import { statements } from '../../server/src/syntax/statements.ts';

function help(marked: string, asked = true): readonly string[] {
  const { analysis, offset } = cursorIn(marked);
  return (signatureAt(analysis, offset, asked)?.signatures ?? []).map(({ text, parameters, active }) => {
    const { start, end } = parameters[active].span;
    return `${text.slice(0, start)}<${text.slice(start, end)}>${text.slice(end)}`;
  });
}

describe('signature help', () => {
  it('marks what comes next', () => {
    assert.deepEqual(help('key <|>'), ['key <TONIC> [MODE …]']);
    assert.deepEqual(help('key G <|>'), ['key TONIC <[MODE …]>']);
    assert.deepEqual(help('capo 2 on <|>'), ['capo FRET <[on STRING …]>']);
    assert.deepEqual(help('capo 2 on 5 <|>'), ['capo FRET <[on STRING …]>']);
    assert.deepEqual(help('shape a\n  frets 1 <|>'), ['frets FROM <to> TO']);
    assert.deepEqual(help('shape a\n  frets 1 to <|>'), ['frets FROM to <TO>']);
  });

  it('shows each way of saying a line that fits what is said', () => {
    assert.deepEqual(help('tempo <|>'), ['tempo <BEAT> = TEMPO', 'tempo <TEMPO>']);
    assert.deepEqual(help('tempo 3/8 <|>'), ['tempo BEAT <=> TEMPO']);
    assert.deepEqual(help('use <|>'), ['use <PATH>', 'use <NAME, …> from PATH']);
    assert.deepEqual(help('claim reach <|>'), ['claim reach <at> most FRET [in SECTION]']);
    assert.deepEqual(help('claim verse bar 2 is <|>'), [
      'claim SECTION bar BAR [chord CHORD-NUMBER] is <CHORD> [in SECTION]',
    ]);
    assert.equal(help('claim <|>').length, 17);
  });

  it('follows the word at hand while it is written', () => {
    assert.deepEqual(help('tempo 8<|>'), ['tempo <TEMPO>']);
    assert.deepEqual(help('capo 2<|>'), ['capo <FRET> [on STRING …]']);
    assert.deepEqual(help('section verse "The qu<|>'), ['section NAME <[TITLE]>']);
  });

  it('knows what may stand in any order, each at most once', () => {
    const from = 'step TITLE from TEMPO to TO by BY';
    const rest = (of: string): string => `${from} ${of}`;
    const step = 'practice\n  step "Slowly" from 60 to 84 by 6';
    assert.deepEqual(help(`${step} <|>`), [
      rest('<[for MINUTES minutes]> [in SECTION] [bars FIRST to LAST or bar FIRST]'),
    ]);
    assert.deepEqual(help(`${step} in verse <|>`), [
      rest('<[for MINUTES minutes]> [in SECTION] [bars FIRST to LAST or bar FIRST]'),
    ]);
    assert.deepEqual(help(`${step} in <|>`), [
      rest('[for MINUTES minutes] <[in SECTION]> [bars FIRST to LAST or bar FIRST]'),
    ]);
    assert.deepEqual(help(`${step} in verse bars 1 <|>`), [
      rest('[for MINUTES minutes] [in SECTION] <[bars FIRST to LAST or bar FIRST]>'),
    ]);
  });

  it('shows in a progression what may follow the chord at hand', () => {
    const chord = (active: string): readonly string[] => [
      'CHORD [at FRET] [as {FRETS or NAME}] [over BASS] [in TONIC [MODE …]] [with NAME] [held] [pushed]'.replace(
        active,
        `<${active}>`,
      ),
    ];
    assert.deepEqual(help('progression p\n  G | D <|>'), chord('[at FRET]'));
    assert.deepEqual(help('progression p\n  G | D over <|>'), chord('[over BASS]'));
    assert.deepEqual(help('progression p\n  G D at 5 <|>'), chord('[as {FRETS or NAME}]'));
    assert.deepEqual(help('progression p\n  G at at | D <|>'), chord('[at FRET]'), 'a slip costs its own bar');
    assert.deepEqual(help('progression p\n  G | % held <|>'), ['% <[with NAME]> [held] [pushed]']);
  });

  it('shows the whole line in music', () => {
    assert.deepEqual(help('tab a\n  1 | 0 <|>'), ['STRING <SIGN …, in bars>']);
    assert.deepEqual(help('section a\n  words low- <|>'), ['words <SYLLABLE …, in bars>']);
  });

  it('says what the words in capitals stand for', () => {
    const { analysis, offset } = cursorIn('capo <|>');
    const found = signatureAt(analysis, offset)!;
    assert.match(found.says, /^The capo’s fret/);
    assert.deepEqual(
      found.signatures[0].parameters.map(({ says }) => says),
      ['a fret number, 8', 'a string number, 4'],
    );
  });

  it('has nothing to say where nothing may follow, where a word is wrong, and in prose and comments', () => {
    for (const marked of [
      'hand small <|>',
      'capo x <|>',
      'wibble <|>',
      'shape a\n  wibble <|>',
      'text\n  capo <|>',
      'capo ; <|>',
      '<|>',
      'progression p\n  <|>',
    ])
      assert.deepEqual(
        help(marked).filter((one) => !one.includes('in bars')),
        [],
        marked,
      );
  });

  it('opens by itself only while something must follow, and never over a row of signs', () => {
    assert.equal(help('key <|>', false).length, 1);
    assert.equal(help('key G <|>', false).length, 0);
    assert.equal(help('progression p\n  G <|>', false).length, 0);
    assert.equal(help('progression p\n  G at <|>', false).length, 1);
    assert.equal(help('tab a\n  1 <|>', false).length, 0);
    assert.equal(help('tab a\n  palm <|>', false).length, 0);
  });

  it('has a place in its text for each parameter, in the order of the text', () => {
    for (const { keyword, head, body } of statements)
      for (const marked of [`${keyword} <|>`, ...body.map((line) => `${keyword} a\n  ${line.keyword ?? ''} <|>`)]) {
        const { analysis, offset } = cursorIn(marked);
        for (const { text, parameters } of signatureAt(analysis, offset)?.signatures ?? []) {
          let end = 0;
          for (const { span } of parameters) {
            assert.ok(span.start >= end && span.end > span.start && span.end <= text.length, `${text}, ${head.is}`);
            end = span.end;
          }
        }
      }
  });
});
