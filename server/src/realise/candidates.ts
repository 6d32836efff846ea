/** All fret lists that satisfy a shape rule over one chord, found fret by fret along the neck, in steps that are counted. */
import type { FretList } from '../fretboard/frets.ts';
import { FINGERS } from '../hand/model.ts';
import type { Asked, Demands, Line } from './demands.ts';
import { count, demandsOf, SILENT } from './demands.ts';
import { fewestFingers } from './fewest-fingers.ts';
import type { Neck } from './neck.ts';

/** Frets tried in one search, dealt evenly over the neck. Three strings need some hundreds, six free ones some ten thousands. */
export const MOST_SEARCH_STEPS = 200_000;
/** Voicings that one search may find, dealt out in the same way. */
export const MOST_VOICINGS = 2_048;
/** How far a shape is looked for where it is not asked whether a hand holds it: what a nearest voicing may need. */
const WITHOUT_A_HAND = 8;
const MOST_FRETS_PRESSED = 4;

export interface Candidate {
  readonly frets: FretList;
  /** The lowest fret pressed, counted on the neck; 0 where all strings ring open. */
  readonly position: number;
  /** The lowest note is the one that the symbol asks for. */
  readonly symbolBass: boolean;
  /** The fewest fingers that could hold it; more than a hand has only where the hand is not asked. */
  readonly fingers: number;
  /** From the lowest to the highest fret pressed, in mm. */
  readonly span: number;
}

export interface Found {
  readonly candidates: readonly Candidate[];
  /** Whether a limit was reached, so that there may be more. */
  readonly cut: boolean;
  /** A line of the rule that makes no sense over this chord or on this instrument. */
  readonly impossible?: Line;
}

const NONE: ReadonlySet<Line> = new Set();

/** From the nut up the neck; on one position by frets from the lowest string. `left` names lines that are not to be asked. */
export function findCandidates(asked: Asked, left: ReadonlySet<Line> = NONE): Found {
  const demands = demandsOf(asked, left);
  if (typeof demands === 'string') return { candidates: [], cut: false, impossible: demands };
  return new Search(asked.neck, demands).run();
}

class Search {
  private readonly found: Candidate[] = [];
  private readonly frets: number[];
  private cut = false;
  private stepsLeft = 0;
  private roomLeft = 0;
  private position = 0;
  private window: readonly (readonly number[])[] = [];

  constructor(
    private readonly neck: Neck,
    private readonly demands: Demands,
  ) {
    this.frets = Array.from({ length: neck.strings }, () => SILENT);
  }

  run(): Found {
    const positions = this.positions();
    let steps = MOST_SEARCH_STEPS;
    let room = MOST_VOICINGS;
    positions.forEach((position, place) => {
      // What one position leaves over goes to those above it.
      this.stepsLeft = Math.floor(steps / (positions.length - place));
      this.roomLeft = Math.floor(room / (positions.length - place));
      const before = { steps: this.stepsLeft, room: this.roomLeft };
      this.position = position;
      this.window = this.demands.options.map((frets, index) => frets.filter((fret) => this.within(fret, index)));
      if (this.window.every((frets) => frets.length > 0)) this.place(0, 0, 0, 0);
      steps -= before.steps - this.stepsLeft;
      room -= before.room - this.roomLeft;
    });
    return { candidates: this.found, cut: this.cut };
  }

  /** Every fret on the neck that can be the lowest one pressed; 0 for open strings alone. */
  private positions(): number[] {
    const { demands, neck } = this;
    const positions = new Set<number>();
    demands.options.forEach((frets, index) => {
      for (const fret of frets) if (fret > 0) positions.add(fret + neck.capo[index]);
    });
    if (demands.at === undefined) positions.add(0);
    return [...positions].sort((a, b) => a - b);
  }

  private within(fret: number, index: number): boolean {
    if (fret <= 0) return true;
    const { demands, neck, position } = this;
    if (position === 0) return false;
    const onNeck = fret + neck.capo[index];
    const reach = position + (demands.reach ?? neck.highest);
    const held = demands.hand ? neck.reaches[position] : position + WITHOUT_A_HAND;
    return onNeck >= position && onNeck <= Math.min(reach, held);
  }

