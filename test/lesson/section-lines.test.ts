import assert from 'node:assert/strict';
import { playedOrder } from '../../server/src/lesson/played-order.ts';
import { describeBars, describeProblems, lessonOf } from '../support/describe-lesson.ts';

const PARTS = `key G major

progression quay
  G | D | Em | C

progression home
  D | G

melody landing on 1
  each 1/4
  3 5 3 2 | 2 0 2 3

melody lead on 1
  each 1/4
  7 | 3 5 3 2 | 2 0 2 3

tab coda
  each 1/2
  chords C / / D | G
  2 | 1 3 | 3 - |

tab back
  each 1/2
  6 | 3 2 |

contour swell on 1
  each 1/2
  from 5: 0 -
`;
const withLines = (...lines: readonly string[]): string => `${PARTS}\nsection verse\n  ${lines.join('\n  ')}\n`;
const bars = (...lines: readonly string[]): string[] => describeBars(lessonOf(withLines(...lines)).sections[0].plan);
const problems = (...lines: readonly string[]): string[] => describeProblems(withLines(...lines));
/** What is sung in each bar: `_` holds a syllable. */
const sung = (...lines: readonly string[]): string[] =>
  bars(...lines).map((bar) => /words: (.*)$/.exec(bar)?.[1] ?? '');

const LANDING = [
  'melody: 0> 1:3 1/4 1/4> 1:5 1/4 1/2> 1:3 1/4 3/4> 1:2 1/4 = 1',
  'melody: 0> 1:2 1/4 1/4> 1:0 1/4 1/2> 1:2 1/4 3/4> 1:3 1/4 = 1',
];
const CODA = ['tab: 0> 2:1 1/2 1/2> 2:3 1/2 = 1 over C 3/4 D 1/4', 'tab: 0> 2:3 1 = 1 over G 1'];

describe('a melody or a tab in a section', () => {
  it('is played once from the first bar, over the chords that are there', () => {
    assert.deepEqual(bars('progression quay', 'melody landing'), [
      `1: G 1 [open-chords], ${LANDING[0]}`,
      `2: D 1 [open-chords], ${LANDING[1]}`,
      '3: Em 1 [open-chords]',
      '4: C 1 [open-chords]',
    ]);
  });
  it('stands where its bars are, again and again if there are more of them', () => {
    assert.deepEqual(bars('progression quay', 'melody landing at bar 3', 'tab back bars 1 to 2'), [
      '1: G 1 [open-chords], tab: 0> 6:3 1/2 1/2> 6:2 1/2 = 1',
      '2: D 1 [open-chords], tab: 0> 6:3 1/2 1/2> 6:2 1/2 = 1',
      `3: Em 1 [open-chords], ${LANDING[0]}`,
      `4: C 1 [open-chords], ${LANDING[1]}`,
    ]);
    assert.match(bars('progression quay', 'melody landing bars 1 to 4')[2], /3: .*1:3 1\/4 1\/4> 1:5/);
    assert.deepEqual(problems('progression quay', 'melody landing bars 1 to 4', 'melody lead at bar 4'), [
      'bars-called-twice "4"',
    ]);
  });
  it('is a section by itself; chords over a tab are names alone', () => {
    assert.deepEqual(bars('tab coda'), [`1: C 3/4, D 1/4, ${CODA[0]}`, `2: G 1, ${CODA[1]}`]);
    assert.deepEqual(bars('melody landing'), [`1: ${LANDING[0]}`, `2: ${LANDING[1]}`]);
    assert.deepEqual(problems('melody landing'), []);
    assert.deepEqual(problems('tab coda'), []);
  });
  it('makes the section longer where it stands behind the chords', () => {
    assert.deepEqual(bars('progression home', 'tab coda at bar 3').slice(2), [
      `3: C 3/4, D 1/4, ${CODA[0]}`,
      `4: G 1, ${CODA[1]}`,
    ]);
    assert.deepEqual(problems('progression home', 'tab coda at bar 3'), []);
    assert.deepEqual(problems('progression home', 'pickup 1/4', 'melody lead'), []);
    assert.deepEqual(problems('progression home', 'tab back at bar 2', 'melody landing bars 3 to 2'), [
      'bars-outside-section "3 to 2"',
    ]);
  });
  it('that outlasts the chords without any of its own is asked about', () => {
    const text = `${PARTS}\nprogression short\n  G\n\nsection verse\n  progression short\n  melody landing\n`;
    assert.deepEqual(describeProblems(text), ['melody-outlasts-chords "landing"']);
    assert.equal(lessonOf(text).sections[0].plan.bars.length, 2);
  });
  it('must fill the bars of the meter; what is too long is cut, what is too short ends in silence', () => {
    const inThree = withLines('meter 3/4', 'melody landing');
    assert.deepEqual(describeProblems(inThree), ['written-bar-misfit "3 5 3 2"', 'written-bar-misfit "2 0 2 3"']);
    assert.equal(
      describeBars(lessonOf(inThree).sections[0].plan)[0],
      '1: melody: 0> 1:3 1/4 1/4> 1:5 1/4 1/2> 1:3 1/4 = 3/4',
    );
    assert.equal(
      bars('meter 5/4', 'melody landing')[0],
      '1: melody: 0> 1:3 1/4 1/4> 1:5 1/4 1/2> 1:3 1/4 3/4> 1:2 1/4 1> r 1/4 = 5/4',
    );
  });
  it('has one place for each of its notes and chords', () => {
    for (const { plan, places } of lessonOf(withLines('tab coda', 'melody lead', 'pickup 1/4', 'meter 3/4')).sections) {
      plan.bars.forEach((bar, i) => {
        assert.equal(places[i].chords.length, bar.chords.length);
        assert.equal(places[i].melody?.notes.length, bar.melody?.notes.length);
        assert.equal(places[i].tab?.notes.length, bar.tab?.notes.length);
      });
    }
  });
});

