/** The set of all voicings of a chord by one shape rule: found at once, fingered as far as the choice needs, counted when asked. */
import type { Chord } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import type { Settings, ShapeRule } from '../lesson/lesson.ts';
import type { FretList } from '../fretboard/frets.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { judgeShape, type Fingering, type ShapeVerdict } from '../hand/fingering.ts';
import { gripOf, type Grip } from '../hand/grip.ts';
import { heldOf } from '../hand/held.ts';
import { heldShape, holdingCost } from '../hand/melody.ts';
import {
  DIFFICULTY,
  HAND_FACTOR,
  MILLION,
  MOST_MELODY_FINGERINGS,
  playerAtLevel,
  REACH,
  type HandSize,
  type Player,
} from '../hand/model.ts';
import { HANDS } from '../hand/search.ts';
import type { RealiseCache } from './cache.ts';
import { findCandidates, type Candidate } from './candidates.ts';
import type { Asked } from './demands.ts';
import {
  compareFrets,
  FINGERINGS_A_VOICING,
  inTieOrder,
  MOST_STATES,
  type HandState,
  type Source,
} from './hand-states.ts';
import { neckOf, type Neck } from './neck.ts';
import { FAMILIAR, fullnessCost, levelCost } from './preference.ts';
import type { NoVoicing, Voicing } from './score.ts';
import { givenFingering, withoutBarre } from './verdicts.ts';
import { describeVoicing, type Seen } from './voicing.ts';
import { whyNone } from './why-none.ts';

/** Voicings that are fingered for the choice, those that look easiest first; the rest when somebody asks. */
export const MOST_FINGERED = 64;

/** What of a lesson's settings a voicing depends on. */
export type Playing = Pick<Settings, 'instrument' | 'hand' | 'level'>;

/** All voicings of a chord by a rule. What is dear waits until it is asked for, and is kept. */
export class VoicingSet implements Source {
  readonly searchCut: boolean;
  /** First those with the bass that the symbol asks for; the others count only where none of these is playable. */
  private readonly queues: readonly (readonly Ranked[])[];
  private queue = 0;
  private next = 0;
  private readonly playable: Judged[] = [];
  private cachedStates: readonly HandState[] | undefined;
  private cachedRoomyStates: readonly HandState[] | undefined;
  private reason: { readonly is: NoVoicing | undefined } | undefined;
  private readonly described = new Map<HandState, Voicing>();

  constructor(
    readonly id: number,
    private readonly asked: Asked,
    private readonly hand: HandSize,
    private readonly player: Player,
  ) {
    const { candidates, cut } = findCandidates(asked);
    this.searchCut = cut;
    const ranked = candidates
      .map((candidate) => this.rankedAt(candidate))
      .sort(
        (a, b) =>
          a.bound - b.bound ||
          a.candidate.position - b.candidate.position ||
          compareFrets(a.candidate.frets, b.candidate.frets),
      );
    this.queues = [
      ranked.filter(({ candidate }) => candidate.symbolBass),
      ranked.filter(({ candidate }) => !candidate.symbolBass),
    ];
  }

  /** How many voicings satisfy the rule and the hand. */
  get choices(): number {
    this.judgeAll();
    return this.playable.length;
  }

  /** Why there is none; undefined where there is one. */
  get none(): NoVoicing | undefined {
    if (this.isPlayable) return undefined;
    return (this.reason ??= { is: whyNone(this.asked, this.hand) }).is;
  }

  /** Every voicing that satisfies the rule and the hand, with the fingering of least cost; the easiest first. */
  get voicings(): readonly Voicing[] {
    this.judgeAll();
    return this.playable
      .map((judged): Way => {
        const { verdict, candidate, fullness } = judged;
        const fingering = verdict.fingerings[0];
        const cost = fingering.effort + levelCost(fingering, this.player) + fullness;
        return { judged, fingering, cost, frets: candidate.frets, position: candidate.position };
      })
      .sort((a, b) => a.cost - b.cost || inTieOrder(a, b))
      .map(({ judged, frets, fingering }) => describeVoicing(this.seen(), frets, judged.verdict, fingering));
  }

  get isPlayable(): boolean {
    this.judgeForChoice();
    return this.playable.length > 0;
  }

