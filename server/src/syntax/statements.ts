/**
 * The one table of statements. Grammar, formatter, completion, signature help, highlighting and reference all read it, so a
 * construct is added here and nowhere else.
 */
import {
  anyOrder,
  barLine,
  choice,
  colon,
  either,
  group,
  list,
  many,
  mark,
  nothing,
  optional,
  sequence,
  slot,
  word,
  type Pattern,
} from './patterns.ts';

/** One kind of line in a statement's body. */
export interface LineForm {
  /** Stands in the tree as the line's `form`. */
  readonly label: string;
  /** The word the line starts with; none for lines that are music from their first word on. */
  readonly keyword?: string;
  /** What follows the keyword. */
  readonly pattern: Pattern;
  /** Whether bar lines cut the line, so that a slip costs one bar and not the line. */
  readonly bars?: boolean;
  /** Whether a statement may hold several lines of this form. */
  readonly often?: boolean;
  readonly says: string;
  readonly example: string;
}

export interface StatementForm {
  readonly keyword: string;
  readonly head: Pattern;
  readonly body: readonly LineForm[];
  /** Whether the body is prose, left alone to the letter. */
  readonly prose?: boolean;
  readonly says: string;
  readonly example: string;
}

// A mode may be missing here (`key G`, `key Gmaj`): those who know music say what is meant.
const key: Pattern = sequence(slot('tonic', 'tonic'), many(slot('mode', 'mode'), 0));
const string = slot('string', 'string');
const fretRange: Pattern = sequence(slot('from', 'fret'), word('to'), slot('to', 'fret'));
const barRange: Pattern = either(
  sequence(word('bars'), slot('first', 'number'), word('to'), slot('last', 'number')),
  sequence(word('bar'), slot('first', 'number')),
);
const tempo: Pattern = either(
  sequence(slot('beat', 'length'), word('='), slot('tempo', 'tempo')),
  slot('tempo', 'tempo'),
);
const each: LineForm = {
  label: 'each',
  keyword: 'each',
  pattern: sequence(slot('length', 'length'), optional(word('triplet', 'triplet'))),
  says: 'The usual length of what follows; with `triplet`, three in the time of two.',
  example: 'each 1/8',
};

/** Music from the first word on: notes of one kind, lengths behind them, triplets and whatever else a line allows. */
const music = (kind: 'pluck' | 'step' | 'sign', ...others: readonly Pattern[]): Pattern => {
  const note = group('note', slot('sign', kind), optional(slot('length', 'length')));
  const triplet = group('triplet', word('triplet('), many(note), word(')'), optional(slot('length', 'length')));
  return many(either(barLine, triplet, ...others, note));
};

const settings: readonly LineForm[] = [
  {
    label: 'tuning',
    keyword: 'tuning',
    pattern: many(slot('tuning', 'tuning')),
    says: 'A tuning by name, or its notes from the lowest string up.',
    example: 'tuning standard',
  },
  {
    label: 'capo',
    keyword: 'capo',
    pattern: sequence(slot('fret', 'fret'), optional(word('on'), many(string))),
    says: 'The capo’s fret, on all strings or on those named; frets are then counted from it.',
    example: 'capo 2',
  },
  { label: 'no', keyword: 'no', pattern: word('capo'), says: 'Takes the capo off.', example: 'no capo' },
  {
    label: 'frets',
    keyword: 'frets',
    pattern: slot('fret', 'fret'),
    says: 'How many frets the neck has.',
    example: 'frets 20',
  },
  {
    label: 'scale-length',
    keyword: 'scale-length',
    pattern: sequence(slot('measure', 'measure'), optional(word('mm'))),
    says: 'The sounding length of an open string, by which the stretches of the hand are judged.',
    example: 'scale-length 648 mm',
  },
  {
    label: 'hand',
    keyword: 'hand',
    pattern: choice('hand', 'small', 'medium', 'large'),
    says: 'The hand that stretches are judged for.',
    example: 'hand medium',
  },
  {
    label: 'key',
    keyword: 'key',
    pattern: key,
    says: 'The key: a note and a mode. Numerals, melodies and spelling follow it.',
    example: 'key G major',
  },
  {
    label: 'meter',
    keyword: 'meter',
    pattern: slot('meter', 'meter'),
    says: 'The meter of the bars.',
    example: 'meter 3/4',
  },
  {
    label: 'tempo',
    keyword: 'tempo',
    pattern: tempo,
    says: 'Beats a minute, of the meter’s own beat or of the length named.',
    example: 'tempo 84',
  },
  {
    label: 'swing',
    keyword: 'swing',
    pattern: slot('length', 'length'),
    says: 'Plays pairs of that length long and short, two to one.',
    example: 'swing 1/8',
  },
];

