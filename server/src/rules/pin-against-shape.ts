/** A pin that the shape, or the frets written beside it, contradict. */
import { formatFretList, type FretList } from '../fretboard/frets.ts';
import type { ShapeRule } from '../lesson/lesson.ts';
import { RealiseCache } from '../realise/cache.ts';
import { voicingsOf } from '../realise/voicings.ts';
import type { Context, Rule } from './rule.ts';
import { crowdedOut } from './shared/capo.ts';
import { once, ruleOf, type PlacedChord } from './shared/chords.ts';
import { replaceWith } from './shared/fixes.ts';
import { listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'pin-against-shape',
  severity: 'error',
  topic: 'shapes',
  title: 'A pin where no voicing lies',
  why: 'A pin is a promise that the lowest fret pressed is this one. Where the shape has no voicing of the chord there, one of the two has to give way: move the pin, or loosen the shape.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R 5

progression quay
  G at 7

section verse
  progression quay
  shape lamp
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5

progression quay
  G at 8

section verse
  progression quay
  shape lamp
`,
  check(context) {
    const cache = new RealiseCache();
    return once(
      context.chords.flatMap((chord) => {
        const { plan, played, place } = chord;
        const { lowestFret, frets } = plan;
        if (lowestFret === undefined) return [];
        const span = place.modifiers.at ?? place.span;
        const shapeRule = ruleOf(chord);
        if (!shapeRule) return frets ? againstFrets(chord, frets, lowestFret) : [];
        if (played.none?.line !== 'at' || crowdedOut(context).has(chord)) return [];
        const there = positionsOf(chord, shapeRule, context, cache);
        const nearest = [...there].sort((a, b) => Math.abs(a - lowestFret) - Math.abs(b - lowestFret) || a - b)[0];
        const mend =
          there.length > 0
            ? there.length === 1
              ? `there is one at fret ${there[0]}`
              : `there are some at frets ${listed(there.map(String))}`
            : 'move the pin, or leave it out';
        return {
          chord,
          span,
          message: `No voicing of ${quoted(plan.written)} in ${quoted(shapeRule.name)} begins at fret ${lowestFret}; ${mend}.`,
          fixes: nearest !== undefined && place.modifiers.at ? [replaceWith(span, `at ${nearest}`)] : [],
        };
      }),
    );
  },
};

/** Where the voicings lie that come into question without the pin, from the nut up. */
function positionsOf(
  { plan, section }: PlacedChord,
  shapeRule: ShapeRule,
  { lesson }: Context,
  cache: RealiseCache,
): readonly number[] {
  if (!plan.chord) return [];
  const { states } = voicingsOf(plan.chord, shapeRule, section.plan.key, lesson.settings, cache);
  const lowest = states.flatMap(({ frets }) => lowestPressed(frets) ?? []);
  return [...new Set(lowest)].sort((a, b) => a - b);
}

function againstFrets(chord: PlacedChord, frets: FretList, lowestFret: number) {
  const { plan, place } = chord;
  const lowest = lowestPressed(frets);
  if (lowest === lowestFret) return [];
  const where = lowest === undefined ? 'press no fret at all' : `begin at fret ${lowest}`;
  const message = `The frets of ${quoted(plan.written)}, ${formatFretList(frets)}, ${where}, not at ${lowestFret}; leave out one of the two.`;
  return [{ chord, span: place.modifiers.at ?? place.span, message }];
}

function lowestPressed(frets: FretList): number | undefined {
  const pressed = frets.flatMap((fret) => fret || []);
  return pressed.length > 0 ? Math.min(...pressed) : undefined;
}
