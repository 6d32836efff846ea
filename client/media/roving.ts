/** One stop of the Tab key for a group of things; the arrows lead from there to the others, wherever they stand. */

/** Things of `selector` inside `place`, now and later. */
export class Roving {
  constructor(
    private readonly place: HTMLElement,
    private readonly selector: string,
  ) {
    place.addEventListener('keydown', (event) => this.press(event));
    place.addEventListener('focusin', (event) => {
      const thing = this.thingOf(event.target);
      if (thing) this.enter(thing);
    });
  }

  /** After the things have changed; `stop` is where Tab leads to, else what it was, else the first. */
  renew(stop?: Element | null): void {
    const { things } = this;
    const focused = this.thingOf(document.activeElement);
    const before = things.find((thing) => thing.getAttribute('tabindex') === '0');
    this.enter(focused ?? (stop as HTMLElement | null | undefined) ?? before ?? things[0]);
  }

  private get things(): readonly HTMLElement[] {
    return [...this.place.querySelectorAll<HTMLElement>(this.selector)];
  }

  private thingOf(target: EventTarget | null): HTMLElement | undefined {
    const thing = target instanceof Element ? target.closest<HTMLElement>(this.selector) : null;
    return thing && this.place.contains(thing) ? thing : undefined;
  }

  private enter(stop: HTMLElement | undefined): void {
    for (const thing of this.things) thing.setAttribute('tabindex', thing === stop ? '0' : '-1');
  }

  private press(event: KeyboardEvent): void {
    const thing = this.thingOf(event.target);
    if (!thing || event.altKey || event.ctrlKey || event.metaKey) return;
    const next = this.neighbour(thing, event.key);
    if (!next) return;
    next.focus();
    next.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    event.preventDefault();
  }

  private neighbour(thing: HTMLElement, key: string): HTMLElement | undefined {
    const { things } = this;
    const at = things.indexOf(thing);
    if (key === 'ArrowRight') return things[at + 1];
    if (key === 'ArrowLeft') return things[at - 1];
    if (key === 'Home') return things[0];
    if (key === 'End') return things[things.length - 1];
    if (key !== 'ArrowDown' && key !== 'ArrowUp') return undefined;
    return nearestRow(thing, key === 'ArrowDown' ? things.slice(at + 1) : things.slice(0, at).reverse());
  }
}

/** Of those in the next row, the one that stands nearest to the same upright line. `others` in the order of the way there. */
export function nearestRow<Thing extends Element>(from: Element, others: readonly Thing[]): Thing | undefined {
  const here = from.getBoundingClientRect();
  const isBeside = (box: DOMRect, other: DOMRect): boolean => box.top < other.bottom && other.top < box.bottom;
  const beyond = others.find((other) => !isBeside(other.getBoundingClientRect(), here));
  if (!beyond) return undefined;
  const row = others.filter((other) => isBeside(other.getBoundingClientRect(), beyond.getBoundingClientRect()));
  const way = (other: Element): number => Math.abs(other.getBoundingClientRect().left - here.left);
  return row.reduce((nearest, other) => (way(other) < way(nearest) ? other : nearest));
}
