/** `verse bar 2 tones 3 11 R 5`: what the strings sound there, from the lowest note to the highest. */
import { quoted } from '../words.ts';
import { barWords } from './is.ts';
import type { Predicate, Said } from './judgement.ts';
import { degreeNamed, isJudged, isTone, notesNamed, soundingAt, soundingIn, type Sounding } from './sounding.ts';
import { barsOn, chordNamed, placeNamed, untrue, type Stage } from './stage.ts';

export const tones: Predicate<Said<'tones'>> = {
  leads: true,
  judge: (says, stage) => {
    const sounding = soundingAt(stage, says);
    if (isJudged(sounding)) return sounding;
    const { notes, chord } = sounding;
    const same =
      notes.length === says.tones.length &&
      notes.every(({ pitch }, at) => isTone(stage, sounding, chord, says.tones[at], pitch));
    if (same) return { holds: true };
    const right = tonesOf(sounding, stage);
    const where = placeNamed(stage, sounding);
    const truth = `from the lowest note, ${where} sounds ${right} of ${quoted(sounding.plan.written)}`;
    return untrue([sounding], { truth, repair: { tones: right } });
  },
  why: (says, stage) => {
    const sounding = soundingAt(stage, says);
    return isJudged(sounding)
      ? ''
      : `From the lowest note, ${chordNamed(stage, sounding)} sounds ${notesNamed(sounding)}.`;
  },
  truths: (stage) =>
    soundingIn(barsOn(stage)).map((sounding) => ({
      text: `${barWords(sounding)} tones ${tonesOf(sounding, stage)}`,
      detail: `${notesNamed(sounding)} of ${sounding.plan.written}`,
    })),
};

const tonesOf = (sounding: Sounding, stage: Stage): string =>
  sounding.notes.map(({ pitch }) => degreeNamed(stage, sounding, sounding.chord, pitch)).join(' ');