  get states(): readonly HandState[] {
    return (this.cachedStates ??= this.statesWith(FINGERINGS_A_VOICING).sort(inTieOrder));
  }

  get roomyStates(): readonly HandState[] {
    return (this.cachedRoomyStates ??= this.statesWith(MOST_MELODY_FINGERINGS));
  }

  voicingOf(state: HandState): Voicing {
    let voicing = this.described.get(state);
    if (!voicing) {
      voicing = describeVoicing(this.seen(), state.frets, state.verdict, state.fingering);
      this.described.set(state, voicing);
    }
    return voicing;
  }

  private seen(): Seen {
    return seenBy(this.asked);
  }

  /** The cheapest, and of these the cheapest first; only they are worked out. */
  private statesWith(fingerings: number): HandState[] {
    this.judgeForChoice();
    const ways: Way[] = [];
    for (const judged of this.playable) {
      const { verdict, fullness } = judged;
      for (const fingering of verdict.fingerings.slice(0, fingerings)) {
        const own = holdingCost(fingering, verdict.fingerings) + levelCost(fingering, this.player) + fullness;
        const cost = this.asked.rule.sparse ? own * FAMILIAR : own;
        ways.push({ judged, fingering, cost, frets: judged.candidate.frets, position: judged.candidate.position });
      }
    }
    return ways
      .sort((a, b) => a.cost - b.cost || inTieOrder(a, b))
      .slice(0, MOST_STATES)
      .map((way) => this.stateOf(way));
  }

  private stateOf({ judged, frets, fingering, cost, position }: Way): HandState {
    const { grip, verdict } = judged;
    const held = heldOf(grip, fingering.fingers);
    const shape = heldShape(this.asked.neck.instrument, grip, HANDS[this.hand], held);
    return { frets, verdict, fingering, cost, grip, held, shape, position };
  }

  /** About the least that the voicing can cost, from its fingers and its span; nothing is excluded by it. */
  private rankedAt(candidate: Candidate): Ranked {
    const { frets, fingers, span, position } = candidate;
    const { comfortable, extreme } = REACH['1-4'];
    const from = DIFFICULTY.spreadFrom * comfortable * HAND_FACTOR[this.hand];
    const beyond = Math.max(0, span - from) / (extreme * HAND_FACTOR[this.hand] - from);
    const effort = (DIFFICULTY.fingers[fingers] ?? DIFFICULTY.most) + DIFFICULTY.spread * beyond * beyond;
    const fullness = fullnessCost(this.asked, frets, position);
    return { candidate, fullness, bound: Math.round(effort * MILLION) + fullness };
  }

  private judgeForChoice(): void {
    if (this.playable.length > 0) return;
    for (; this.queue < this.queues.length; this.queue++) {
      const queue = this.queues[this.queue];
      for (this.next = 0; this.next < queue.length; this.next++) {
        if (this.next >= MOST_FINGERED && this.playable.length > 0) return;
        this.judge(queue[this.next]);
      }
      if (this.playable.length > 0) return;
    }
  }

  private judgeAll(): void {
    this.judgeForChoice();
    const queue = this.queues[this.queue] ?? [];
    for (; this.next < queue.length; this.next++) this.judge(queue[this.next]);
  }

  private judge({ candidate, fullness }: Ranked): void {
    const { neck, rule } = this.asked;
    const whole = judgeShape(neck.instrument, candidate.frets, this.hand);
    const verdict = rule.barre ? whole : withoutBarre(whole);
    if (!verdict.playable) return;
    this.playable.push({ candidate, verdict, grip: gripOf(neck.instrument, candidate.frets), fullness });
  }
}

/** A voicing that is still to be fingered. */
interface Ranked {
  readonly candidate: Candidate;
  readonly fullness: number;
  /** About the least that it can cost, in whole millionths. */
  readonly bound: number;
}

interface Judged {
  readonly candidate: Candidate;
  readonly verdict: ShapeVerdict;
  readonly grip: Grip;
  readonly fullness: number;
}

/** A voicing with one of its fingerings, before it is worked out as a state. */
interface Way extends Pick<HandState, 'frets' | 'position' | 'cost'> {
  readonly judged: Judged;
  readonly fingering: Fingering;
}

