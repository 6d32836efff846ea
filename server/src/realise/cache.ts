/** What is worth keeping from one version of a lesson to the next: results by what they depend on, the oldest dropped first. */
import type { SectionPlan } from '../lesson/lesson.ts';
import type { Asked } from './choose.ts';
import type { BarScore, MissedNote, SectionScore } from './score.ts';
import type { Sung } from './sung.ts';
import type { SungChoices } from './sung-choices.ts';
import type { ExactVoicing, VoicingSet } from './voicings.ts';
import type { WrittenGrip } from './written-hand.ts';

/** Chords times shapes of some lessons at once. */
const MOST_VOICING_SETS = 256;
/** Pairs of voicing sets that follow each other; a table takes at most 10 kB. */
const MOST_MOVEMENT_TABLES = 1024;
/** Chords with a melody over them, each with its ways of being held, and chords with what is plucked over each way. */
const MOST_SUNG = 512;
/** Moments of written-out bars that press the same strings. */
const MOST_WRITTEN = 1024;
const MOST_SECTIONS = 64;
/** Cells, contours, scales and the ways in which they lie over chords. */
const MOST_NUMBERS = 4096;
const MOST_BARS = 2000;

/** A map that forgets what was not asked for longest. */
export class BoundedMap<Value> {
  private readonly entries = new Map<string, Value>();

  constructor(private readonly most: number) {}

  get size(): number {
    return this.entries.size;
  }

  get(key: string, compute: () => Value): Value {
    const known = this.entries.get(key);
    if (known !== undefined) {
      this.entries.delete(key);
      this.entries.set(key, known);
      return known;
    }
    const value = compute();
    this.entries.set(key, value);
    if (this.entries.size > this.most) this.entries.delete(this.entries.keys().next().value as string);
    return value;
  }
}

/** Belongs to a session. Nothing in it changes a result: with an empty one everything is the same, only later. */
export class RealiseCache {
  readonly voicings = new BoundedMap<VoicingSet>(MOST_VOICING_SETS);
  readonly exact = new BoundedMap<ExactVoicing>(MOST_VOICING_SETS);
  readonly movements = new BoundedMap<Int32Array>(MOST_MOVEMENT_TABLES);
  /** Undefined where the melody has no string to lie on. */
  readonly sung = new BoundedMap<{ readonly choices: SungChoices | undefined }>(MOST_SUNG);
  readonly written = new BoundedMap<WrittenGrip>(MOST_WRITTEN);
  readonly asked = new BoundedMap<readonly Asked[]>(MOST_SUNG);
  /** What the hand cannot have of a melody, for those whose `choices` are kept. */
  readonly missed = new WeakMap<Sung, MissedNote | undefined>();
  readonly sections = new BoundedMap<SectionScore>(MOST_SECTIONS);
  readonly bars = new BoundedMap<BarScore>(MOST_BARS);
  /** The same plan object is the same music, whatever its content: spares the key. */
  readonly plans = new WeakMap<SectionPlan, Map<string, SectionScore>>();
  private readonly numbers = new BoundedMap<number>(MOST_NUMBERS);
  private sets = 0;
  private texts = 0;

  /** A number for a new voicing set, so that tables between two sets have a short key. */
  nextSet(): number {
    return ++this.sets;
  }

  /** A number that stands for a long text in keys: the same for the same text as long as it is remembered. */
  numberOf(text: string): number {
    return this.numbers.get(text, () => ++this.texts);
  }
}
