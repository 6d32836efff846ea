/** What is offered at the cursor. */
import assert from 'node:assert/strict';
import { completionLabels, completionLines, cursorIn } from '../support/check-features.ts';
import { completionsAt } from '../../server/src/features/completion.ts';
import { analyze, Session } from '../../server/src/analyze.ts';
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

/** What is written for a keyword. */
function snippetAt(marked: string, keyword: string): string {
  const { analysis, offset } = cursorIn(marked);
  const { insert, snippet } = completionsAt(analysis, offset)!.items.find(({ label }) => label === keyword)!;
  assert.equal(snippet, insert !== keyword);
  return insert;
}

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

  it('writes a statement with the gaps of its body, filled from the lesson where it knows better', () => {
    assert.equal(snippetAt('les<|>', 'lesson'), 'lesson "${1:Harbour lamps}"\n  level ${2:3}\n  minutes ${3:15}');
    // The lesson has a lamp already, and neither a cell nor a contour.
    const few = 'shape lamp\n  strings 4 2 1\nprogression quay\n  G\nprogression back\n  D\n';
    assert.equal(snippetAt(`${few}sha<|>`, 'shape').split('\n')[0], 'shape ${1:lamp-2}');
    assert.equal(
      snippetAt(`${few}sec<|>`, 'section'),
      'section ${1:verse} "${2:The quay at dusk}"\n  progression ${3|quay,back|}\n  shape ${4:lamp}',
    );
    assert.equal(
      snippetAt('tempo 100\npractice\n  <|>', 'step'),
      'step "${1:The ripple}" from ${2:70} to ${3:100} by ${4:6}',
    );
    assert.match(snippetAt('tuning ukulele\ntab<|>', 'tab'), /^ {2}\$\{5:4\} \|/m);
  });

  it('writes a keyword alone where one word follows, where a sentence does, and where something stands behind it', () => {
    for (const word of ['key', 'tuning', 'claim', 'show', 'form']) assert.equal(snippetAt(`${word}<|>`, word), word);
    assert.equal(snippetAt('shape a\n  <|>', 'reach'), 'reach');
    assert.equal(snippetAt('shape a\n  <|>', 'frets'), 'frets ${1:1} to ${2:12}');
    assert.equal(snippetAt('sha<|> lamp\n', 'shape'), 'shape');
    assert.equal(snippetAt('sha<|>\n  strings 4 2 1\n', 'shape'), 'shape');
  });

  it('offers bars by their chords, from the first to the last', () => {
    assert.deepEqual(completionLines(`${PARTS}  show verse bars <|>\n`), ['1 (G)', '2 (D)', '3 (Em)']);
    assert.deepEqual(behind('  show verse bars 1 to <|>\n'), ['3', '2']);
    assert.deepEqual(completionLines(`${PARTS}    cell ripple at bar <|>\n`), ['1 (G)', '2 (D)', '3 (Em)']);
    assert.deepEqual(behind('  practice\n    step "a" at 60 in verse bars 2 to <|>\n'), ['3']);
  });

  it('offers for a variant another part, then those that are played', () => {
    const parts = `${PARTS}  shape bell\n    strings 3 2 1\n  variant gentle\n`;
    assert.deepEqual(completionLabels(`${parts}    shape <|>\n`).slice(0, 2), ['bell', 'lamp']);
    assert.deepEqual(completionLabels(`${parts}    shape bell <|>\n`), ['instead']);
    assert.deepEqual(completionLabels(`${parts}    shape bell instead of <|>\n`), ['lamp']);
  });

  it('offers tempi for a step by the tempo of its section', () => {
    const lines = completionLines('tempo 90\npractice\n  step "Slowly" at <|>');
    // 60 of 100 parts of 90 are 54.
    assert.deepEqual(lines.slice(0, 2), ['90 (the tempo itself)', '54 (60 % of the tempo)']);
    assert.deepEqual(completionLabels('tempo 90\npractice\n  step "Slowly" from 54 to <|>'), ['90']);
    assert.deepEqual(completionLabels('practice\n  step "Slowly" at 60 <|>'), ['for', 'in', 'bars', 'bar']);
  });

  it('offers a capo by the key that it gives', () =>
    // A capo on the third fret raises by a minor third: G to B flat.
    assert.equal(completionLines('key G major\ncapo <|>')[2], '3 (sounds in Bb major)'));

  it('offers the next ending and the next day', () => {
    assert.deepEqual(behind('    times 2\n    ending 1 quay\n    ending <|>\n'), ['2']);
    assert.deepEqual(behind('    ending 1 <|>\n'), ['quay']);
    assert.deepEqual(completionLabels('course "A"\n  day 4 "a.lesson"\n  day <|>'), ['5']);
  });

  it('offers the signs of a tab with a word on each, where somebody asks', () => {
    const row = 'tab coda\n  1 | 0 <|>';
    assert.ok(completionLines(row).includes('h7 (hammer-on to that fret)'));
    assert.ok(completionLabels(row).includes('...'));
    assert.deepEqual(completionLabels(row, false), []);
    assert.ok(!completionLabels('melody a on 1\n  5 <|>').includes('...'), 'a melody repeats no bar so');
    assert.deepEqual(completionLabels('tab coda\n  palm <|>'), ['*', '-', '...']);
    assert.deepEqual(completionLabels('tab coda\n  palm <|>', false), []);
  });

  it('offers the next string of a tab first, with its bar line', () => {
    const { analysis, offset } = cursorIn('tab coda\n  1 | 0 -\n  2 | 1 -\n  <|>');
    assert.equal(completionsAt(analysis, offset)!.items[0].insert, '3 | ');
    assert.equal(completionLabels('tab coda\n  <|>')[0], '1');
    assert.equal(completionLabels('tab coda\n  6 | 0 -\n  <|>')[0], '1');
  });

  it('offers what another file has to give', () => {
    const files = { read: () => 'shape bell\n  strings 3 2 1\ncell waves\n  p4 i3\n' };
    const labels = (text: string): readonly string[] => {
      const analysis = analyze(text.replace('<|>', ''), new Session(), { path: 'a.lesson', files });
      return (completionsAt(analysis, text.indexOf('<|>'))?.items ?? []).map(({ label }) => label);
    };
    assert.deepEqual(labels('use w<|> from "parts.lesson"\n'), ['bell', 'waves']);
    assert.deepEqual(labels('use bell, w<|> from "parts.lesson"\n'), ['waves']);
    assert.deepEqual(labels('use bell from "parts.lesson"\nuse <|> from "parts.lesson"\n'), ['bell', 'waves']);
  });

  it('says no word of a list twice', () => {
    assert.deepEqual(completionLabels('library "A"\n  requires level <|>'), [
      'by',
      'focus',
      'minutes',
      'licence',
      'needs',
    ]);
    assert.deepEqual(completionLabels('shape a\n  strings 4 2 <|>'), ['1', '3', '5', '6']);
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
