/** What the reference says of a statement beyond its line: the longer rules, in Markdown. The table of statements says the rest. */

/** Before all statements: what holds everywhere. */
export const LANGUAGE_NOTES: readonly string[] = [
  'A lesson is a text in a file that ends in `.lesson`. A statement starts in the first column with its keyword; the indented lines under it are its body. `;` starts a comment, at the start of a line or behind a blank. `; allow CODE` at the end of a line, or alone on the line before, silences a finding there.',
  'A name of your own is a letter followed by letters, digits and hyphens. A section and its progression may share a name; two cells may not. A title stands in double quotes; `\\"` and `\\\\` are its escapes.',
  'Strings are numbered as players number them: 1 is the highest. A list of frets runs from the lowest string to the highest, `x-7-9-9-0-0`; where every fret is one digit the hyphens may go, `x79900`. `x` is silent, `0` open.',
  'Tones are degrees of the chord: `R 2 3 4 5 6 7 9 11 13` follow the chord (`3` is the minor third over `Am`, the suspended tone over `Dsus4`), and what the chord does not name comes from the key. With an accidental they are absolute: `b3`, `#11`.',
  'Lengths are fractions of a whole note: `1/4`, `3/8`. A fraction behind a note, pluck or stroke gives that one its length: `p6 1/4 i3 m2`. `each 1/8` sets the usual length; `triplet(a b c)` plays three in the time of two. `-` is always *nothing new: what sounds rings on*; `r` is a rest.',
  'In the lines below, words in capitals stand for what you write, square brackets for what may be left out, and dots for more of the same. *In bars* means that bar lines `|` may cut the line; the end of a line ends a bar too.',
];

