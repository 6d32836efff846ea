/** `verse bar 2 is Dadd11/F#`: what sounds there has that root, that bass and those intervals; a missing fifth is no matter. */
import { bassOf, chordOf, degreeOver, parseChord, sameChord, type Chord } from '../../theory/chord.ts';
import { semitone } from '../../theory/note.ts';
import { listed, quoted } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { isJudged, namesOf, notesNamed, soundingAt, soundingIn, type Sounding } from './sounding.ts';
import { barsOn, placeNamed, untrue, type Stage } from './stage.ts';

/** More names of one chord are true, and of use to nobody. */
const MOST_NAMES = 2;

export const is: Predicate<Said<'is'>> = {
  leads: true,
  judge: (says, stage) => {
    const sounding = soundingAt(stage, says);
    if (isJudged(sounding)) return sounding;
    if (sounds(says.claimed, sounding, stage)) return { holds: true };
    const [right] = trueNames(sounding, stage);
    const name = right ?? namesOf(sounding, stage, sounding.section)[0];
    const truth = `${placeNamed(stage, sounding)} sounds ${quoted(name)}, from the lowest note ${notesNamed(sounding)}`;
    return untrue([sounding], right === undefined ? { truth } : { truth, repair: { chord: right } });
  },
  why: (says, stage) => {
    const sounding = soundingAt(stage, says);
    if (isJudged(sounding)) return '';
    const others = trueNames(sounding, stage).filter((name) => name !== says.symbol);
    const also = others.length === 0 ? '' : `, and is as truly called ${listed(others.map(quoted))}`;
    return `From the lowest note, ${placeNamed(stage, sounding)} sounds ${notesNamed(sounding)}${also}.`;
  },
  truths: (stage) =>
    soundingIn(barsOn(stage)).flatMap((sounding) => {
      const bar = barWords(sounding);
      const names = trueNames(sounding, stage).slice(0, MOST_NAMES);
      return names.map((name) => ({ text: `${bar} is ${name}`, detail: notesNamed(sounding) }));
    }),
};

/** `bar 2`, `bar 2 chord 1`. */
export const barWords = ({ bar, at }: Sounding): string =>
  bar.chords.length > 1 ? `bar ${bar.number} chord ${at + 1}` : `bar ${bar.number}`;

/** Names that are shown and would hold if they were claimed. */
const trueNames = (sounding: Sounding, stage: Stage): readonly string[] =>
  namesOf(sounding, stage, sounding.section).filter((name) => {
    const chord = parseChord(name);
    return chord !== undefined && sounds(chord, sounding, stage);
  });

function sounds(claimed: Chord, { notes }: Sounding, { lesson }: Stage): boolean {
  const sounding = [...new Set(notes.map(({ pitch }) => semitone(pitch)))];
  // One note is a note: with its fifth missing too, any power chord would be that.
  if (sounding.length < 2) return false;
  const over = sounding.map((pitchClass) => degreeOver(claimed, pitchClass));
  // Where the strings do not rise from low to high, no string is the bass.
  const { reentrant } = lesson.settings.instrument.tuning;
  const bass = reentrant ? bassOf(claimed) : over[0].name;
  const heard = chordOf(
    claimed.root,
    over.map(({ degree }) => degree),
    bass,
  );
  return sameChord(claimed, heard);
}
