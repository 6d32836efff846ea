/** The ways of holding a chord with a melody over it: those ways of its shape in which the whole is easiest. */
import { formatFretList } from '../fretboard/frets.ts';
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

/** Undefined where no way of holding the chord has the contour's string. */
export function sungChoices(sung: SungChord, source: Source, cache: RealiseCache): SungChoices | undefined {
  const singer = new Singer(sung);
  const found: SungState[] = [];
  const costs: number[] = [];
  for (const state of source.roomyStates) {
    // They come cheapest first: what is dearer without its melody than enough others with theirs need not be looked at.
    if (costs.length >= MOST_SUNG_STATES && state.cost >= costs[MOST_SUNG_STATES - 1]) break;
    const over = singer.sing(state);
    if (!over) continue;
    const cost = state.cost + over.held.cost;
    found.push({ ...state, cost, sung: over });
    costs.push(cost);
    costs.sort((a, b) => a - b);
  }
  if (found.length === 0) return undefined;
  const states = inOneOctave(found)
    .sort((a, b) => a.cost - b.cost || inTieOrder(a, b))
    .slice(0, MOST_SUNG_STATES)
    .sort(inTieOrder);
  return { id: cache.nextSet(), states };
}

/** A shape sings where the best of its fingerings lets it: others must not move the melody away to spare themselves. */
function inOneOctave(states: readonly SungState[]): SungState[] {
  const best = new Map<string, SungState>();
  for (const state of states) {
    const name = formatFretList(state.frets);
    const other = best.get(name);
    if (!other || isBetterSung(state.sung, other.sung)) best.set(name, state);
  }
  return states.filter((state) => {
    const { placed } = (best.get(formatFretList(state.frets)) ?? state).sung;
    return state.sung.placed.start === placed.start && state.sung.placed.from === placed.from;
  });
}
