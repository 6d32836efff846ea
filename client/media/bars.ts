/** The bars that are drawn: chosen by mouse or keyboard, and marked where the cursor is in the text. */
import type { PlaceInText, PreviewBar } from '../../server/src/protocol.ts';

interface Cursor {
  readonly line: number;
  readonly character: number;
}

const MARK = 'here';

export class Bars {
  private bars: readonly PreviewBar[] = [];
  private cursor: Cursor | undefined;
  private marked = '';

  constructor(
    private readonly place: HTMLElement,
    private readonly choose: (place: PlaceInText) => void,
  ) {
    place.addEventListener('click', (event) => this.click(event));
    place.addEventListener('keydown', (event) => this.press(event));
    place.addEventListener('focusin', (event) => this.enter(barOf(event.target)));
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

  private get elements(): readonly SVGElement[] {
    return [...this.place.querySelectorAll<SVGElement>('[data-bar]')];
  }

  private click(event: MouseEvent): void {
    const bar = barOf(event.target);
    if (bar && event.button === 0) this.reveal(bar);
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
    const stop = bar ?? elements.find((element) => element.classList.contains(MARK)) ?? elements[0];
    for (const element of elements) element.setAttribute('tabindex', element === stop ? '0' : '-1');
  }

  private reveal(element: SVGElement): void {
    const bar = this.bars.find(({ id }) => id === element.dataset.bar);
    if (bar) this.choose(bar.place);
  }

  private mark(): void {
    const here = new Set(this.cursor ? idsAt(this.bars, this.cursor) : []);
    for (const element of this.elements) element.classList.toggle(MARK, here.has(element.dataset.bar ?? ''));
    this.marked = [...here].join(' ');
  }

  private showMarked(): void {
    const blocks = this.elements
      .filter((element) => element.classList.contains(MARK))
      .map((element) => element.closest('.block'));
    if (blocks.some((block) => block !== null && isInView(block))) return;
    blocks[0]?.scrollIntoView({ block: 'nearest' });
  }
}

const barOf = (target: EventTarget | null): SVGElement | undefined =>
  target instanceof Element ? (target.closest<SVGElement>('[data-bar]') ?? undefined) : undefined;

function isInView(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= window.innerHeight;
}

/** The bars whose text holds the cursor; between two bars of a line, at its bar line, the one before. */
function idsAt(bars: readonly PreviewBar[], { line, character }: Cursor): readonly string[] {
  const inside = bars.filter(({ place }) => isBetween(place, line, character));
  if (inside.length > 0) return inside.map(({ id }) => id);
  const before = bars.filter(({ place }) => place.endLine === line && place.endCharacter < character);
  const last = Math.max(...before.map(({ place }) => place.endCharacter));
  return before.filter(({ place }) => place.endCharacter === last).map(({ id }) => id);
}

function isBetween(place: PlaceInText, line: number, character: number): boolean {
  const begun = line > place.startLine || (line === place.startLine && character >= place.startCharacter);
  const ended = line > place.endLine || (line === place.endLine && character > place.endCharacter);
  return begun && !ended;
}

/** The bar that a key leads to: along the bars, to the system above or below, to the first or the last. */
function neighbour(bars: readonly SVGElement[], bar: SVGElement, key: string): SVGElement | undefined {
  const at = bars.indexOf(bar);
  if (key === 'ArrowRight') return bars[at + 1];
  if (key === 'ArrowLeft') return bars[at - 1];
  if (key === 'Home') return bars[0];
  if (key === 'End') return bars[bars.length - 1];
  if (key !== 'ArrowDown' && key !== 'ArrowUp') return undefined;
  const block = bar.closest('.block');
  const beyond = (key === 'ArrowDown' ? bars.slice(at) : bars.slice(0, at).reverse()).find(
    (other) => other.closest('.block') !== block,
  );
  if (!beyond) return undefined;
  const { left } = bar.getBoundingClientRect();
  const way = (other: SVGElement): number => Math.abs(other.getBoundingClientRect().left - left);
  const row = bars.filter((other) => other.closest('.block') === beyond.closest('.block'));
  return row.reduce((nearest, other) => (way(other) < way(nearest) ? other : nearest));
}