const seenBy = ({ chord, key, rule, neck }: Asked): Seen => ({
  chord,
  key,
  neck,
  beside: new Set(
    Array.from({ length: neck.strings }, (_, index) => index + 1).filter((string) => !rule.strings.includes(string)),
  ),
});

/** Pins of one chord that narrow its rule. */
export interface Pins {
  /** The lowest fret pressed, as written. */
  readonly lowestFret?: number;
}

/** All voicings of `chord` that satisfy `rule`, kept in `cache`. `key` names the tones that the chord itself does not. */
export function voicingsOf(
  chord: Chord,
  rule: ShapeRule,
  key: Key,
  settings: Playing,
  cache: RealiseCache,
  pins: Pins = {},
): VoicingSet {
  const player = playerAtLevel(settings.level);
  const name = JSON.stringify([chord.symbol, rule, key, settings.instrument, settings.hand, player, pins.lowestFret]);
  return cache.voicings.get(name, () => {
    const neck = neckOf(settings.instrument, settings.hand);
    const asked: Asked = { chord, rule, key, neck, ...(pins.lowestFret !== undefined && { at: pins.lowestFret }) };
    return new VoicingSet(cache.nextSet(), asked, settings.hand, player);
  });
}

/** A grip or exact frets: one voicing, kept with its verdict even where no hand can hold it, with the fingers given or the hand's. */
export class ExactVoicing implements Source {
  /** Even a shape that no hand can hold is what the author asked for. */
  readonly isPlayable = true;
  readonly states: readonly HandState[];
  readonly roomyStates: readonly HandState[];
  private readonly described = new Map<HandState, Voicing>();

  constructor(
    readonly id: number,
    private readonly seen: Seen,
    frets: FretList,
    fingers: FretList | undefined,
    hand: HandSize,
    player: Player,
  ) {
    const { neck } = seen;
    const verdict = judgeShape(neck.instrument, frets, hand);
    const given = fingers && givenFingering(verdict, frets, fingers);
    const grip = gripOf(neck.instrument, frets);
    const position = lowestPressed(neck, frets);
    const stateOf = (fingering: Fingering | undefined): HandState => {
      const cost = fingering ? holdingCost(fingering, verdict.fingerings) + levelCost(fingering, player) : 0;
      const held = heldOf(grip, fingering?.fingers ?? []);
      const shape = fingering && heldShape(neck.instrument, grip, HANDS[hand], held);
      return { frets, verdict, fingering, cost, grip, held, shape, position };
    };
    const fingerings = given || !verdict.playable ? [given] : verdict.fingerings;
    this.roomyStates = fingerings
      .slice(0, MOST_MELODY_FINGERINGS)
      .map(stateOf)
      .sort((a, b) => a.cost - b.cost || inTieOrder(a, b));
    this.states = this.roomyStates.slice(0, FINGERINGS_A_VOICING).sort(inTieOrder);
  }

  voicingOf(state: HandState): Voicing {
    let voicing = this.described.get(state);
    if (!voicing) {
      voicing = describeVoicing(this.seen, state.frets, state.verdict, state.fingering);
      this.described.set(state, voicing);
    }
    return voicing;
  }
}

/** Undefined where the list has not as many places as the instrument has strings, or sounds nothing. */
export function exactVoicing(
  chord: Chord,
  frets: FretList,
  fingers: FretList | undefined,
  key: Key,
  settings: Playing,
  cache: RealiseCache,
): ExactVoicing | undefined {
  const { instrument, hand } = settings;
  if (frets.length !== stringCount(instrument) || frets.every((fret) => fret === null)) return undefined;
  const player = playerAtLevel(settings.level);
  const name = JSON.stringify([chord.symbol, frets, fingers, key, instrument, hand, player]);
  return cache.exact.get(name, () => {
    const seen: Seen = { chord, key, neck: neckOf(instrument, hand), beside: new Set() };
    return new ExactVoicing(cache.nextSet(), seen, frets, fingers, hand, player);
  });
}

function lowestPressed(neck: Neck, frets: FretList): number {
  const pressed = frets.flatMap((fret, index) => (fret ? [fret + neck.capo[index]] : []));
  return pressed.length === 0 ? 0 : Math.min(...pressed);
}
