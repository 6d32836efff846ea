/** The ways of holding a chord with a melody over it: those ways of its shape in which the whole is easiest. */
import type { FretList } from '../fretboard/frets.ts';
import type { RealiseCache } from './cache.ts';
import { inTieOrder, type Choices, type HandState, type Source } from './hand-states.ts';
import { isBetterSung, Singer, type Sung, type SungChord } from './sung.ts';

/** States that a chord with a melody over it keeps for the sequence. */
export const MOST_SUNG_STATES = 16;

export interface SungState extends HandState {
  readonly sung: Sung;
}

export interface SungChoices extends Choices {
  readonly states: readonly SungState[];
}

/** Undefined where no way of holding the chord has the melody's string. */
export function sungChoices(sung: SungChord, source: Source, cache: RealiseCache): SungChoices | undefined {
  const singer = new Singer(sung);
  const found: Found[] = [];
  const cheapest: number[] = [];
  for (const state of source.roomyStates) {
    // They come cheapest first: what is dearer without its melody than enough others with theirs need not be looked at.
    if (cheapest.length >= MOST_SUNG_STATES && state.cost >= cheapest[MOST_SUNG_STATES - 1]) break;
    const over = singer.sing(state);
    if (!over) continue;
    const cost = state.cost + over.sum.cost;
    found.push({ state, cost, sung: over });
    insert(cost, cheapest);
  }
  if (found.length === 0) return undefined;
  const states = inOneOctave(found)
    .sort((a, b) => a.cost - b.cost || inTieOrder(a.state, b.state))
    .slice(0, MOST_SUNG_STATES)
    .sort((a, b) => inTieOrder(a.state, b.state))
    .map(sungState);
  return { id: cache.nextSet(), states };
}

/** A state with its melody, before it is known whether it is among the easiest. */
interface Found {
  readonly state: HandState;
  /** With the melody. */
  readonly cost: number;
  readonly sung: Sung;
}

function sungState({ state, cost, sung }: Found): SungState {
  const { frets, verdict, fingering, grip, held, shape, position } = state;
  return { frets, verdict, fingering, cost, grip, held, shape, position, sung };
}

/** Into costs in rising order, of which only the least matter. */
function insert(cost: number, cheapest: number[]): void {
  let at = cheapest.length;
  while (at > 0 && cheapest[at - 1] > cost) at--;
  if (at >= MOST_SUNG_STATES) return;
  if (cheapest.length >= MOST_SUNG_STATES) cheapest.pop();
  cheapest.splice(at, 0, cost);
}

/** A shape sings where the best of its fingerings lets it: others must not move the melody away to spare themselves. */
function inOneOctave(found: readonly Found[]): Found[] {
  // All fingerings of a shape share its fret list.
  const best = new Map<FretList, Sung>();
  for (const { state, sung } of found) {
    const other = best.get(state.frets);
    if (!other || isBetterSung(sung, other)) best.set(state.frets, sung);
  }
  return found.filter(({ state, sung }) => {
    const { placed } = best.get(state.frets) ?? sung;
    return sung.placed?.start === placed?.start && sung.placed?.from === placed?.from;
  });
}
