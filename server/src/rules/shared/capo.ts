/** Chords that would have a voicing, had the capo left enough of the neck. */
import { nutFret, type Instrument } from '../../fretboard/instrument.ts';
import { RealiseCache } from '../../realise/cache.ts';
import { voicingsOf } from '../../realise/voicings.ts';
import type { Context } from '../rule.ts';
import { ruleOf, type PlacedChord } from './chords.ts';

/** Several rules leave these chords to one. */
const crowded = new WeakMap<Context, ReadonlyMap<PlacedChord, number>>();

/** Each chord that only the capo leaves without a voicing, with the highest fret at which a capo leaves room; 0 for none. */
export function crowdedOut(context: Context): ReadonlyMap<PlacedChord, number> {
  let found = crowded.get(context);
  if (!found) crowded.set(context, (found = crowdedIn(context)));
  return found;
}

function crowdedIn(context: Context): ReadonlyMap<PlacedChord, number> {
  const found = new Map<PlacedChord, number>();
  const { settings, settingSpans } = context.lesson;
  const { capo, ...bare } = settings.instrument;
  // A partial capo makes other shapes: without it they would be another question.
  if (!capo || nutFret(settings.instrument) === 0 || !settingSpans.capo) return found;
  const cache = new RealiseCache();
  const instrument: Instrument = bare;
  for (const chord of context.chords) {
    const { plan, played, section } = chord;
    const rule = ruleOf(chord);
    if (!played.none || !rule || !plan.chord) continue;
    const pins = { lowestFret: plan.lowestFret };
    const { states } = voicingsOf(plan.chord, rule, section.plan.key, { ...settings, instrument }, cache, pins);
    if (states.length === 0) continue;
    const highest = states.map(({ frets }) => Math.max(0, ...frets.map((fret) => fret ?? 0)));
    found.set(chord, instrument.frets - Math.min(...highest));
  }
  return found;
}
