/** A slash bass that the shape's own tones do not put lowest. */
import { formatNoteName, sameSound } from '../theory/note.ts';
import type { Rule } from './rule.ts';
import { isWrittenOut, once, shapeOf } from './shared/chords.ts';
import { replaceWith } from './shared/fixes.ts';
import { fixesAllTones, misnamedChords, type Misnamed } from './shared/naming.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bass-against-shape',
  severity: 'warning',
  topic: 'shapes',
  title: 'A bass that the shape does not have',
  why: 'The shape says what each string sounds, and so what lies lowest; a slash in the symbol cannot change that. Either the chord is meant without it, or this chord needs another shape.',
  bad: `shape lamp
  strings 4 3 2
  tones R 3 5

progression quay
  D/F#

section verse
  progression quay
  shape lamp
`,
  good: `shape lamp
  strings 4 3 2
  tones R 3 5

progression quay
  D

section verse
  progression quay
  shape lamp
`,
  check: (context) =>
    once(
      misnamedChords(context).flatMap((one) => {
        const { wrong, shapeRule, plan, place, chord } = one;
        if (!wrong.bass || wrong.missing || wrong.contradicted || !shapeRule || !fixesAllTones(shapeRule)) return [];
        const lowest = formatNoteName(wrong.bass);
        const line = shapeOf(context, shapeRule)?.lines.tones;
        const wanted = chord.bass ? formatNoteName(chord.bass) : '';
        const span = place.modifiers.over ?? place.symbolSpan;
        const mend = isWrittenOut(one, context.text) ? withLowest(one) : undefined;
        return {
          chord: one,
          span,
          message: `${quoted(shapeRule.name)} puts ${lowest} lowest, not the ${wanted} of ${quoted(plan.written)}; drop the bass, or use another shape.`,
          related: line ? [{ span: line, message: 'These tones decide what lies lowest.' }] : [],
          fixes: mend ? [replaceWith(span, mend)] : [],
        };
      }),
    ),
};

/** The symbol, or its `over`, with the note that does lie lowest. */
function withLowest({ place, chord, plan, wrong }: Misnamed): string | undefined {
  if (!wrong.bass) return undefined;
  const lowest = formatNoteName(wrong.bass);
  if (place.modifiers.over) return `over ${lowest}`;
  const plain = plan.written.replace(/\s*\/\s*[A-G][#b♯♭♮]*$/u, '');
  return sameSound(wrong.bass, chord.root) ? plain : `${plain}/${lowest}`;
}
