/** The bars that are drawn: chosen by mouse or keyboard, and marked where the cursor is in the text. */
import type { PlaceInText, PreviewBar } from '../../server/src/protocol.ts';
import { chordAt, holds, idsAt, lastOf, type Cursor } from './places.ts';
import { nearestRow } from './roving.ts';

const MARK = 'here';

/** Upper and lower edge, in pixels of the window, of what is not covered by bars of buttons. */
export type Sight = () => { readonly top: number; readonly bottom: number };

export class Bars {
  private bars: readonly PreviewBar[] = [];
  private cursor: Cursor | undefined;
  private marked = '';

  constructor(
    private readonly place: HTMLElement,
    private readonly choose: (place: PlaceInText) => void,
    private readonly sight: Sight,
  ) {
    place.addEventListener('click', (event) => this.click(event));
    place.addEventListener('keydown', (event) => this.press(event));
    place.addEventListener('focusin', (event) => {
      const bar = barOf(event.target);
      if (bar) this.enter(bar);
    });
  }

  /** After the drawing has changed; the bars are those of the new drawing. */
  renew(bars: readonly PreviewBar[]): void {
    this.bars = bars;
    this.enter(barOf(document.activeElement));
    const before = this.marked;
    this.mark();
    // While bars are being written the cursor moves on before they are drawn.
    if (before !== this.marked) this.showMarked();
  }

  /** Marks the bars written at the cursor and brings one of them into view, unless one is in view already. */
  follow(cursor: Cursor): void {
    const isElsewhere = this.cursor?.line !== cursor.line || this.cursor.character !== cursor.character;
    this.cursor = cursor;
    this.mark();
    if (isElsewhere) this.showMarked();
  }

  /** Marks the bars where the cursor was when the page was left, and leaves the page where it is. */
  adopt(cursor: Cursor): void {
    this.cursor = cursor;
    this.mark();
  }

  /** Brings the marked bars into view, unless one is. */
  showMarked(): void {
    const blocks = this.elements
      .filter((element) => element.classList.contains(MARK))
      .map((element) => element.closest('.block'));
    const sight = this.sight();
    if (blocks.some((block) => block !== null && isIn(block, sight))) return;
    blocks[0]?.scrollIntoView({ block: 'nearest' });
  }

  private get elements(): readonly SVGElement[] {
    return [...this.place.querySelectorAll<SVGElement>('[data-bar]:not(button)')];
  }

  private click(event: MouseEvent): void {
    const element = barOf(event.target);
    const bar = element && this.bars.find(({ id }) => id === element.dataset.bar);
    if (!bar || event.button !== 0) return;
    const { chords } = bar;
    this.choose(chords.length > 1 ? (chords[chordUnder(element, event.clientX)] ?? bar.place) : bar.place);
  }

  private press(event: KeyboardEvent): void {
    const bar = barOf(event.target);
    if (!bar || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === 'Enter' || event.key === ' ') this.reveal(bar);
    else {
      const next = neighbour(this.elements, bar, event.key);
      if (!next) return;
      next.focus();
      next.closest('.block')?.scrollIntoView({ block: 'nearest' });
    }
    event.preventDefault();
  }

  /** One bar at a time is a stop of the Tab key; the arrows lead from there to all others. */
  private enter(bar: SVGElement | undefined): void {
    const { elements } = this;
    const known = bar && elements.includes(bar) ? bar : undefined;
    const stop = known ?? elements.find((element) => element.classList.contains(MARK)) ?? elements[0];
    for (const element of elements) element.setAttribute('tabindex', element === stop ? '0' : '-1');
  }

  /** A bar that is chosen again leads to its next chord, and from the last back to the first. */
  private reveal(element: SVGElement): void {
    const bar = this.bars.find(({ id }) => id === element.dataset.bar);
    if (!bar) return;
    const { chords, place } = bar;
    const here = this.cursor && holds(place, this.cursor) ? chordAt([bar], this.cursor)?.chord : undefined;
    const next = here === undefined ? 0 : (here + 1) % Math.max(1, chords.length);
    this.choose(chords.length > 1 ? chords[next] : place);
  }

  private mark(): void {
    const here = new Set(this.cursor ? idsAt(this.bars, this.cursor) : []);
    for (const element of this.elements) element.classList.toggle(MARK, here.has(element.dataset.bar ?? ''));
    this.marked = [...here].join(' ');
  }
}

const barOf = (target: EventTarget | null): SVGElement | undefined =>
  target instanceof Element ? (target.closest<SVGElement>('[data-bar]:not(button)') ?? undefined) : undefined;

function isIn(element: Element, sight: ReturnType<Sight>): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= sight.top && bottom <= sight.bottom;
}

/** The chord of a bar whose name stands last before a place; the first where none does. */
function chordUnder(bar: SVGElement, x: number): number {
  const names = [...bar.querySelectorAll('.symbol')];
  return Math.max(
    0,
    lastOf(names, (name) => name.getBoundingClientRect().left <= x),
  );
}

/** The bar that a key leads to: along the bars, to the system above or below, to the first or the last. */
function neighbour(bars: readonly SVGElement[], bar: SVGElement, key: string): SVGElement | undefined {
  const at = bars.indexOf(bar);
  if (key === 'ArrowRight') return bars[at + 1];
  if (key === 'ArrowLeft') return bars[at - 1];
  if (key === 'Home') return bars[0];
  if (key === 'End') return bars[bars.length - 1];
  if (key !== 'ArrowDown' && key !== 'ArrowUp') return undefined;
  return nearestRow(bar, key === 'ArrowDown' ? bars.slice(at + 1) : bars.slice(0, at).reverse());
}
