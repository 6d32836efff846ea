/** A step of the practice while it is practised: its tempo, when that climbs, and when it is over. */
import type { SoundStep } from '../../server/src/protocol.ts';

/** Where a ladder says no minutes, each tempo is played so often before the next. Set by judgement. */
const PASSES_A_RUNG = 2;
const SECONDS = 60;

export class Ladder {
  private rung = 0;
  private passes = 0;
  private spent = 0;

  constructor(readonly step: SoundStep) {}

  /** In beats a minute. */
  get tempo(): number {
    return this.step.tempi[this.rung];
  }

  /** As a part of what is written. */
  get speed(): number {
    return this.tempo / this.step.perMinute;
  }

  /** After a pass that took so many seconds. Minutes are shared out evenly among the tempi, and none ends in the middle of a pass. */
  passed(seconds: number): 'again' | 'climbs' | 'over' {
    const { tempi, minutes } = this.step;
    this.passes++;
    this.spent += seconds;
    const isDone =
      minutes === undefined ? this.passes >= PASSES_A_RUNG : this.spent >= (minutes * SECONDS) / tempi.length;
    if (!isDone) return 'again';
    if (this.rung === tempi.length - 1) return minutes === undefined ? 'again' : 'over';
    this.rung++;
    this.passes = 0;
    this.spent = 0;
    return 'climbs';
  }
}
