/** A chord for which a shape has no voicing. */
import type { FretList } from '../fretboard/frets.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { ShapeDefinition, ShapeRule } from '../lesson/lesson.ts';
import type { NoVoicing } from '../realise/score.ts';
import type { Fix } from '../util/finding.ts';
import type { Context, Rule } from './rule.ts';
import { crowdedOut } from './shared/capo.ts';
import { isWrittenOut, once, ruleOf, shapeOf, type PlacedChord } from './shared/chords.ts';
import { deleteLines, insertAt, replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

/** Lines that only narrow the choice, so that without them there is one. */
const MAY_GO = ['spacing', 'bass', 'top', 'barre', 'colour', 'avoid'];

export const rule: Rule = {
  code: 'no-voicing',
  severity: 'error',
  topic: 'shapes',
  title: 'A shape that has no voicing of a chord',
  why: 'A shape is a rule, and for this chord nothing on the neck satisfies all of its lines. The finding names the line that excludes the last voicings and the nearest one that every other line allows, so that you can loosen the line, or pin that voicing for this chord alone.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R 5
  reach 1

progression quay
  D

section verse
  progression quay
  shape lamp
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5
  reach 2

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
        if (!none || !shapeRule || hasItsOwnPage(none, shapeRule) || crowdedOut(context).has(chord)) return [];
        const shape = shapeOf(context, shapeRule);
        const line = shape?.lines[none.line];
        return {
          chord,
          message: messageFor(chord, none, shapeRule, context),
          related: line ? [{ span: line, message: 'This line rules them out.' }] : [],
          fixes: fixesFor(chord, none, shapeRule, shape, context.text),
        };
      }),
    ),
};

/** A pin, and an open string that the shape itself forbids. */
const hasItsOwnPage = ({ line }: NoVoicing, { open }: ShapeRule): boolean =>
  line === 'at' || ((line === 'avoid' || line === 'colour') && open !== 'any' && open.length > 0);

function messageFor(chord: PlacedChord, none: NoVoicing, shapeRule: ShapeRule, context: Context): string {
  const { before, nearest, line } = none;
  const name = quoted(shapeRule.name);
  const symbol = quoted(chord.plan.written);
  const near = nearest ? ` the nearest is ${formatFretList(nearest)}.` : ' no other line is to blame.';
  if (line === 'hand') {
    const { hand } = context.lesson.settings;
    return `No ${hand} hand can hold a voicing of ${symbol} in ${name}; give it fewer strings or a smaller reach.`;
  }
  const culprit = lineText(line, shapeRule, context);
  const excludes =
    before === 0
      ? 'allows none'
      : `rules out ${before === 1 ? 'the only one' : `all ${before}`} that the other lines allow`;
  return `${name} has no voicing of ${symbol}: ${culprit} ${excludes};${near}`;
}

/** The line as it stands in the text, or what holds where the shape does not say it. */
function lineText(line: string, shapeRule: ShapeRule, { lesson, text }: Context): string {
  const span = lesson.shapes.find((shape) => shape.rule === shapeRule)?.lines[line];
  if (span) return quoted(text.slice(span.start, span.end));
  return line === 'frets' ? quoted(`frets ${shapeRule.lowestFret} to ${shapeRule.highestFret}`) : `its ${line}`;
}

function fixesFor(
  chord: PlacedChord,
  { line, nearest }: NoVoicing,
  shapeRule: ShapeRule,
  shape: ShapeDefinition | undefined,
  text: string,
): readonly Fix[] {
  // Where the hand is what excludes, the nearest voicing is one that no hand can hold.
  if (!nearest || line === 'hand') return [];
  const fixes: Fix[] = [];
  const span = shape?.lines[line];
  const { lowest, highest } = rangeOf(nearest);
  if (span && line === 'reach') fixes.push(replaceWith(span, `reach ${highest - lowest}`));
  if (span && line === 'frets') {
    const from = Math.min(shapeRule.lowestFret, nearest.includes(0) && lowest === 0 ? 0 : lowest);
    fixes.push(replaceWith(span, `frets ${from} to ${Math.max(shapeRule.highestFret, highest)}`));
  }
  if (span && MAY_GO.includes(line))
    fixes.push(deleteLines(span, text, `Delete ${quoted(text.slice(span.start, span.end))}`));
  const { place } = chord;
  if (isWrittenOut(chord, text) && !place.modifiers.as && !place.modifiers.at) {
    const pin = ` as ${formatFretList(nearest)}`;
    fixes.push(insertAt(place.symbolSpan.end, pin, `Pin it here: ${quoted(chord.plan.written + pin)}`));
  }
  return fixes;
}

/** Of the frets pressed; 0 and 0 where there are none. */
function rangeOf(frets: FretList): { readonly lowest: number; readonly highest: number } {
  const pressed = frets.flatMap((fret) => fret || []);
  return pressed.length === 0
    ? { lowest: 0, highest: 0 }
    : { lowest: Math.min(...pressed), highest: Math.max(...pressed) };
}
