/** Keeps the reader's place: what stood at the top of the window before a change stands there after it. */

interface Anchor {
  readonly element: Element;
  readonly top: number;
}

export function keepPlace(container: HTMLElement, change: () => void): void {
  // At the very top there is nothing above that could push the rest down; what is new there should be seen.
  const anchors = window.scrollY === 0 ? [] : anchorsIn(container);
  const focused = focusedBar();
  change();
  const anchor = anchors.find(({ element }) => element.isConnected);
  if (anchor) window.scrollBy(0, anchor.element.getBoundingClientRect().top - anchor.top);
  refocus(container, focused);
}

/** All parts from the first that is in view, for the first of them may be gone afterwards. */
const anchorsIn = (container: HTMLElement): readonly Anchor[] =>
  [...container.children]
    .map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ box }) => box.bottom > 0)
    .map(({ element, box }) => ({ element, top: box.top }));

const focusedBar = (): string | undefined =>
  document.activeElement instanceof SVGElement ? document.activeElement.dataset.bar : undefined;

/** A bar that was drawn again under the reader's fingers keeps the focus. */
function refocus(container: HTMLElement, bar: string | undefined): void {
  if (bar === undefined || focusedBar() === bar) return;
  container.querySelector<SVGElement>(`[data-bar="${CSS.escape(bar)}"]`)?.focus({ preventScroll: true });
}