describe('a pick-up', () => {
  it('is bar 0, in front of the chords', () => {
    assert.deepEqual(bars('progression home', 'melody lead', 'pickup 1/4'), [
      '0: melody: 0> 1:7 1/4 = 1/4',
      `1: D 1 [open-chords], ${LANDING[0]}`,
      `2: G 1 [open-chords], ${LANDING[1]}`,
    ]);
    assert.deepEqual(problems('progression home', 'melody lead', 'pickup 1/4'), []);
    assert.match(bars('progression home', 'melody lead at bar 0', 'pickup 1/4')[0], /^0: melody/);
  });
  it('is asked for where the first bar is short, and must have its length', () => {
    const said = (...lines: readonly string[]): string[] =>
      lessonOf(withLines(...lines)).problems.map(({ kind, data }) => `${kind} ${data.found} ${data.wrong}`);
    assert.deepEqual(said('melody lead'), ['written-bar-misfit 1/4 first']);
    assert.deepEqual(said('melody lead', 'pickup 1/2'), ['written-bar-misfit 1/4 pickup']);
  });
  it('may be taken from the last bar', () => {
    const text = `melody lead on 1\n  each 1/4\n  7 | 3 5 3 2 | 2 0 2\n\nsection verse\n  melody lead\n  pickup 1/4\n`;
    assert.deepEqual(describeProblems(text), []);
  });
  it('stands before the chords of a tab, which begin with the first full bar', () => {
    const rows = ['1 | 0 - | 3 - - - - - | 0 - - - - - |', '6 | - - | 3 - - - - - | 3 - - - - - |'];
    for (const chords of ['G | D', '| | G | D |']) {
      const text = `meter 3/4\ntab coda\n  each 1/8\n  chords ${chords}\n  ${rows.join('\n  ')}\nsection verse\n  tab coda\n  pickup 1/4\n`;
      assert.deepEqual(describeProblems(text), []);
      const [{ plan }] = lessonOf(text).sections;
      assert.deepEqual(
        plan.bars.map(({ number, chords: over }) => `${number} ${over.map(({ written }) => written).join(' ')}`),
        ['0 ', '1 G', '2 D'],
      );
    }
  });
  it('needs notes, and is shorter than a bar', () => {
    assert.deepEqual(problems('progression home', 'pickup 1/4'), ['pickup-empty "pickup 1/4"']);
    assert.deepEqual(bars('progression home', 'pickup 1/4'), ['1: D 1 [open-chords]', '2: G 1 [open-chords]']);
    assert.deepEqual(problems('progression home', 'melody landing', 'pickup 1/1'), ['pickup-too-long "1/1"']);
    assert.deepEqual(problems('progression home', 'melody landing', 'pickup 0/4'), ['bad-length "0/4"']);
  });
});

