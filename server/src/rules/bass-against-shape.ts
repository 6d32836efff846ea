/** A slash bass that the shape's own tones do not put lowest. */
import { bassOf, type Chord } from '../theory/chord.ts';
import { formatNoteName, sameSound, semitone, type NoteName } from '../theory/note.ts';
import { formatFretList, stringAtIndex, type FretList } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { shapeMidiAt } from '../fretboard/shape-pitch.ts';
import type { ShapeRule } from '../lesson/lesson.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import { RealiseCache } from '../realise/cache.ts';
import { voicingsOf } from '../realise/voicings.ts';
import type { Fix } from '../util/finding.ts';
import type { Context, Rule } from './rule.ts';
import { isWrittenOut, once, shapeOf, type PlacedChord } from './shared/chords.ts';
import { insertAt, replaceWith } from './shared/fixes.ts';
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
  check(context) {
    const cache = new RealiseCache();
    const wrong = misnamedChords(context).filter(isBassAlone);
    return once(
      wrong.map((one) => {
        const { shapeRule, plan, place, chord } = one;
        const line = shapeOf(context, shapeRule)?.lines.tones;
        const wanted = formatNoteName(bassOf(chord));
        // A chord that another section plays as it is written is no slip: what mends one would spoil the other.
        const mayChange = isWrittenOut(one, context.text) && timesIn(wrong, one) === timesIn(context.chords, one);
        return {
          chord: one,
          span: place.modifiers.over ?? place.symbolSpan,
          message: `${quoted(shapeRule.name)} puts ${formatNoteName(one.wrong.bass)} lowest, not the ${wanted} of ${quoted(plan.written)}; drop the bass, or use another shape.`,
          related: line ? [{ span: line, message: 'These tones decide what lies lowest.' }] : [],
          fixes: mayChange ? fixesFor(one, context, cache) : [],
        };
      }),
    );
  },
};

type BassAlone = Misnamed & { readonly shapeRule: ShapeRule; readonly wrong: { readonly bass: NoteName } };

const isBassAlone = (one: Misnamed): one is BassAlone =>
  one.wrong.bass !== undefined && !one.wrong.missing && !one.wrong.contradicted && fixesAllTones(one.shapeRule);

const timesIn = (chords: readonly PlacedChord[], { place }: PlacedChord): number =>
  chords.filter((one) => one.place.span.start === place.span.start).length;

/** First what keeps the bass: open frets that have it. In the symbol, though not behind `over`, it may also give way. */
function fixesFor(
  { place, chord, plan, section, wrong }: BassAlone,
  { lesson }: Context,
  cache: RealiseCache,
): readonly Fix[] {
  const fixes: Fix[] = [];
  if (!place.modifiers.as && !place.modifiers.at) {
    const { states } = voicingsOf(chord, builtInShapes[0], section.plan.key, lesson.settings, cache);
    const easiest = [...states]
      .filter(({ frets }) => hasBass(frets, chord, lesson.settings.instrument))
      .sort((a, b) => a.cost - b.cost)[0];
    if (easiest) {
      const pin = ` as ${formatFretList(easiest.frets)}`;
      fixes.push(insertAt(place.symbolSpan.end, pin, `Keep the bass: ${quoted(plan.written + pin)}`));
    }
  }
  if (!place.modifiers.over) {
    const plain = plan.written.replace(/\s*\/\s*[A-G][#b♯♭♮]*$/u, '');
    const right = sameSound(wrong.bass, chord.root) ? plain : `${plain}/${formatNoteName(wrong.bass)}`;
    fixes.push(replaceWith(place.symbolSpan, right));
  }
  return fixes;
}

function hasBass(frets: FretList, chord: Chord, instrument: Instrument): boolean {
  const midis = frets.flatMap((fret, index) =>
    fret === null ? [] : shapeMidiAt(instrument, stringAtIndex(index, frets.length), fret),
  );
  return ((Math.min(...midis) % 12) + 12) % 12 === semitone(bassOf(chord));
}
