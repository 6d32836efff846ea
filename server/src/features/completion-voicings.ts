/** What may pin a chord of a progression: the positions, fret lists and shapes in which it can be played, easiest first. */
import type { Analysis } from '../analyze.ts';
import { voicingDifficulty } from '../draw/facts.ts';
import { textDiagram } from '../draw/text-diagram.ts';
import { formatFretList, parseFretList, type FretList } from '../fretboard/frets.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import type { ShapeRule } from '../lesson/lesson.ts';
import { neckOf, type Neck } from '../realise/neck.ts';
import { RealiseCache } from '../realise/realise.ts';
import type { Voicing } from '../realise/score.ts';
import { exactVoicing, voicingsOf, type VoicingSet } from '../realise/voicings.ts';
import { parseChord, type Chord } from '../theory/chord.ts';
import { formatDegree } from '../theory/interval.ts';
import type { Key } from '../theory/key.ts';
import { formatPitch } from '../theory/note.ts';
import type { Offer, OfferContext } from './completion-offers.ts';
import { figure, line, strong, type Block } from './page.ts';
import { whereIs } from './place.ts';
import { cacheFor } from './preview-chord.ts';

const MOST_FRET_LISTS = 12;

/** A voicing that is offered, in as few words as will find it again. */
export interface OfferedShape {
  readonly chord: string;
  readonly frets: string;
}

/** The lowest frets pressed, as they are written, each with the easiest voicing there; the easiest of all first. */
export function positionOffers(context: OfferContext): readonly Offer[] {
  const asked = askedAt(context, 2);
  if (!asked) return [];
  const { instrument, hand } = context.analysis.lesson.settings;
  const neck = neckOf(instrument, hand);
  const offers = new Map<string, Offer>();
  for (const voicing of setFor(asked, context).voicings) {
    const label = lowestWritten(voicing.frets, neck);
    if (label !== undefined && !offers.has(label)) offers.set(label, offerOf(label, asked.chord, voicing, true));
  }
  return [...offers.values()];
}

/** Fret lists, the easiest first. */
export function fretListOffers(context: OfferContext): readonly Offer[] {
  const asked = askedAt(context, context.form.keyword === 'grip' ? 1 : 2);
  if (!asked) return [];
  return setFor(asked, context)
    .voicings.slice(0, MOST_FRET_LISTS)
    .map((voicing) => offerOf(formatFretList(voicing.frets), asked.chord, voicing, false));
}

/** The shapes among `names` that have a voicing of the chord, each with its easiest; those where that is easier first. */
export function shapeOffers(context: OfferContext, names: readonly Offer[]): readonly Offer[] {
  const asked = askedAt(context, 2);
  if (!asked) return names;
  const { shapes } = context.analysis.lesson;
  const found = names.flatMap((offer) => {
    const rule = [...shapes.filter(({ broken }) => !broken).map((one) => one.rule), ...builtInShapes].find(
      ({ name }) => name === offer.label,
    );
    const set = rule && setFor({ ...asked, rule }, context);
    const [state] = set ? [...set.states].sort((a, b) => a.cost - b.cost) : [];
    if (!set || !state) return [];
    const own = offerOf(offer.label, asked.chord, set.voicingOf(state), true);
    return [{ offer: { ...own, kind: offer.kind }, cost: state.cost }];
  });
  return found.sort((a, b) => a.cost - b.cost).map(({ offer }) => offer);
}

/** What is shown beside a voicing that is looked at: its diagram, and what its strings sound. */
export function shapePage({ lesson }: Analysis, { chord: symbol, frets: written }: OfferedShape): readonly Block[] {
  const { settings } = lesson;
  const { instrument, key } = settings;
  const frets = parseFretList(written, stringCount(instrument));
  const chord = parseChord(symbol);
  const exact = frets && chord && exactVoicing(chord, frets, undefined, key, settings, new RealiseCache());
  if (!exact) return [];
  const voicing = exact.voicingOf(exact.states[0]);
  const notes = voicing.strings.map(({ pitch, degree }) => `${formatPitch(pitch)} ${formatDegree(degree, 'R')}`);
  return [
    line(strong(voicing.sounding[0] ?? symbol), `: ${notes.join(', ')}`),
    figure(textDiagram(voicing.frets, voicing.fingering?.fingers, instrument)),
  ];
}

function offerOf(label: string, { symbol }: Chord, voicing: Voicing, withFrets: boolean): Offer {
  const frets = formatFretList(voicing.frets);
  const parts = [voicing.sounding[0], withFrets ? frets : undefined, voicingDifficulty(voicing)];
  const detail = parts.filter((part) => part !== undefined).join(', ');
  return { label, kind: 'value', detail, shape: { chord: symbol, frets } };
}

/** The fret that `at` would name: that of the finger nearest to the nut, counted as the author counts. */
function lowestWritten(frets: FretList, { capo }: Neck): string | undefined {
  let lowest: { readonly fret: number; readonly place: number } | undefined;
  frets.forEach((fret, index) => {
    if (!fret) return;
    const place = fret + capo[index];
    if (!lowest || place < lowest.place) lowest = { fret, place };
  });
  return lowest && `${lowest.fret}`;
}

interface Asked {
  readonly chord: Chord;
  readonly rule: ShapeRule;
  readonly key: Key;
  /** What was voiced already. */
  readonly cache: RealiseCache;
}

const setFor = ({ chord, rule, key, cache }: Asked, { analysis }: OfferContext): VoicingSet =>
  voicingsOf(chord, rule, key, analysis.lesson.settings, cache);

/** The chord that stands `back` words before the cursor, with the shape of the section that plays it. */
function askedAt({ analysis, words, form }: OfferContext, back: number): Asked | undefined {
  const word = words[words.length - back];
  if (!word) return undefined;
  return form.keyword === 'progression'
    ? playedAt(analysis, word.start)
    : gripAt(word.text, analysis.lesson.settings.key);
}

function playedAt(analysis: Analysis, offset: number): Asked | undefined {
  const address = whereIs(analysis, offset).chord?.played[0];
  const section = address && analysis.lesson.sections[address.section];
  const plan = section?.plan.bars[address!.bar]?.chords[address!.chord];
  const rule = plan?.rule === undefined ? undefined : section!.plan.rules[plan.rule];
  if (!plan?.chord || !rule) return undefined;
  return { chord: plan.chord, rule, key: section!.plan.key, cache: cacheFor(analysis, address!.section) };
}

/** A grip is looked for where most grips lie, among the open chords. */
function gripAt(symbol: string, key: Key): Asked | undefined {
  const chord = parseChord(symbol);
  return chord && { chord, rule: builtInShapes[0], key, cache: new RealiseCache() };
}