describe('times and endings', () => {
  it('put the bars of each ending behind those of the section', () => {
    assert.deepEqual(bars('progression home', 'times 2', 'ending 2 coda', 'ending 1 back'), [
      '1: D 1 [open-chords]',
      '2: G 1 [open-chords]',
      '3: ending 1, tab: 0> 6:3 1/2 1/2> 6:2 1/2 = 1',
      `4: C 3/4, D 1/4, ending 2, ${CODA[0]}`,
      `5: G 1, ending 2, ${CODA[1]}`,
    ]);
    assert.deepEqual(problems('progression home', 'times 2', 'ending 2 coda', 'ending 1 back'), []);
  });
  it('take a progression and a tab of one name together', () => {
    const text = `${PARTS}\nprogression coda\n  Am | D\n\nsection verse\n  progression quay\n  times 2\n  ending 2 coda\n`;
    assert.deepEqual(describeBars(lessonOf(text).sections[0].plan).slice(4), [
      `5: Am 1 [open-chords], ending 2, ${CODA[0]}`,
      `6: D 1 [open-chords], ending 2, ${CODA[1]}`,
    ]);
  });
  it('take a melody of that name too, whose last bar the pick-up may shorten', () => {
    const text = (last: string, line = 'pickup 1/4'): string =>
      `${PARTS}\nmelody home on 2\n  1 1/1 | ${last}\n\nsection verse\n  ${line}\n  progression quay\n  melody lead\n  times 2\n  ending 1 home\n`;
    assert.deepEqual(describeBars(lessonOf(text('3 3/4')).sections[0].plan).slice(5), [
      '5: D 1 [open-chords], ending 1, melody: 0> 2:1 1 = 1',
      '6: G 1 [open-chords], ending 1, melody: 0> 2:3 3/4 3/4> r 1/4 = 1',
    ]);
    assert.deepEqual(describeProblems(text('3 3/4')), []);
    assert.deepEqual(describeProblems(text('3 1/2')), ['written-bar-misfit "3"']);
  });
  it('are played one after another, the pick-up once', () => {
    const order = (...lines: readonly string[]): string => {
      const { plan } = lessonOf(withLines(...lines)).sections[0];
      return playedOrder(plan)
        .map((index) => plan.bars[index].number)
        .join(' ');
    };
    assert.equal(order('progression home', 'times 3', 'ending 1 back', 'ending 3 back'), '1 2 3 1 2 3 1 2 4');
    assert.equal(order('progression home', 'melody lead', 'pickup 1/4', 'times 2'), '0 1 2 1 2');
    assert.equal(order('progression home'), '1 2');
  });
  it('say what is never played', () => {
    const said = (...lines: readonly string[]): string[] =>
      lessonOf(withLines('progression home', ...lines)).problems.map(
        ({ kind, data }) => `${kind} ${data.wrong ?? data.found}`,
      );
    assert.deepEqual(said('ending 1 back'), ['ending-misplaced once']);
    assert.deepEqual(said('times 2', 'ending 3 back'), ['ending-misplaced late']);
    assert.deepEqual(said('times 2', 'ending 1 back', 'ending 1 coda'), ['ending-misplaced doubled']);
    assert.deepEqual(said('times 40'), ['number-out-of-range 40']);
    assert.deepEqual(said('times 2', 'ending 1 nowhere'), ['unknown-name nowhere']);
  });
});

describe('the words of a section', () => {
  it('go a syllable a note, on over the bar lines and from line to line', () => {
    assert.deepEqual(sung('melody landing', 'words low- tide, lan- terns', 'words o- ver the bay'), [
      'low- tide, lan- terns',
      'o- ver the bay',
    ]);
    assert.deepEqual(problems('melody landing', 'words low- tide, lan- terns', 'words o- ver the bay'), []);
  });
  it('keep to the bars that bar lines name', () => {
    assert.deepEqual(sung('progression quay', 'melody landing', 'words | low-tide | o- ver the bay |'), [
      'low- tide',
      'o- ver the bay',
      '',
      '',
    ]);
    assert.deepEqual(sung('melody lead', 'pickup 1/4', 'words the | low tide | o- ver'), ['the', 'low tide', 'o- ver']);
    assert.deepEqual(sung('melody landing', 'words low tide', 'words | | bay'), ['low tide', 'bay']);
  });
  it('hold a syllable over another note', () => {
    assert.deepEqual(sung('melody landing', 'words low- - tide - | bay'), ['low- _- tide _', 'bay']);
  });
  it('are sung to the top line of a tab, and to a contour', () => {
    const tab = 'tab song\n  each 1/4\n  1 | - 0 3 - |\n  6 | 3 - 3 - |\n  pluck p i p+a -\n';
    const text = `${tab}\nsection verse\n  tab song\n  words low tide\n`;
    assert.match(describeBars(lessonOf(text).sections[0].plan)[0], /words: low tide$/);
    assert.deepEqual(describeProblems(text), []);
    assert.deepEqual(sung('progression home', 'contour swell', 'words low tide'), ['low', 'tide']);
  });
  it('that are too many or too few are counted in all', () => {
    const said = (...lines: readonly string[]): string[] =>
      lessonOf(withLines(...lines)).problems.map(
        ({ kind, data }) => `${kind} ${data.syllables} for ${data.notes}${data.bar ? ` in bar ${data.bar}` : ''}`,
      );
    assert.deepEqual(said('melody landing', 'words a b c d e f g'), ['words-miscounted 7 for 8']);
    assert.deepEqual(said('melody landing', 'words a b c d e f g h i'), ['words-miscounted 9 for 8']);
    assert.deepEqual(said('melody landing', 'words a b c d e | f g h'), ['words-miscounted 8 for 4 in bar 1']);
  });
  it('that no melody carries fall on what the right hand does', () => {
    assert.deepEqual(describeProblems(withLines('progression home', 'words a')), []);
    assert.equal(sung('progression home', 'words a')[0], 'a');
  });
});
