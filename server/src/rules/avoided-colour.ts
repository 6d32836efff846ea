/** An open string that a shape wants to ring, and whose tone it will not have. */
import { degreeOver } from '../theory/chord.ts';
import { intervalWord } from '../theory/interval.ts';
import { formatNoteName, usualName } from '../theory/note.ts';
import { openMidi } from '../fretboard/instrument.ts';
import { shapeMidiAt } from '../fretboard/shape-pitch.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { Context, Rule } from './rule.ts';
import { once, ruleOf, shapeOf, type PlacedChord } from './shared/chords.ts';
import { hasPartialCapo } from './shared/seen.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'avoided-colour',
  severity: 'error',
  topic: 'shapes',
  title: 'An open string with a colour that is not wanted',
  why: 'The shape lets a string ring open whatever the chord, and over this chord it adds a tone that the shape itself forbids, by `avoid` or because `colour` does not name it. Use another shape for this chord, allow the colour, or write `open any`, so that the string rings only where it may.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3
  avoid 11

progression quay
  D

section verse
  progression quay
  shape lamp
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5
  open any
  avoid 11

progression quay
  D

section verse
  progression quay
  shape lamp
`,
  check: (context) =>
    once(
      context.chords.flatMap((chord) => {
        const { none } = chord.played;
        const shapeRule = ruleOf(chord);
        if (!none || !shapeRule || shapeRule.open === 'any' || shapeRule.open.length === 0) return [];
        if (none.line !== 'avoid' && none.line !== 'colour') return [];
        const shape = shapeOf(context, shapeRule);
        const line = shape?.lines[none.line];
        const open = shape?.lines.open;
        const said = line ? context.text.slice(line.start, line.end) : none.line;
        const culprits = culpritsOf(chord, shapeRule.open, context);
        const near = none.nearest ? ` without that line it is ${formatFretList(none.nearest)}.` : '';
        return {
          chord,
          message: `Over ${quoted(chord.plan.written)} ${culprits} which ${quoted(said)} rules out;${near || ' loosen one of the two.'}`,
          related: [
            ...(open ? [{ span: open, message: 'The string is to ring open whatever the chord.' }] : []),
            ...(line ? [{ span: line, message: 'This line rules its tone out.' }] : []),
          ],
        };
      }),
    ),
};

/** `open string 3 sounds G, the eleventh,`: those whose tone is not the chord's own. */
function culpritsOf({ plan }: PlacedChord, strings: readonly number[], { lesson }: Context): string {
  const { instrument, key } = lesson.settings;
  const colours = strings.flatMap((string) => {
    if (!plan.chord) return [];
    const { degree, name, role } = degreeOver(plan.chord, shapeMidiAt(instrument, string, 0) % 12, key);
    if (role !== 'colour') return [];
    // Beside a partial capo the note is named as it sounds, since it is in nobody's shape.
    const sounds = hasPartialCapo(instrument) ? usualName(openMidi(instrument, string) % 12) : name;
    return `open string ${string} sounds ${formatNoteName(sounds)}, the ${intervalWord(degree)},`;
  });
  return colours[0] ?? 'an open string sounds a tone';
}
