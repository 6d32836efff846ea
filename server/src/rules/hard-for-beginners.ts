/** A grip that asks much of somebody who has just begun. */
import type { FretList } from '../fretboard/frets.ts';
import type { Fingering } from '../hand/fingering.ts';
import type { Rule } from './rule.ts';
import { once, voiced } from './shared/chords.ts';
import { isForBeginners } from './shared/level.ts';
import { fingerName, quoted } from './shared/words.ts';

/** On the scale of 0 to 10; set by judgement: F as a small barre lies below, the full one above. */
const HARD = 3.5;
const LONGEST_BARRE = 2;

export const rule: Rule = {
  code: 'hard-for-beginners',
  severity: 'warning',
  topic: 'hands',
  title: 'A hard grip for a beginner',
  why: 'A lesson of level 1 or 2 is for a hand that has hardly any strength and no calluses. A barre over more than two strings, or a grip of more than middling difficulty, ends the fun there; the same chord nearly always has an easier voicing.',
  care: true,
  bad: `lesson "First steps"
  level 1

progression quay
  F as 1-3-3-2-1-1

section verse
  progression quay
`,
  good: `lesson "First steps"
  level 1

progression quay
  F as x-x-3-2-1-1

section verse
  progression quay
`,
  check(context) {
    if (!isForBeginners(context)) return [];
    const { level } = context.lesson.settings;
    return once(
      voiced(context).flatMap((chord) => {
        const { verdict, fingering, frets } = chord.voicing;
        if (verdict.zone !== 'comfortable') return [];
        const barre = fingering && longBarre(fingering, frets);
        const why = barre ?? (verdict.difficulty > HARD ? `its difficulty is ${verdict.difficulty} of 10` : undefined);
        if (!why) return [];
        const message = `${quoted(chord.plan.written)} is hard at level ${level}: ${why}; take an easier voicing, or raise the level.`;
        return { chord, message };
      }),
    );
  },
};

function longBarre({ fingers }: Fingering, frets: FretList): string | undefined {
  for (const finger of [1, 2, 3, 4]) {
    const first = fingers.indexOf(finger);
    const last = fingers.lastIndexOf(finger);
    if (first >= 0 && last - first >= LONGEST_BARRE)
      return `the ${fingerName(finger)} bars ${last - first + 1} strings at fret ${frets[first]}`;
  }
  return undefined;
}