const level: LineForm = {
  label: 'level',
  keyword: 'level',
  pattern: slot('level', 'number'),
  says: 'How far on a student should be, from 1 to 5.',
  example: 'level 3',
};

/** What may follow a chord, in the order in which the formatter writes it. */
export const chordModifiers: Pattern = anyOrder(
  group('at', word('at'), slot('fret', 'fret')),
  group('as', word('as'), either(slot('frets', 'frets'), slot('name', 'name'))),
  group('over', word('over'), slot('bass', 'bass')),
  group('in', word('in'), key),
  group('with', word('with'), slot('name', 'name')),
  word('held', 'held'),
  word('pushed', 'pushed'),
);

/** What may follow a `%`, in the same order: the bar before, played otherwise. */
const againModifiers: Pattern = anyOrder(
  group('with', word('with'), slot('name', 'name')),
  word('held', 'held'),
  word('pushed', 'pushed'),
);

/** The kinds of part that a section puts together, and that files share. */
export const PART_KINDS = ['progression', 'shape', 'cell', 'contour', 'melody', 'tab'] as const;

/** Examples of one part in place of another. */
const INSTEAD = {
  progression: 'harbour instead of quay',
  shape: 'bell instead of lamp',
  cell: 'waves instead of ripple',
  contour: 'tide instead of swell',
  melody: 'leaving instead of landing',
  tab: 'farewell instead of coda',
} as const satisfies Record<(typeof PART_KINDS)[number], string>;

const sectionPart = (keyword: (typeof PART_KINDS)[number], says: string): LineForm => ({
  label: keyword,
  keyword,
  often: true,
  pattern: sequence(
    slot('name', 'name'),
    optional(either(barRange, sequence(word('at'), word('bar'), slot('at-bar', 'number')))),
  ),
  says,
  example: `${keyword} ${{ progression: 'quay', shape: 'lamp', cell: 'ripple', contour: 'swell', melody: 'landing', tab: 'coda' }[keyword]}`,
});

const setting = (label: string): LineForm => settings.find((line) => line.label === label)!;

const step: LineForm = {
  label: 'step',
  keyword: 'step',
  often: true,
  pattern: sequence(
    slot('title', 'title'),
    either(
      group(
        'ladder',
        word('from'),
        slot('tempo', 'tempo'),
        word('to'),
        slot('to', 'tempo'),
        word('by'),
        slot('by', 'tempo'),
      ),
      sequence(word('at'), slot('tempo', 'tempo')),
    ),
    anyOrder(
      sequence(word('for'), slot('minutes', 'number'), word('minutes')),
      sequence(word('in'), slot('section', 'name')),
      barRange,
    ),
  ),
  says: 'One step of the plan: at one tempo (`at 60`), or climbing from tempo to tempo, the last of which is always the one behind `to`; then, where it matters, for how many minutes, in which section and which bars. Tempi count the section’s own beat. How long a step without minutes takes is not assumed.',
  example: 'step "The ripple" from 60 to 84 by 6',
};

const claimPattern: Pattern = sequence(
  either(
    group('playable', word('playable'), word('at'), slot('tempo', 'tempo')),
    group('reach', word('reach'), word('at'), word('most'), slot('fret', 'fret')),
    group('no-barre', word('no'), word('barre')),
    group('contour', word('same'), word('contour'), word('throughout')),
    group('thumb', word('thumb'), word('alternates'), word('throughout')),
    group('scale', word('scale'), key),
    group('frets', word('frets'), fretRange),
    group('common', word('common'), word('tone'), slot('note', 'note'), word('throughout')),
    group('open', word('open'), many(string), word('throughout')),
    group(
      'melody',
      word('melody'),
      either(
        sequence(word('starts'), word('on'), slot('tone', 'tone'), optional(word('except'), barRange)),
        sequence(many(slot('note', 'note')), word('in'), word('bar'), slot('bar', 'number')),
      ),
    ),
    group(
      'bar',
      // The name may be left out; tried first with it, the word `bar` would be taken for a name.
      either(
        sequence(word('bar'), slot('bar', 'number')),
        sequence(slot('section', 'name'), word('bar'), slot('bar', 'number')),
      ),
      optional(word('chord'), slot('chord-number', 'number')),
      either(
        sequence(word('is'), slot('chord', 'chord')),
        sequence(word('tones'), many(slot('tone', 'tone'))),
        sequence(word('open'), string, word('adds'), slot('tone', 'tone')),
      ),
    ),
  ),
  optional(word('in'), slot('section', 'name')),
);

