/** What is offered at the cursor. */
import assert from 'node:assert/strict';
import { completionLabels, completionLines, cursorIn } from '../support/check-features.ts';
import { completionsAt } from '../../server/src/features/completion.ts';
import { statements } from '../../server/src/syntax/statements.ts';

const PARTS = `
  key G major
  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
  progression quay
    G | D | Em
  cell ripple
    p4 i3
  contour swell on 1
    from 5: 0
  section verse "The quay"
    progression quay
    shape lamp
`;

const at = (words: string, marked: string): readonly string[] => completionLabels(PARTS.replace(words, marked));
const behind = (lines: string): readonly string[] => completionLabels(PARTS + lines);

describe('completion', () => {
  it('offers every statement in the first column', () => {
    const all = statements.map((form) => form.keyword);
    assert.deepEqual(completionLabels('<|>'), all);
    assert.deepEqual(completionLabels('key C major\nse<|>'), all);
  });

  it('offers the lines of the statement at hand that are not said yet', () => {
    const lines = behind('\n  shape bell\n    strings 4 3 2\n    <|>\n');
    assert.ok(!lines.includes('strings'), 'what is said is not offered again');
    assert.ok(lines.includes('tones') && lines.includes('barre'));
    assert.ok(!lines.includes('lesson'));
  });

  it('offers a line’s own keyword while it is being written', () => {
    assert.ok(behind('\n  shape bell\n    stri<|>\n').includes('strings'));
  });

  it('offers names of the right kind', () => {
    assert.deepEqual(behind('    shape <|>\n'), ['lamp', 'open-chords', 'barre-chords', 'power-chords']);
    assert.deepEqual(behind('    cell r<|>\n'), ['ripple']);
    assert.deepEqual(behind('    contour <|>\n'), ['swell']);
    assert.deepEqual(completionLines(`${PARTS}  form verse <|>\n`), ['verse (The quay)']);
    assert.deepEqual(behind('  shape <|>\n'), [], 'where a name is given, none is offered');
  });

  it('offers the chords of the key, numerals first', () => {
    // The triads of G major by the book: I ii iii IV V vi vii°, then their seventh chords.
    const offered = at('D | Em', 'D | <|>');
    assert.deepEqual(offered.slice(0, 7), ['I', 'ii', 'iii', 'IV', 'V', 'vi', 'vii°']);
    assert.deepEqual(offered.slice(14, 21), ['G', 'Am', 'Bm', 'C', 'D', 'Em', 'F#dim']);
    assert.ok(offered.includes('N.C.'));
    assert.ok(!offered.includes('held'), 'nothing holds a chord that is not there');
  });

  it('counts numerals in the progression’s own key', () => {
    const lines = completionLines('key G major\nprogression p in A minor\n  <|>\n');
    assert.equal(lines[0], 'i (Am in A minor)');
  });

  it('offers what may follow a chord, each word once', () => {
    const offered = at('D | Em', 'D | Em at 5 <|>');
    assert.ok(offered.includes('held') && offered.includes('over'));
    assert.ok(!offered.includes('at'));
  });

  it('offers what may follow a chord before the next chord, and chords first behind a bar line', () => {
    const modifiers = ['at', 'as', 'over', 'in', 'with', 'held', 'pushed'];
    assert.deepEqual(at('D | Em', 'D <|>').slice(0, 8), [...modifiers, 'I']);
    assert.deepEqual(at('D | Em', 'D at 5 <|>').slice(0, 7), [...modifiers.slice(1), 'I']);
    assert.equal(at('D | Em', 'D | <|>')[0], 'I');
    assert.equal(at('D | Em', 'D in E <|>')[0], 'major');
  });

  it('goes on behind a bar that cannot be read', () => {
    assert.ok(at('D | Em', 'D at x | <|>').includes('vi'));
  });

  it('offers the positions and frets of the shape behind a chord', () => {
    assert.deepEqual(completionLines(PARTS.replace('| D |', '| D at <|> |')), ['3 (Dadd11/F#, x-x-4-0-3-5, moderate)']);
    assert.deepEqual(at('| D |', '| D as <|> |').slice(0, 2), ['x-x-4-0-3-5', 'lamp']);
    assert.deepEqual(at('| D |', '| D with <|> |'), ['ripple']);
  });

  it('offers keys, and what is left of a mode of several words', () => {
    assert.deepEqual(completionLabels('key <|>').slice(0, 2), ['C major', 'G major']);
    assert.deepEqual(completionLines('key A <|>').slice(0, 2), ['major (A B C# D E F# G#)', 'minor (A B C D E F G)']);
    assert.ok(completionLines('key A minor <|>').includes('pentatonic (A C D E G)'));
  });

  it('offers tunings once, tones, strings, plucks and steps', () => {
    assert.equal(completionLines('tuning <|>')[0], 'standard (E2 A2 D3 G3 B3 E4, the usual six strings)');
    assert.deepEqual(completionLabels('tuning standard <|>'), []);
    assert.deepEqual(completionLabels('shape a\n  tones 3 <|>').slice(0, 3), ['R', '2', '3']);
    assert.equal(completionLines('contour a on <|>')[0], '1 (open E4)');
    assert.ok(completionLabels('tuning ukulele\ncontour a on <|>').includes('4'));
    assert.ok(!completionLabels('tuning ukulele\ncontour a on <|>').includes('5'));
    assert.ok(completionLines('cell a\n  p6 <|>').includes('i3 (index on string 3)'));
    assert.ok(completionLabels('contour a on 1\n  from 5: 0 <|>').includes('-1'));
    assert.deepEqual(completionLabels('contour a on 1\n  from 5 <|>'), ['or']);
  });

  it('writes the quotes of a title', () => {
    const { analysis, offset } = cursorIn('les<|>');
    const lesson = completionsAt(analysis, offset)!.items.find(({ label }) => label === 'lesson')!;
    assert.deepEqual([lesson.insert, lesson.snippet], ['lesson "$1"', true]);
  });

  it('takes the place of the word at hand alone', () => {
    const { analysis, text, offset } = cursorIn('key G maj<|>or');
    const { start, end } = completionsAt(analysis, offset)!.span;
    assert.equal(text.slice(start, end), 'maj');
  });

  it('keeps out of prose, comments and quotes', () => {
    assert.deepEqual(completionLabels('text\n  The <|>'), []);
    assert.deepEqual(completionLabels('key G major ; the <|>'), []);
    assert.deepEqual(completionLabels('lesson "The <|>'), []);
  });

  it('does not stand in the way of a line’s end where nobody asked', () => {
    assert.deepEqual(completionLabels('progression p\n  G <|>', false), []);
    assert.deepEqual(completionLabels('capo 2 <|>', false), []);
    assert.deepEqual(completionLabels('shape a\n  <|>', false), []);
    assert.equal(completionLabels('key <|>', false)[0], 'C major');
  });
});