  /** `sounding` strings lie before this one; `silent` ones too; `pressed` are the frets so far as bits from the position up. */
  private place(index: number, sounding: number, silent: number, pressed: number): void {
    const { demands, neck } = this;
    if (index === neck.strings) {
      this.accept(sounding, pressed);
      return;
    }
    const through = demands.neighbours && sounding > 0 && this.frets[index - 1] === SILENT;
    for (const fret of this.window[index]) {
      if (this.stepsLeft <= 0 || this.roomLeft <= 0) {
        this.cut = true;
        return;
      }
      this.stepsLeft--;
      if (fret === SILENT) {
        if (silent >= demands.mostSilent) continue;
        this.frets[index] = SILENT;
        this.place(index + 1, sounding, silent + 1, pressed);
        continue;
      }
      if (through || !this.continues(index, fret, sounding)) continue;
      const now = fret === 0 ? pressed : pressed | (1 << (fret + neck.capo[index] - this.position));
      if (demands.hand && count(now) > MOST_FRETS_PRESSED) continue;
      this.frets[index] = fret;
      this.place(index + 1, sounding + 1, silent, now);
    }
  }

  /** Whether the string may sound what the sequence of tones has in this place. */
  private continues(index: number, fret: number, sounding: number): boolean {
    const { sequence } = this.demands;
    return !sequence || ((sequence[sounding] ?? 0) & this.tone(index, fret)) !== 0;
  }

  private tone(index: number, fret: number): number {
    return 1 << ((((this.neck.open[index] + fret) % 12) + 12) % 12);
  }

  private accept(sounding: number, pressed: number): void {
    const { demands, neck, frets, position } = this;
    if (sounding === 0 || (demands.sequence && sounding < 2)) return;
    // The lowest bit is the position itself: without it the voicing belongs to a higher one.
    if (position > 0 && (pressed & 1) === 0) return;
    let tones = 0;
    let carried = 0;
    let bottom = Infinity;
    let peak = -Infinity;
    let low = 0;
    let high = 0;
    let lowest = Infinity;
    let highest = -Infinity;
    let lowestTwice = false;
    for (let index = 0; index < neck.strings; index++) {
      if (frets[index] === SILENT) continue;
      const height = neck.open[index] + frets[index];
      const tone = this.tone(index, frets[index]);
      if (tone === demands.onlyLowest && (tones & tone) !== 0) lowestTwice = true;
      tones |= tone;
      if (!demands.spaced || demands.spaced.has(index)) {
        carried |= tone;
        bottom = Math.min(bottom, height);
        peak = Math.max(peak, height);
      }
      if (height < lowest) {
        lowest = height;
        low = tone;
      }
      if (height > highest) {
        highest = height;
        high = tone;
      }
    }
    if (count(carried & demands.required) < demands.requiredCount) return;
    if (demands.bass !== undefined && low !== demands.bass) return;
    if (demands.top !== undefined && high !== demands.top) return;
    if (demands.onlyLowest !== undefined && (tones & demands.onlyLowest) !== 0) {
      if (low !== demands.onlyLowest || lowestTwice) return;
    }
    if (demands.spacing === 'close' && peak - bottom > OCTAVE) return;
    if (demands.spacing === 'spread' && peak - bottom <= OCTAVE) return;
    if (demands.at !== undefined && !this.liesAt(demands.at)) return;
    if (demands.bassAtLowestFret && !this.bassLiesLowest()) return;
    const list = frets.map((fret) => (fret === SILENT ? null : fret));
    const fingers = fewestFingers(neck, list);
    if (demands.hand && fingers > FINGERS) return;
    this.roomLeft--;
    const span = position === 0 ? 0 : neck.places[position + 31 - Math.clz32(pressed)] - neck.places[position];
    const symbolBass = demands.symbolBass === undefined || low === demands.symbolBass;
    this.found.push({ frets: list, position, symbolBass, fingers, span });
  }

  /** Written frets differ beside a partial capo: the pin speaks of those that lie lowest on the neck. */
  private liesAt(at: number): boolean {
    const { frets, neck, position } = this;
    return frets.some((fret, index) => fret === at && fret > 0 && fret + neck.capo[index] === position);
  }

  private bassLiesLowest(): boolean {
    const { frets, neck, position } = this;
    const first = frets.findIndex((fret) => fret !== SILENT);
    return frets[first] > 0 && frets[first] + neck.capo[first] === position;
  }
}

const OCTAVE = 12;
