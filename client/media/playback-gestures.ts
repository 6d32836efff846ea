/** What a reader does to the page outside the controls in order to hear something: keys, bars, steps of practice, voicings. */
import { append, button } from './element.ts';

export interface GesturesTell {
  readonly toggled: () => void;
  readonly stopped: () => void;
  /** By the ids of bars. */
  readonly playedFrom: (bar: string) => void;
  readonly barChosen: (bar: string) => void;
  readonly barsChosen: (from: string, to: string) => void;
  readonly practised: (step: number) => void;
  /** The name of a variant; the lesson itself where it is empty. */
  readonly variantPlayed: (variant: string) => void;
  /** The open strings and those that sound, as the page has them; see strum.ts. */
  readonly voicingChosen: (open: string, sounds: string) => void;
}

const BAR = 'g[data-bar]';
const VARIANT = 'panel/variant/';

export class Gestures {
  /** The bar from which a choice with Shift goes. */
  private anchor: string | undefined;

  constructor(
    private readonly page: Document,
    private readonly tell: GesturesTell,
  ) {
    page.addEventListener('click', (event) => this.click(event));
    // With Shift a browser would mark words.
    page.addEventListener('mousedown', (event) => {
      if (event.shiftKey && barAt(event.target) !== undefined) event.preventDefault();
    });
    page.addEventListener('keydown', (event) => this.press(event));
  }

  /** After the page was drawn anew: a button at each step of the practice and at each variant. */
  renew(): void {
    for (const step of this.page.querySelectorAll<HTMLElement>('[data-step]')) {
      if (step.querySelector('.practise')) continue;
      const title = step.querySelector('b')?.textContent ?? '';
      const one = button(step, 'plain practise', 'Practise', () => this.tell.practised(Number(step.dataset.step)));
      one.setAttribute('aria-label', `Practise ${title}`);
      step.querySelector('b')?.after(one);
    }
    for (const block of this.page.querySelectorAll<HTMLElement>(`[data-block^="${VARIANT}"]`)) {
      const head = block.querySelector('h3');
      if (!head || block.querySelector('.hear')) continue;
      const place = append(block, 'p', 'hear');
      head.after(place);
      const variant = block.dataset.block?.slice(VARIANT.length) ?? '';
      const one = button(place, 'plain', 'Play', () => this.tell.variantPlayed(variant));
      one.setAttribute('aria-label', `Play ${head.textContent}`);
    }
  }

  /** Marks the step that is practised; undefined for none. */
  showPractised(practised: number | undefined): void {
    for (const step of this.page.querySelectorAll<HTMLElement>('[data-step]')) {
      const isIt = step.dataset.step === `${practised}`;
      step.classList.toggle('practised', isIt);
      step.querySelector('.practise')?.setAttribute('aria-pressed', `${isIt}`);
    }
  }

  private click({ target, shiftKey, button: pressed }: MouseEvent): void {
    if (!(target instanceof Element) || pressed !== 0) return;
    const voicing = target.closest<HTMLElement>('.voicing[data-sounds]');
    if (voicing) {
      const open = voicing.closest<HTMLElement>('[data-open]')?.dataset.open ?? '';
      this.tell.voicingChosen(open, voicing.dataset.sounds ?? '');
    }
    const bar = barAt(target);
    if (bar === undefined) return;
    if (shiftKey) this.choose(bar, this.anchor ?? bar);
    else {
      this.anchor = bar;
      this.tell.barChosen(bar);
    }
  }

  /** The arrows with Shift go from bar to bar as they do without it, and choose on their way. */
  private press(event: KeyboardEvent): void {
    const bar = barAt(event.target);
    if (event.key === ' ' && isFree(event, this.page)) {
      event.preventDefault();
      this.tell.toggled();
    } else if (event.key === 'Escape' && !event.defaultPrevented) this.tell.stopped();
    else if (bar === undefined || event.altKey) return;
    else if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      this.tell.playedFrom(bar);
    } else if (event.shiftKey && /^(Arrow|Home|End)/.test(event.key)) {
      const now = barAt(this.page.activeElement);
      // The bars have moved the focus already, as they hear the key first; it left the bar that the key was pressed on.
      if (now !== undefined && now !== bar) this.choose(now, this.anchor ?? bar);
    } else if (/^(Arrow|Home|End)/.test(event.key)) this.anchor = undefined;
  }

  private choose(bar: string, anchor: string): void {
    this.anchor = anchor;
    this.tell.barsChosen(anchor, bar);
  }
}

const barAt = (target: EventTarget | null): string | undefined =>
  target instanceof Element ? target.closest<SVGElement>(BAR)?.dataset.bar : undefined;

/** Whether no control has the key for itself. */
const isFree = ({ defaultPrevented, altKey, ctrlKey, metaKey, shiftKey }: KeyboardEvent, page: Document): boolean =>
  !defaultPrevented && !altKey && !ctrlKey && !metaKey && !shiftKey && page.activeElement === page.body;
