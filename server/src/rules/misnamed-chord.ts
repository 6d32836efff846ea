/** A symbol that is untrue of what sounds. */
import { intervalWord } from '../theory/interval.ts';
import { formatNoteName } from '../theory/note.ts';
import type { Edit } from '../util/finding.ts';
import type { Context, Found, Rule } from './rule.ts';
import { isWrittenOut, once, type PlacedChord } from './shared/chords.ts';
import { fixesAllTones, misnamedChords, type Misnamed } from './shared/naming.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'misnamed-chord',
  severity: 'warning',
  topic: 'shapes',
  title: 'A symbol that does not say what sounds',
  why: 'A symbol may leave colours unsaid and a fifth may be missing, but a third or a seventh that is named must sound, no other may sound against it, and a slash bass must be the lowest note. A sixth or an added ninth says that there is no seventh. Otherwise whoever plays along from the symbols plays another chord. Where a shape leaves the tone out by design, as a power chord does its third, it is only a hint.',
  bad: `progression quay
  C as x-3-5-5-4-x

section verse
  progression quay
`,
  good: `progression quay
  Cm as x-3-5-5-4-x

section verse
  progression quay
`,
  check: (context) => {
    const wrong = misnamedChords(context).filter(({ wrong: { missing, contradicted }, shapeRule, wrong }) => {
      // A bass that the shape's own tones contradict has a page of its own.
      return missing || contradicted || (wrong.bass && !fixesAllTones(shapeRule));
    });
    const rights = new Map<string, string | undefined>();
    return once(
      wrong.map((one) => {
        const message = messageFor(one);
        rights.set(message, one.right);
        const byDesign = one.wrong.missing && !one.wrong.bass && fixesAllTones(one.shapeRule);
        return { chord: one, message, ...(byDesign && { severity: 'hint' as const }) };
      }),
      (first, all) => ({ fixes: fixesFor(rights.get(first.message), all, context) }),
    );
  },
};

function messageFor({ plan, wrong, right }: Misnamed): string {
  const symbol = quoted(plan.written);
  const instead = right ? `it sounds ${quoted(right)}.` : 'change the symbol or the frets.';
  const { missing, contradicted, bass } = wrong;
  if (contradicted) {
    const { degree, name, instead: own } = contradicted;
    const against = own ? ` against its ${intervalWord(own.degree)} ${formatNoteName(own.name)}` : '';
    return `${symbol} does not say what sounds: ${formatNoteName(name)}, a ${intervalWord(degree)}${against}; ${instead}`;
  }
  if (missing) {
    const tone = `${intervalWord(missing.degree)}, ${formatNoteName(missing.name)}`;
    return `Nothing sounds the ${tone}, of ${symbol}; ${instead}`;
  }
  return `The lowest note under ${symbol} is ${formatNoteName(bass!)}, not the bass that it names; ${instead}`;
}

/** The true name at every place, and at the grip where one is kept under the symbol. */
function fixesFor(right: string | undefined, all: readonly PlacedChord[], context: Context): Found['fixes'] {
  if (!right) return [];
  const edits = new Map<number, Edit>();
  for (const chord of all) {
    const { place, plan } = chord;
    if (!isWrittenOut(chord, context.text) || place.modifiers.over) continue;
    edits.set(place.symbolSpan.start, { span: place.symbolSpan, text: right });
    const grip = plan.rule === undefined && context.lesson.grips.find((one) => one.frets === plan.frets);
    if (grip) edits.set(grip.span.start, { span: grip.span, text: right });
  }
  if (edits.size === 0) return [];
  return [{ title: `Write ${quoted(right)}`, edits: [...edits.values()].sort((a, b) => a.span.start - b.span.start) }];
}
