/** Marks in the tab what is heard: the notes that sound, the bar that is played, the bars that are repeated. */
import type { SoundBar, SoundNote } from '../../server/src/sound/timeline.ts';
import { idOf, type PlayedLesson } from './played-bars.ts';
import type { HeardNow } from './player.ts';

const SOUNDING = 'sounding';
const PLAYING = 'playing';
const REPEATED = 'repeated';

const VARIANT = 'panel/variant/';

export class PlaybackMarks {
  private readonly marked = new Map<string, readonly Element[]>();
  /** The elements of each bar, for as long as the page is not drawn anew. */
  private readonly known = new Map<string, readonly Element[]>();
  private shown: { readonly bar: SoundBar | undefined; readonly notes: readonly SoundNote[] } | undefined;

  /** In `page` a bar may stand more than once. */
  constructor(private readonly page: Document) {}

  /** The page was drawn anew: what is marked must be found again. */
  renew(): void {
    this.known.clear();
    this.shown = undefined;
  }

  /** True where the bar that is played is another than before. */
  show(lesson: PlayedLesson | undefined, now: HeardNow): boolean {
    // Told some forty times a second, and mostly of the same.
    if (this.shown && this.shown.bar === now.bar && this.shown.notes === now.notes) return false;
    this.shown = { bar: now.bar, notes: now.notes };
    const bar = lesson && now.isPlaying && now.bar ? idOf(lesson, now.bar) : undefined;
    const isOther = this.set(PLAYING, bar === undefined || !lesson ? [] : this.elementsOf(bar, lesson));
    const notes = lesson && now.isPlaying ? now.notes.flatMap((note) => this.numbersOf(note, lesson)) : [];
    this.set(SOUNDING, notes);
    return isOther;
  }

  /** By their ids. */
  repeat(lesson: PlayedLesson | undefined, bars: Iterable<string>): void {
    this.set(REPEATED, lesson ? [...new Set(bars)].flatMap((bar) => this.elementsOf(bar, lesson)) : []);
  }

  /** What is marked as played, for bringing it into view. */
  get playing(): readonly Element[] {
    return this.marked.get(PLAYING) ?? [];
  }

  private set(mark: string, elements: readonly Element[]): boolean {
    const before = this.marked.get(mark) ?? [];
    if (before.length === elements.length && before.every((element, at) => element === elements[at])) return false;
    for (const element of before) if (!elements.includes(element)) element.classList.remove(mark);
    for (const element of elements) element.classList.add(mark);
    this.marked.set(mark, elements);
    return true;
  }

  private numbersOf({ place }: SoundNote, lesson: PlayedLesson): readonly Element[] {
    const bar = lesson.timeline.bars.find(
      ({ section, bar: index }) => section === place.section && index === place.bar,
    );
    const id = bar && idOf(lesson, bar);
    if (id === undefined || place.event < 0) return [];
    return this.elementsOf(id, lesson).flatMap((element) => [
      ...element.querySelectorAll(`[data-note="${place.event}"]`),
    ]);
  }

  /** A variant is marked where it is drawn itself; the lesson wherever its bars are. */
  private elementsOf(bar: string, { variant = '' }: PlayedLesson): readonly Element[] {
    const key = `${variant} ${bar}`;
    let elements = this.known.get(key);
    if (!elements) {
      elements = [...this.page.querySelectorAll(`g[data-bar="${CSS.escape(bar)}"]`)].filter((element) => {
        const drawn = element.closest<HTMLElement>(`[data-block^="${VARIANT}"]`)?.dataset.block?.slice(VARIANT.length);
        return (drawn ?? '') === variant;
      });
      this.known.set(key, elements);
    }
    return elements;
  }
}
