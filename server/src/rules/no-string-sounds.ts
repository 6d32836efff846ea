/** Frets that leave every string silent. */
import type { FretList } from '../fretboard/frets.ts';
import type { Found, Rule } from './rule.ts';
import { isWrittenOut, once } from './shared/chords.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'no-string-sounds',
  severity: 'error',
  topic: 'shapes',
  title: 'Frets by which no string sounds',
  why: 'An x is a string that stays silent. With an x on every string there is nothing to play under the symbol, and whoever reads it waits for a chord. Where silence is meant, write N.C. for no chord.',
  bad: `progression quay
  G as x-x-x-x-x-x

section verse
  progression quay
`,
  good: `progression quay
  G as 3-2-0-0-0-3 | N.C.

section verse
  progression quay
`,
  check: ({ lesson, chords, text }): readonly Found[] => [
    ...lesson.grips
      .filter(({ frets }) => isSilent(frets))
      .map(({ fretsSpan, name }) => ({
        span: fretsSpan,
        message: `No string sounds in this grip of ${quoted(name)}; write a fret or a 0 for those that do.`,
      })),
    ...once(
      chords
        .filter(({ plan, place }) => place.modifiers.as && isSilent(plan.frets))
        .map((chord) => ({
          chord,
          message: `No string sounds under ${quoted(chord.plan.written)}; write a fret or a 0 for those that do, or ${quoted('N.C.')} for silence.`,
          fixes: isWrittenOut(chord, text) ? [replaceWith(chord.place.span, 'N.C.')] : [],
        })),
    ),
  ],
};

const isSilent = (frets: FretList | undefined): boolean => frets?.every((fret) => fret === null) ?? false;
