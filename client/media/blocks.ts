/** The parts of the preview: what has not changed keeps its elements, what has is replaced where it stands. */
import type { PreviewBlock } from '../../server/src/protocol.ts';

interface Shown {
  readonly element: HTMLElement;
  hash: string;
}

export class Blocks {
  private readonly shown = new Map<string, Shown>();

  constructor(private readonly place: HTMLElement) {}

  /** False where a part should be there from before and is not: then everything must be asked for again. */
  show(blocks: readonly PreviewBlock[]): boolean {
    const wanted = new Set(blocks.map(({ id }) => id));
    for (const [id, { element }] of this.shown) {
      if (wanted.has(id)) continue;
      element.remove();
      this.shown.delete(id);
    }
    let isWhole = true;
    let next = this.place.firstElementChild;
    for (const block of blocks) {
      const element = this.elementFor(block);
      if (this.shown.get(block.id)?.hash !== block.hash) isWhole = false;
      if (!element) continue;
      // Only what stands elsewhere is moved: moving an element would take the focus from it.
      if (element === next) next = element.nextElementSibling;
      else this.place.insertBefore(element, next);
    }
    return isWhole;
  }

  private elementFor({ id, hash, content }: PreviewBlock): HTMLElement | undefined {
    const before = this.shown.get(id);
    if (before?.hash === hash) return before.element;
    if (content === undefined) return before?.element;
    const shown = before ?? { element: newBlock(id), hash };
    shown.hash = hash;
    fill(shown.element, content);
    this.shown.set(id, shown);
    return shown.element;
  }
}

function newBlock(id: string): HTMLElement {
  const element = document.createElement('div');
  element.className = 'block';
  element.dataset.block = id;
  return element;
}

/** Through a template, in which nothing is loaded or run; outside it the page's policy forbids every script but ours. */
function fill(element: HTMLElement, content: string): void {
  const template = document.createElement('template');
  template.innerHTML = content;
  element.replaceChildren(template.content);
}