export const STATEMENT_NOTES: Readonly<Record<string, readonly string[]>> = {
  tuning: [
    'Names are `standard`, `drop-d`, `double-drop-d`, `dadgad`, `open-g`, `open-d`, `half-step-down`, and more that completion offers; `ukulele`, `baritone`, `bass` and `seven-string` are instruments. From 3 to 12 strings may be written as notes, low to high: `tuning D2 A2 D3 G3 A3 D4`.',
  ],
  capo: [
    'Frets are counted from the capo, on strings that a partial capo leaves free from the nut, and symbols name the shapes; what sounds is shown beside. A variant may say `no capo`.',
  ],
  tempo: [
    'The number counts the beat of the meter, a dotted quarter in 6/8. `tempo 3/8 = 60` says in full what is counted.',
  ],
  swing: ['Two of these lengths in a row are played long and short, two to one. Triplets are left alone.'],
  key: [
    'Any mode has its name here: `major`, `minor`, `dorian`, `mixolydian`, `harmonic minor` and so on. In minor keys numerals count from the natural minor scale.',
  ],
  use: [
    'Shapes, grips, progressions, cells, contours, melodies and tabs are shared so. The path is relative to this file, and stays inside the library or the workspace. `use lamp from` brings every part called `lamp`; without names, everything comes. What the lesson has itself goes before what a file brings. A file of parts needs no `lesson`.',
  ],
  library: [
    'Stands in `library.lesson`, in the uppermost folder of a library. It also marks how far a `use` may reach.',
  ],
  shape: [
    'Every string that is not named stays silent. For each chord all voicings are found that the rule allows, those that no hand can hold are dropped, and of the rest the row is taken that is easiest to play from chord to chord. `open-chords`, `barre-chords` and `power-chords` are built in; a section without a shape takes `open-chords`.',
  ],
  grip: [
    'In a section without a shape, the chord of that symbol is held so. `bass 5 6` says which strings `p(bass)` and `p(alt)` mean.',
  ],
  progression: [
    'Several chords in a bar share it evenly. A `/` holds the chord one more beat, and then the beats must fill the bar; `%` repeats the bar before (`% with waves` in another cell, `% held`, `% pushed`), `N.C.` is no chord. A chord is a symbol (`Am7`, `D/F#`, `C7(b9, #11)`) or a numeral (`vi`, `bVII`, `V7/V`).',
    'Behind a chord may stand, once each and in any order: `at 8`, the lowest fret pressed; `as power`, another shape, or `as x79900`, exactly these frets; `over D` or `over 3`, the bass; `in E minor`, the scale that melodies over it follow; `with thumb-five`, another cell; `held`, struck once and left ringing; `pushed`, an eighth early.',
  ],
  cell: [
    '`p6` is the thumb on string 6; `p i m a c` are thumb, index, middle, ring and little finger of the plucking hand. `p(bass)`, `p(alt)` and `a(top)` aim at the lowest, the second lowest and the highest sounding string. `p6+a1` is a pinch, and `>` behind a pluck accents it. `down`, `up`, `roll`, `mute` and `down(4 to 1)` are strokes.',
    'A cell that is shorter than the bar repeats if it divides it; a longer one runs on from bar to bar and starts again when it is through. Where a melody sounds on a string that the cell plucks, the melody has it.',
  ],
  contour: [
    '`from 5 or R` is the tone of the chord that it starts on; what follows `or` is taken where the chord has no such tone or the hand cannot reach it. Behind the colon stand steps **counted from that start**: `0` the start itself, `+1` one scale step above, `-1` one below, `+1#` and `+1b` bent by a semitone. A bare tone, `3`, goes to the nearest such tone.',
    'The steps follow the key (or the chord’s `in`, or the contour’s own `scale`), the chord’s own tones in place of the scale’s. Without an `each` line the notes take the cell’s plucks of that string in order. It starts anew with every chord, and with every bar of a longer one. Where the start lies in several octaves, the open string is taken, or else the one nearest to the shape, as long as the hand has the other notes from there.',
  ],
  melody: [
    'Frets on the string that `on` names; `2:` before a note changes the string until the next such sign. Lengths stand behind the notes. The signs are those of a `tab`; slides are written apart, `5 /7`, since `1/4` is a length here.',
  ],
  tab: [
    'One line a string, one sign a step of `each`, bars between `|`. Strings left out are not touched; a string that comes again begins the next system. `chords`, `pluck`, `fingers` and `palm` are rows beside the strings of their system, and `...` in a row means *as in the bar before*.',
    [
      '| sign | what it is |',
      '| --- | --- |',
      '| `7` · `-` · `r` | a fret · nothing new, what sounds rings on · silence |',
      '| `x` · `(5)` · `5>` | a dead note · a ghost note · an accent |',
      '| `<12>` · `2<14>` | a harmonic · one over a pressed fret: 2 pressed, 14 touched |',
      '| `h3` · `p1` · `1h3p1` | hammer-on · pull-off · joined within one step |',
      '| `/7` · `\\5` · `5/7` | a slide up · down · joined within one step |',
      '| `7b9` · `7b9r7` · `7pb9` · `7b1/4` | a bend to the pitch of fret 9 · let down again · bent before it is plucked · by a quarter tone |',
      '| `5~` | vibrato |',
      '| `g5` · `g5h7` | a grace note, which takes no time · joined to its note |',
      '| `s3` · `t12` | slapped with the thumb · tapped |',
      '| `palm * * - -` | a row of steps that are palm muted |',
    ].join('\n'),
  ],
  section: [
    'A section calls for its parts by name, each for the whole of it or for `bars 1 to 4` or `at bar 8`; what has no bars fills the rest. A tab gives every note of its bars, whatever shape and cell say. Without a progression the bars come from the melody or the tab.',
    '`times 2` plays it twice, and `ending 1 NAME` and `ending 2 NAME` end the times: the progression, the melody and the tab of that name together, in bars that are counted on from the section’s own. `pickup 1/4` makes the first bar of melody or tab bar 0, and the last bar may be shorter by it. `words` have a syllable a melody note: `-` behind a syllable joins it to the next. Further lines of words go on with the next notes; a second verse is a section of its own, with the same parts and other words.',
  ],
  claim: [
    'A claim that does not hold is an error, which says what is true instead and points to the bar. Bars are counted from 1 in each section as written; where there is one section its name may be left out. `is` compares root, bass and intervals, and a missing fifth is no matter. `tones` are named from the lowest sounding one up. `throughout` speaks of bars that have a chord and a shape; `reach` of the shapes held, from the lowest fret pressed to the highest.',
  ],
  text: [
    'Markdown: headings, lists, *emphasis*, links. What stands in braces is computed, so that prose cannot go stale: `{verse.3.chord}` is the symbol in bar 3, `{verse.7.2.sounds}` what the second chord of bar 7 sounds.',
    [
      '| fact | what it says |',
      '| --- | --- |',
      '| `chord` · `sounds` | the symbol as written · the name of what sounds |',
      '| `tones` · `notes` · `frets` · `fingers` | of the voicing, from the lowest string up |',
      '| `colour` · `melody` · `reach` | what the open strings add · the melody’s notes · frets from lowest to highest |',
      '| `string4.interval` · `string4.degree` · `string4.note` | what that string sounds: “ninth”, 9, the note |',
      '| `{verse.bars}` | how many bars the section has |',
      '| `{lesson.title}` `{lesson.key}` `{lesson.soundingKey}` `{lesson.tempo}` `{lesson.capo}` | of the lesson |',
    ].join('\n'),
    'A fact that does not exist is an error in the prose. `\\{` is a plain brace.',
  ],
  show: ['A lesson without any `show` shows everything after its first text.'],
  variant: [
    'Any setting may be another, and any part may stand instead of one of the lesson’s. A new `key` moves symbols, grips, pins, melodies and tabs along; numerals follow by themselves. A variant is checked like the lesson itself, and each finding names it.',
  ],
  practice: [
    'A ladder, `from 60 to 84 by 6`, ends on its last tempo. The minutes of all steps are held against the lesson’s.',
  ],
};
