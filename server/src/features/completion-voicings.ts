/** What may pin a chord of a progression: the positions and the fret lists in which its shape can be played, easiest first. */
import type { Analysis } from '../analyze.ts';
import type { ShapeRule } from '../lesson/lesson.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import { voicingDifficulty } from '../draw/facts.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { HandState } from '../realise/hand-states.ts';
import { RealiseCache } from '../realise/realise.ts';
import { voicingsOf, type VoicingSet } from '../realise/voicings.ts';
import { parseChord, type Chord } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import type { Offer, OfferContext } from './completion-offers.ts';
import { whereIs } from './place.ts';

const MOST_FRET_LISTS = 12;

/** The lowest frets pressed, from the nut up, each with the easiest voicing there. */
export function positionOffers(context: OfferContext): readonly Offer[] {
  const set = setFor(context, 2);
  if (!set) return [];
  const easiest = new Map<number, HandState>();
  for (const state of inEase(set)) if (!easiest.has(state.position)) easiest.set(state.position, state);
  return [...easiest]
    .sort(([a], [b]) => a - b)
    .map(([position, state]) => ({ label: `${position}`, kind: 'value', detail: detailOf(set, state, true) }));
}

/** Fret lists, the easiest first. */
export function fretListOffers(context: OfferContext): readonly Offer[] {
  const set = setFor(context, context.form.keyword === 'grip' ? 1 : 2);
  if (!set) return [];
  const offers = new Map<string, Offer>();
  for (const state of inEase(set)) {
    const label = formatFretList(state.frets);
    if (!offers.has(label)) offers.set(label, { label, kind: 'value', detail: detailOf(set, state, false) });
    if (offers.size >= MOST_FRET_LISTS) break;
  }
  return [...offers.values()];
}

const inEase = (set: VoicingSet): readonly HandState[] => [...set.states].sort((a, b) => a.cost - b.cost);

function detailOf(set: VoicingSet, state: HandState, withFrets: boolean): string {
  const voicing = set.voicingOf(state);
  const parts = [
    voicing.sounding[0],
    withFrets ? formatFretList(voicing.frets) : undefined,
    voicingDifficulty(voicing),
  ];
  return parts.filter((part) => part !== undefined).join(', ');
}

/** The voicings of the chord that stands `back` words before the cursor, by the shape of the section that plays it. */
function setFor({ analysis, words, form }: OfferContext, back: number): VoicingSet | undefined {
  const word = words[words.length - back];
  if (!word) return undefined;
  const { settings } = analysis.lesson;
  const asked = form.keyword === 'progression' ? playedAt(analysis, word.start) : gripAt(word.text, settings.key);
  // What was voiced already is not at hand here; one chord by itself costs a few milliseconds.
  return asked && voicingsOf(asked.chord, asked.rule, asked.key, settings, new RealiseCache());
}

interface Asked {
  readonly chord: Chord;
  readonly rule: ShapeRule;
  readonly key: Key;
}

function playedAt(analysis: Analysis, offset: number): Asked | undefined {
  const address = whereIs(analysis, offset).chord?.played[0];
  const section = address && analysis.lesson.sections[address.section];
  const plan = section?.plan.bars[address!.bar]?.chords[address!.chord];
  const rule = plan?.rule === undefined ? undefined : section!.plan.rules[plan.rule];
  return plan?.chord && rule && { chord: plan.chord, rule, key: section!.plan.key };
}

/** A grip is looked for where most grips lie, among the open chords. */
function gripAt(symbol: string, key: Key): Asked | undefined {
  const chord = parseChord(symbol);
  return chord && { chord, rule: builtInShapes[0], key };
}