const claim: LineForm = {
  label: 'claim',
  keyword: 'claim',
  often: true,
  pattern: claimPattern,
  says: 'A sentence about the lesson or one section (`in verse`) that must be true; if not, it is said what is. `throughout`: in every bar with a chord and a shape.',
  example: 'claim open 3 throughout',
};

export const statements: readonly StatementForm[] = [
  {
    keyword: 'lesson',
    head: slot('title', 'title'),
    body: [
      {
        label: 'by',
        keyword: 'by',
        pattern: slot('author', 'title'),
        says: 'Who wrote it.',
        example: 'by "A teacher"',
      },
      level,
      {
        label: 'focus',
        keyword: 'focus',
        pattern: list(slot('focus', 'title')),
        says: 'What a student learns by it.',
        example: 'focus "a ringing open string"',
      },
      {
        label: 'minutes',
        keyword: 'minutes',
        pattern: slot('minutes', 'number'),
        says: 'How long the lesson takes.',
        example: 'minutes 15',
      },
      {
        label: 'licence',
        keyword: 'licence',
        pattern: slot('licence', 'title'),
        says: 'The terms under which it may be shared.',
        example: 'licence "CC-BY-4.0"',
      },
      {
        label: 'needs',
        keyword: 'needs',
        pattern: list(slot('path', 'path')),
        says: 'What a student plays first.',
        example: 'needs "first-triads.lesson"',
      },
    ],
    says: 'The title of the lesson, and what a student should know of it beforehand.',
    example: 'lesson "Harbour lamps"\n  level 3\n  minutes 15',
  },
  {
    keyword: 'course',
    head: slot('title', 'title'),
    body: [
      {
        label: 'starts',
        keyword: 'starts',
        pattern: slot('date', 'date'),
        says: 'The first day.',
        example: 'starts 2030-01-07',
      },
      {
        label: 'day',
        keyword: 'day',
        often: true,
        pattern: sequence(slot('day', 'number'), slot('path', 'path')),
        says: 'The lesson of one day.',
        example: 'day 1 "harbour-lamps.lesson"',
      },
    ],
    says: 'Lessons in the order of days.',
    example: 'course "A week of lamps"\n  starts 2030-01-07\n  day 1 "harbour-lamps.lesson"',
  },
  {
    keyword: 'library',
    head: slot('title', 'title'),
    body: [
      {
        label: 'requires',
        keyword: 'requires',
        pattern: many(choice('required', 'by', 'level', 'focus', 'minutes', 'licence', 'needs')),
        says: 'What each lesson of the library must state.',
        example: 'requires licence level focus',
      },
    ],
    says: 'Marks the root of a library of lessons and what each of them must state.',
    example: 'library "Evening lessons"\n  requires licence level focus',
  },
  ...settings.map((line): StatementForm => ({
    keyword: line.keyword!,
    head: line.pattern,
    body: [],
    says: line.says,
    example: line.example,
  })),
  {
    keyword: 'use',
    head: either(slot('path', 'path'), sequence(list(slot('name', 'name')), word('from'), slot('path', 'path'))),
    body: [],
    says: 'Shares shapes, grips, progressions, cells, contours, melodies and tabs of another file.',
    example: 'use lamp, ripple from "parts.lesson"',
  },
  {
    keyword: 'shape',
    head: slot('name', 'name'),
    body: [
      {
        label: 'strings',
        keyword: 'strings',
        pattern: many(string),
        says: 'The strings that carry the chord; 1 is the highest.',
        example: 'strings 4 2 1',
      },
      {
        label: 'tones',
        keyword: 'tones',
        pattern: many(slot('tone', 'tone or any')),
        says: 'What each of these strings sounds, in the same order; `any` leaves one free.',
        example: 'tones 3 R 5',
      },
      {
        label: 'spacing',
        keyword: 'spacing',
        pattern: choice('spacing', 'close', 'spread'),
        says: 'Instead of `tones`: the triad’s notes within an octave, or wider.',
        example: 'spacing close',
      },
      {
        label: 'bass',
        keyword: 'bass',
        pattern: slot('tone', 'tone'),
        says: 'The lowest sounding tone.',
        example: 'bass R',
      },
      {
        label: 'top',
        keyword: 'top',
        pattern: slot('tone', 'tone'),
        says: 'The highest sounding tone.',
        example: 'top 3',
      },
      {
        label: 'open',
        keyword: 'open',
        pattern: either(word('any', 'any'), many(string)),
        says: 'Strings that ring open whatever the chord; `any` lets the search choose.',
        example: 'open 3',
      },
      {
        label: 'colour',
        keyword: 'colour',
        pattern: many(slot('tone', 'tone')),
        says: 'Tones that open strings may add.',
        example: 'colour 9 11 13',
      },
      {
        label: 'avoid',
        keyword: 'avoid',
        pattern: many(slot('tone', 'tone')),
        says: 'Tones that open strings may not add.',
        example: 'avoid b9',
      },
      {
        label: 'frets',
        keyword: 'frets',
        pattern: fretRange,
        says: 'Where on the neck the shape may lie.',
        example: 'frets 1 to 12',
      },
      {
        label: 'reach',
        keyword: 'reach',
        pattern: slot('fret', 'fret'),
        says: 'The highest fret pressed less the lowest, at most.',
        example: 'reach 2',
      },
      {
        label: 'barre',
        keyword: 'barre',
        pattern: word('no', 'no'),
        says: 'Voicings without a barre only.',
        example: 'barre no',
      },
    ],
    says: 'A rule that says which voicings of a chord will do.',
    example: 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n  frets 1 to 12\n  reach 2',
  },
  {
    keyword: 'grip',
    head: sequence(slot('chord', 'chord'), slot('frets', 'frets')),
    body: [
      {
        label: 'fingers',
        keyword: 'fingers',
        pattern: slot('fingers', 'frets'),
        says: 'The fingers, from the lowest string up; 0 is open.',
        example: 'fingers x01230',
      },
      {
        label: 'bass',
        keyword: 'bass',
        pattern: many(string),
        says: 'The strings that `p(bass)` and `p(alt)` mean.',
        example: 'bass 5 6',
      },
    ],
    says: 'A fixed voicing for that chord in this lesson.',
    example: 'grip A x02220\n  fingers x01230',
  },
  {
    keyword: 'progression',
    head: sequence(slot('name', 'name'), optional(word('in'), key)),
    body: [
      {
        label: 'bars',
        pattern: many(
          either(
            barLine,
            word('/', 'beat'),
            group('again', word('%', 'repeat'), againModifiers),
            word('N.C.', 'no-chord'),
            group('chord', slot('chord', 'chord'), chordModifiers),
          ),
        ),
        bars: true,
        says: 'Bars of chords: several in a bar share it evenly, `/` holds a chord one more beat, `%` repeats the bar before, `% with waves` in another picking.',
        example: 'G | D / A | Em at 5 | %',
      },
    ],
    says: 'A row of chords, in bars.',
    example: 'progression quay\n  G | D | Em | Am',
  },
  {
    keyword: 'cell',
    head: sequence(slot('name', 'name'), optional(word('in'), slot('meter', 'meter'))),
    body: [
      each,
      {
        label: 'picks',
        pattern: music('pluck'),
        bars: true,
        says: 'Plucks by finger and string (`p6 i3`), pinches (`p6+a1`), strokes (`down up roll mute`), `>` for an accent.',
        example: 'p4 i3 m2 i3 m2 i3',
      },
    ],
    says: 'A picking cell: what the right hand repeats.',
    example: 'cell ripple\n  each 1/8\n  p4 i3 m2 i3 m2 i3',
  },
  {
    keyword: 'contour',
    head: sequence(slot('name', 'name'), word('on'), either(string, choice('voice', 'top', 'bass'))),
    body: [
      each,
      {
        label: 'steps',
        keyword: 'from',
        bars: true,
        pattern: sequence(startTones(), colon, music('step')),
        says: 'The tone it starts on, and then scale steps counted from that start.',
        example: 'from 5: 0 -1 0',
      },
      {
        label: 'scale',
        keyword: 'scale',
        pattern: key,
        says: 'The scale that the steps follow, instead of the key’s.',
        example: 'scale E dorian',
      },
      {
        label: 'with',
        keyword: 'with',
        pattern: slot('finger', 'finger'),
        says: 'The finger that plucks it.',
        example: 'with a',
      },
    ],
    says: 'A melody as movement, worked out anew over every chord.',
    example: 'contour swell on 1\n  each 1/4\n  from 5: 0 -1 0',
  },
  {
    keyword: 'melody',
    head: sequence(slot('name', 'name'), optional(word('on'), string)),
    body: [
      each,
      {
        label: 'notes',
        pattern: music('sign', sequence(slot('string', 'string'), colon)),
        bars: true,
        says:
          'Frets, with the signs of a tab: `-` holds, `r` rests, `h3 p1 /7` start from the note before, `x` is a dead note, `(5)` a ghost, ' +
          '`<12>` a harmonic, `7b9` a bend, `5~` vibrato, `g5` a grace note. A fraction behind a note is its length, so a slide stands by ' +
          'itself: `5 /7`. `2:` changes the string until the next such sign; a bar ends at `|` and at the end of the line.',
        example: '7 8 5 7 | 2: 5 7 - 1: 3',
      },
    ],
    says: 'A melody as frets, on one string or wherever `2:` leads; its bars are played in the order written. Its first bar may be a pick-up.',
    example: 'melody landing on 1\n  each 1/4\n  7 8 5 7 | 5 3/4 r',
  },
  {
    keyword: 'tab',
    head: slot('name', 'name'),
    body: [
      each,
      {
        label: 'chords',
        keyword: 'chords',
        often: true,
        pattern: many(
          either(barLine, word('/', 'beat'), word('%', 'repeat'), word('N.C.', 'no-chord'), slot('chord', 'chord')),
        ),
        bars: true,
        says: 'The chords over the bars, as in a progression, from the first full bar on; a section with a progression of its own keeps that one’s.',
        example: 'chords G | C',
      },
      {
        label: 'pluck',
        keyword: 'pluck',
        often: true,
        pattern: many(either(barLine, slot('pluck', 'pluck row'))),
        bars: true,
        says: 'The plucking fingers, a step each: `p i m a c`, several together from the lowest string up as `p+a`, `-` where none plucks. `...` is the bar before.',
        example: 'pluck p i m a - -',
      },
      {
        label: 'fingers',
        keyword: 'fingers',
        often: true,
        pattern: many(either(barLine, slot('finger', 'finger row'))),
        bars: true,
        says: 'The fretting fingers, a step each: 1 to 4, 0 for an open string, several together from the lowest string up as `3+1`. `...` is the bar before.',
        example: 'fingers 3 1 4 - - -',
      },
      {
        label: 'palm',
        keyword: 'palm',
        often: true,
        pattern: many(either(barLine, slot('mute', 'palm row'))),
        bars: true,
        says: 'Where the palm mutes the strings: `*` at each step that it does, `-` at the others.',
        example: 'palm * * - -',
      },
      {
        label: 'row',
        pattern: sequence(string, many(either(barLine, slot('sign', 'tab sign')))),
        bars: true,
        says:
          'A string and what it plays, a sign a step: a fret; `-` for nothing new, so that what sounds rings on; `r` for silence; `x` a dead note, ' +
          '`(5)` a ghost, `<12>` a harmonic and `2<14>` one over fret 2; `h3` `p1` a hammer-on and a pull-off, `/7` `\\5` slides, also joined in ' +
          'one step as `1h3p1` and `5/7`; `7b9` a bend, `7b9r7` with release, `7pb9` bent before, `7b1/4` by a quarter tone; `5~` vibrato, `g5h7` a grace ' +
          'note, `s3` a slap, `t12` a tap, `>` behind it an accent; `...` is the bar before.',
        example: '1 | 0 - 3 - <12> - |',
      },
    ],
    says: 'Bars written out string by string, for all that no rule makes. A string left out is not touched; a string that comes again begins the next system.',
    example: 'tab coda\n  each 1/8\n  1 | 0 - 3 - <12> - |\n  6 | 3 - - - -    - |',
  },
  {
    keyword: 'section',
    head: sequence(slot('name', 'name'), optional(slot('title', 'title'))),
    body: [
      sectionPart('progression', 'The chords.'),
      sectionPart('shape', 'The rule for their voicings.'),
      sectionPart('cell', 'The picking.'),
      sectionPart('contour', 'The melody as movement.'),
      sectionPart('melody', 'The melody as frets.'),
      sectionPart('tab', 'Bars that are written out.'),
      {
        label: 'times',
        keyword: 'times',
        pattern: slot('times', 'number'),
        says: 'How often it is played, up to 20 times; the pick-up sounds the first time alone.',
        example: 'times 2',
      },
      {
        label: 'ending',
        keyword: 'ending',
        often: true,
        pattern: sequence(slot('ending', 'number'), slot('name', 'name')),
        says: 'The bars that end one of the times: a progression, a melody or a tab, or those of one name together. A time without its own takes the ending before.',
        example: 'ending 1 back',
      },
      {
        label: 'pickup',
        keyword: 'pickup',
        pattern: slot('length', 'length'),
        says: 'The length of the pick-up, which is bar 0: the first bar of the melody or the tab fills it.',
        example: 'pickup 1/4',
      },
      {
        label: 'words',
        keyword: 'words',
        often: true,
        pattern: many(either(barLine, mark('comma'), mark('colon'), slot('syllable', 'syllable'))),
        bars: true,
        says:
          'The words, a syllable a melody note: a hyphen behind one joins it to the next, a `-` alone holds it over another note, `|` goes on ' +
          'to the next bar. Several lines go on one after another.',
        example: 'words low- tide | lan- terns',
      },
      setting('key'),
      setting('meter'),
      setting('tempo'),
    ],
    says: 'Puts a progression, a shape, a cell and a melody together.',
    example: 'section verse "The quay at dusk"\n  progression quay\n  shape lamp\n  cell ripple\n  contour swell',
  },
  {
    keyword: 'form',
    head: many(slot('section', 'name')),
    body: [],
    says: 'The order in which the sections are played.',
    example: 'form verse verse coda',
  },
  { keyword: 'claim', head: claimPattern, body: [], says: claim.says, example: claim.example },
  {
    keyword: 'text',
    head: nothing,
    body: [],
    prose: true,
    says:
      'Prose for the student, in Markdown: headings, emphasis, lists, tables, links. What stands in braces is a fact that is worked ' +
      'out from the music, such as `{verse.1.chord}`, `{verse.2.sounds}`, `{verse.2.string4.interval}` or `{lesson.tempo}`, so that ' +
      'the words cannot go stale; `\\{` is a plain brace. HTML is shown as it is written, pictures as their description.',
    example: 'text\n  Over {verse.1.chord} the open string is the {verse.1.string3.interval}.',
  },
  {
    keyword: 'note',
    head: nothing,
    body: [],
    prose: true,
    says: 'Prose for the teacher alone, written like `text`; it is left out of what a student gets.',
    example: 'note\n  Play it once before you explain it.',
  },
  {
    keyword: 'show',
    head: sequence(
      slot('section', 'name'),
      anyOrder(barRange, sequence(word('as'), choice('view', 'tab', 'diagrams', 'neck'))),
    ),
    body: [],
    says:
      'Sets music between the prose, in the order of the text: a section or some of its bars, as `tab`, as `diagrams` of its shapes, ' +
      'or as `neck`, each shape on the fingerboard; without `as`, tab and diagrams. A lesson without any `show` shows all its music ' +
      'after its first `text`.',
    example: 'show verse bars 1 to 4 as tab',
  },
  {
    keyword: 'variant',
    head: sequence(slot('name', 'name'), optional(slot('title', 'title'))),
    body: [
      ...settings,
      level,
      ...PART_KINDS.map((kind): LineForm => ({
        label: kind,
        keyword: kind,
        often: true,
        pattern: sequence(slot('name', 'name'), word('instead'), word('of'), slot('instead', 'name')),
        says: `Another ${kind} wherever the lesson calls for this one by name.`,
        example: `${kind} ${INSTEAD[kind]}`,
      })),
      claim,
      step,
    ],
    says: 'The same lesson with other settings, level or parts, checked and exported like the lesson itself; what is wrong in it is said once, with its name. A new `key` moves chords, grips, pins, melodies, tabs and the lesson’s claims by the interval between the two tonics; a `capo` alone leaves every fret where it is and changes what sounds. What the lesson claims must be true of its variants too, unless a variant claims something of its own about the same thing; steps of its own take the place of the lesson’s practice.',
    example: 'variant gentle "Gentler, sounding in B flat"\n  capo 3\n  tempo 60',
  },
  {
    keyword: 'practice',
    head: nothing,
    body: [step],
    says: 'The plan of practice, step by step in the order in which a student takes them.',
    example: 'practice\n  step "Shapes only" at 60 for 3 minutes',
  },
];

/** `from 5 or R`: the tone it starts on and those taken instead. */
function startTones(): Pattern {
  return sequence(slot('start', 'tone'), many(sequence(word('or'), slot('start', 'tone')), 0));
}

const byKeyword = new Map(statements.map((form) => [form.keyword, form]));

export const statementNamed = (keyword: string): StatementForm | undefined => byKeyword.get(keyword);
