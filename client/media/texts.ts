/** Prose and practice in the page: what is chosen leads to its place in the text, and the cursor's place is marked. */
import type { PlaceInText, PreviewText } from '../../server/src/protocol.ts';
import type { Sight } from './bars.ts';
import { textAt, type Cursor } from './places.ts';

const MARK = 'at-cursor';

export class Texts {
  private texts: readonly PreviewText[] = [];
  private cursor: Cursor | undefined;

  constructor(
    private readonly place: HTMLElement,
    private readonly choose: (place: PlaceInText) => void,
    private readonly sight: Sight,
  ) {
    place.addEventListener('click', ({ target, button }) => {
      const isWord = target instanceof Element && !target.closest('a, button, svg');
      // Whoever marks words to copy them does not want to go anywhere.
      if (isWord && button === 0 && getSelection()?.isCollapsed !== false) this.reveal(target);
    });
    place.addEventListener('keydown', (event) => {
      const { target, key } = event;
      if (!(target instanceof HTMLElement) || !target.matches('.goes') || (key !== 'Enter' && key !== ' ')) return;
      this.reveal(target);
      event.preventDefault();
    });
  }

  renew(texts: readonly PreviewText[]): void {
    this.texts = texts;
    for (const text of texts) {
      const element = this.elementOf(text);
      if (!element || element.classList.contains('goes')) continue;
      element.classList.add('goes');
      element.tabIndex = 0;
      if (text.step !== undefined) continue;
      element.setAttribute('role', 'group');
      element.setAttribute('aria-label', 'Prose; Enter leads to its place in the text');
    }
    this.mark();
  }

  follow(cursor: Cursor): void {
    const isElsewhere = this.cursor?.line !== cursor.line;
    this.cursor = cursor;
    const here = this.mark();
    if (!here || !isElsewhere) return;
    const { top, bottom } = here.getBoundingClientRect();
    const sight = this.sight();
    if (top > sight.bottom || bottom < sight.top) here.scrollIntoView({ block: 'nearest' });
  }

  /** Marks what the cursor was at when the page was left, and leaves the page where it is. */
  adopt(cursor: Cursor): void {
    this.cursor = cursor;
    this.mark();
  }

  private mark(): HTMLElement | undefined {
    const found = this.cursor && textAt(this.texts, this.cursor);
    const here = found && this.elementOf(found);
    for (const element of this.place.querySelectorAll(`.${MARK}`)) if (element !== here) element.classList.remove(MARK);
    here?.classList.add(MARK);
    return here;
  }

  private reveal(target: Element): void {
    const text = this.texts.find((one) => one.step !== undefined && this.elementOf(one)?.contains(target));
    const found = text ?? this.texts.find((one) => one.step === undefined && this.elementOf(one)?.contains(target));
    if (found) this.choose(found.place);
  }

  private elementOf({ block, step }: PreviewText): HTMLElement | undefined {
    const whole = this.place.querySelector<HTMLElement>(`[data-block="${CSS.escape(block)}"]`) ?? undefined;
    return step === undefined ? whole : (whole?.querySelector<HTMLElement>(`[data-step="${step}"]`) ?? undefined);
  }
}
