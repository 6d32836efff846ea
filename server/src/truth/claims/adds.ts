/** `verse bar 2 open 3 adds 11`: the open string sounds a tone there that no other string has. */
import { degreeOver } from '../../theory/chord.ts';
import { intervalWord } from '../../theory/interval.ts';
import { formatPitch, sameSound, semitone } from '../../theory/note.ts';
import { listed, quoted } from '../words.ts';
import { barWords } from './is.ts';
import type { Predicate, Said, Untrue } from './judgement.ts';
import { degreeNamed, isJudged, isTone, soundingAt, soundingIn, type Sounding, type SoundingNote } from './sounding.ts';
import { barsOn, chordNamed, placeNamed, untrue, type Stage } from './stage.ts';

export const adds: Predicate<Said<'adds'>> = {
  leads: true,
  judge: (says, stage) => {
    const sounding = soundingAt(stage, says);
    if (isJudged(sounding)) return sounding;
    const note = sounding.notes.find(({ string }) => string === says.string);
    if (note?.fret !== 0) {
      const state = note ? `is held at fret ${note.fret}` : 'is silent';
      return untrue([sounding], { truth: `string ${says.string} ${state} in ${placeNamed(stage, sounding)}` });
    }
    const adding = doublersOf(note, sounding).length === 0;
    if (adding && isTone(stage, sounding, sounding.chord, says.tone, note.pitch)) return { holds: true };
    return untrue([sounding], told(stage, sounding, note));
  },
  why: ({ string, ...place }, stage) => {
    const sounding = soundingAt(stage, place);
    const note = isJudged(sounding) ? undefined : sounding.notes.find((one) => one.string === string);
    if (isJudged(sounding) || !note) return '';
    return `Open, string ${string} is ${formatPitch(note.pitch)}, the ${wordFor(sounding, note)} of ${quoted(sounding.plan.written)}; no other string has it.`;
  },
  truths: (stage) =>
    soundingIn(barsOn(stage)).flatMap((sounding) =>
      sounding.notes
        .filter((note) => note.fret === 0 && doublersOf(note, sounding).length === 0)
        .map((note) => ({
          text: `${barWords(sounding)} open ${note.string} adds ${degreeNamed(stage, sounding, sounding.chord, note.pitch)}`,
          detail: `${formatPitch(note.pitch)}, the ${wordFor(sounding, note)} of ${sounding.plan.written}`,
        })),
    ),
};

/** Other strings that sound the same note in any octave. */
const doublersOf = (note: SoundingNote, { notes }: Sounding): readonly SoundingNote[] =>
  notes.filter((other) => other.string !== note.string && sameSound(other.pitch, note.pitch));

const wordFor = ({ chord }: Sounding, { pitch }: SoundingNote): string =>
  intervalWord(degreeOver(chord, semitone(pitch)).degree);

function told(stage: Stage, sounding: Sounding, note: SoundingNote): Pick<Untrue, 'truth' | 'repair'> {
  const doublers = doublersOf(note, sounding).map(({ string }) => `string ${string}`);
  const under = chordNamed(stage, sounding);
  if (doublers.length > 0) {
    const truth = `under ${under} the open string ${note.string} only doubles the ${wordFor(sounding, note)}, which ${listed(doublers)} has`;
    return { truth: doublers.length === 1 ? truth : truth.replace(/has$/, 'have') };
  }
  const right = degreeNamed(stage, sounding, sounding.chord, note.pitch);
  const truth = `under ${under} the open string ${note.string} adds ${formatPitch(note.pitch)}, the ${wordFor(sounding, note)}`;
  return { truth, repair: { tone: right } };
}
