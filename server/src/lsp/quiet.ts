/** Does work once the queue of messages is drained, so that changes that come together are answered together. */

/** Comes back behind what the event loop has at hand: the next message of the queue, and what the pipe holds by then. */
export type Hop = (callback: () => void) => void;

/** A message takes one turn of the loop; behind two without a change, there is no change left. */
const CALM_TURNS = 2;
/** A client that never pauses is answered all the same. */
const MOST_TURNS = 200;

export class Quiet {
  private readonly jobs = new Map<string, () => void>();
  private waiting: (() => void)[] = [];
  /** Those whose work nobody waits for: they go on, one a turn, when nothing else is left to do. */
  private readonly idle: (() => void)[] = [];
  private calm = 0;
  private turns = 0;
  private armed = false;

  constructor(private readonly hop: Hop) {}

  /** A change came in: what is asked for waits on. */
  disturb(): void {
    this.calm = 0;
  }

  /** `job` runs when it is quiet; one with the same key that has not run yet is forgotten. */
  ask(key: string, job: () => void): void {
    this.jobs.delete(key);
    this.jobs.set(key, job);
    this.arm();
  }

  forget(key: string): void {
    this.jobs.delete(key);
  }

  /** Settles when it is quiet, before the jobs go on. */
  whenQuiet(): Promise<void> {
    return new Promise((resolve) => {
      this.waiting.push(resolve);
      this.arm();
    });
  }

  /** Settles when it is quiet and no job is left; of several that wait, one goes on at a time. */
  whenIdle(): Promise<void> {
    return new Promise((resolve) => {
      this.idle.push(resolve);
      this.arm();
    });
  }

  private arm(): void {
    if (this.armed) return;
    this.armed = true;
    this.turns = 0;
    this.hop(() => this.turn());
  }

  private turn(): void {
    this.calm++;
    this.turns++;
    if (this.calm < CALM_TURNS && this.turns < MOST_TURNS) {
      this.hop(() => this.turn());
      return;
    }
    this.armed = false;
    if (this.waiting.length > 0) {
      const waiting = this.waiting;
      this.waiting = [];
      for (const resolve of waiting) resolve();
    } else {
      // One job a turn: whoever writes on meanwhile is read first.
      const [next] = this.jobs;
      if (next) {
        this.jobs.delete(next[0]);
        next[1]();
      } else this.idle.shift()?.();
    }
    if (this.jobs.size > 0 || this.idle.length > 0) this.arm();
  }
}
