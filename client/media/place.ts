/** Keeps the reader's place: what stood at the top of the window before a change stands there after it. */
import type { KeptPage } from '../../server/src/protocol.ts';

interface Anchor {
  readonly element: Element;
  readonly top: number;
}

/** `top` is the upper edge of what is seen of the window, in pixels. */
export function keepPlace(container: HTMLElement, top: number, change: () => void): void {
  // At the very top there is nothing above that could push the rest down; what is new there should be seen.
  const anchors = window.scrollY === 0 ? [] : anchorsIn(container, top);
  const focused = focusedBar();
  change();
  const anchor = anchors.find(({ element }) => element.isConnected);
  if (anchor) window.scrollBy(0, anchor.element.getBoundingClientRect().top - anchor.top);
  refocus(container, focused);
}

/** The part at the top, for finding it again when the page is loaded anew; undefined at the very top. */
export function partAtTop(container: HTMLElement, edge: number): KeptPage['part'] {
  if (window.scrollY === 0) return undefined;
  const [first] = anchorsIn(container, edge);
  const { block } = first?.element instanceof HTMLElement ? first.element.dataset : {};
  return block === undefined ? undefined : { block, top: Math.round(first.top) };
}

export function showPart(container: HTMLElement, { block, top }: NonNullable<KeptPage['part']>): void {
  const element = container.querySelector(`[data-block="${CSS.escape(block)}"]`);
  if (element) window.scrollBy(0, element.getBoundingClientRect().top - top);
}

/** All parts from the first that is in view, for the first of them may be gone afterwards. */
const anchorsIn = (container: HTMLElement, edge: number): readonly Anchor[] =>
  [...container.children]
    .map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ box }) => box.bottom > edge)
    .map(({ element, box }) => ({ element, top: box.top }));

const focusedBar = (): string | undefined =>
  document.activeElement instanceof SVGElement ? document.activeElement.dataset.bar : undefined;

/** A bar that was drawn again under the reader's fingers keeps the focus. */
function refocus(container: HTMLElement, bar: string | undefined): void {
  if (bar === undefined || focusedBar() === bar) return;
  container.querySelector<SVGElement>(`g[data-bar="${CSS.escape(bar)}"]`)?.focus({ preventScroll: true });
}
