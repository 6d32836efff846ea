/** A chord whose root or bass is spelled otherwise than its key or its chord spells the note. */
import { parseChord, type Chord } from '../theory/chord.ts';
import { formatKey } from '../theory/key.ts';
import { formatNoteName, parseNoteName, sameName, sameSound, type NoteName } from '../theory/note.ts';
import type { Rule } from './rule.ts';
import { isWrittenOut, once, type PlacedChord } from './shared/chords.ts';
import { replaceWith } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'note-against-key',
  severity: 'hint',
  topic: 'music',
  title: 'A note spelled against its key',
  why: 'A# and Bb are one fret, but in F major only Bb makes sense: the scale has one note on each letter, and whoever reads the chord wants to see its place in the key. So with a slash bass: the third of D is F#, never Gb.',
  sure: true,
  bad: `key F major

progression quay
  F | A#

section verse
  progression quay
`,
  good: `key F major

progression quay
  F | Bb

section verse
  progression quay
`,
  check: (context) =>
    once(
      context.chords.flatMap((chord) => {
        const { plan, place, section } = chord;
        if (!plan.chord || !isWrittenOut(chord, context.text)) return [];
        const saysKey = context.lesson.settingSpans.key ?? section.lines.key;
        const found = (saysKey && rootAgainstKey(chord, plan.chord)) ?? bassAgainstChord(chord, plan.chord);
        return found
          ? {
              chord,
              span: place.symbolSpan,
              message: found.message,
              fixes: [replaceWith(place.symbolSpan, found.right)],
            }
          : [];
      }),
    ),
};

interface Respelling {
  readonly message: string;
  readonly right: string;
}

/** Written symbols alone: a numeral spells itself. */
const SYMBOL = /^([A-G][#b♯♭♮]*)(.*?)(?:\/([A-G][#b♯♭♮]*))?$/su;

function rootAgainstKey({ plan, section }: PlacedChord, chord: Chord): Respelling | undefined {
  const split = SYMBOL.exec(plan.written);
  const root = split && parseNoteName(split[1]);
  if (!split || !root || root.accidental === 0 || !sameName(root, chord.root)) return undefined;
  const { key } = section.plan;
  const own = key.scale.find((note) => sameSound(note, root));
  if (!own || sameName(own, root)) return undefined;
  const right = checked(plan.written.replace(split[1], formatNoteName(own)));
  const message = `${formatNoteName(root)} is ${formatNoteName(own)} in ${formatKey(key)}; spell it so, and its place in the key can be seen.`;
  return right === undefined ? undefined : { message, right };
}

function bassAgainstChord({ plan }: PlacedChord, chord: Chord): Respelling | undefined {
  const split = SYMBOL.exec(plan.written);
  const bass = split?.[3] ? parseNoteName(split[3]) : undefined;
  if (!split || !bass) return undefined;
  const own: NoteName | undefined = chord.tones.find((tone) => sameSound(tone.name, bass))?.name;
  if (!own || sameName(own, bass)) return undefined;
  const right = checked(`${split[1]}${split[2]}/${formatNoteName(own)}`);
  const message = `${formatNoteName(bass)} is ${formatNoteName(own)} in this chord; spell it so, and it shows as one of its tones.`;
  return right === undefined ? undefined : { message, right };
}

const checked = (symbol: string): string | undefined => (parseChord(symbol) ? symbol : undefined);
