/** The foot of the page, which stays in sight: what plays, the buttons of what can be opened, and above them what is open. */
import {
  PANELS,
  type PanelAsked,
  type PanelKind,
  type PreviewChange,
  type PreviewPanel,
} from '../../server/src/protocol.ts';
import { Blocks } from './blocks.ts';
import { append, button } from './element.ts';
import type { ChordHere } from './places.ts';
import { Roving } from './roving.ts';

const NAMES: Readonly<Record<PanelKind, string>> = {
  neck: 'Neck',
  voicings: 'Voicings',
  'open-strings': 'Open strings',
  variants: 'Variants',
};

export interface DockTells {
  /** Something was opened, closed, or wanted more of. */
  readonly asked: (panel: PanelAsked | undefined) => void;
  readonly chosen: (chord: ChordHere, change: PreviewChange) => void;
  /** For those who hear the page. */
  readonly heard: (words: string) => void;
}

export class Dock {
  readonly element: HTMLElement;
  /** The controls of playback come before the buttons, and what is opened is the next stop behind them. */
  readonly player: HTMLElement;
  /** Where bars of the variants are drawn. */
  readonly body: HTMLElement;
  private readonly open: HTMLElement;
  private readonly title: HTMLElement;
  private readonly choices: HTMLElement;
  private readonly offer: HTMLElement;
  private readonly blocks: Blocks;
  private readonly roving: Roving;
  private readonly buttons = new Map<PanelKind, HTMLElement>();
  private asked: PanelAsked | undefined;
  private chord: ChordHere | undefined;
  private variant = '';

  constructor(
    place: HTMLElement,
    private readonly tells: DockTells,
  ) {
    this.element = append(place, 'aside', 'dock');
    this.element.setAttribute('aria-label', 'More about this place');
    const foot = append(this.element, 'div', 'foot');
    this.player = append(foot, 'div', 'foot-part');
    const row = append(foot, 'div', 'panels');
    this.open = append(this.element, 'div', 'open-panel');
    this.open.id = 'open-panel';
    this.open.setAttribute('role', 'region');
    this.open.setAttribute('aria-labelledby', 'open-panel-title');
    this.open.tabIndex = 0;
    this.open.hidden = true;
    this.title = append(this.open, 'h2', 'panel-title');
    this.title.id = 'open-panel-title';
    this.choices = append(this.open, 'div', 'variant-choices');
    this.body = append(this.open, 'div', 'panel-blocks');
    this.blocks = new Blocks(this.body);
    this.offer = append(this.open, 'div', 'offer');
    row.setAttribute('role', 'toolbar');
    row.setAttribute('aria-label', 'What is open below the music');
    for (const kind of PANELS) {
      const one = button(row, 'opens', NAMES[kind], () => this.toggle(kind));
      one.setAttribute('aria-expanded', 'false');
      one.setAttribute('aria-controls', 'open-panel');
      this.buttons.set(kind, one);
    }
    new Roving(row, 'button').renew();
    this.roving = new Roving(this.body, '.voicing, .cell');
    this.body.addEventListener('click', ({ target }) => {
      const pressed = target instanceof Element ? target.closest<HTMLElement>('button') : null;
      if (pressed) this.press(pressed);
    });
    this.element.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape' || !this.asked) return;
      event.preventDefault();
      if (this.offer.hasChildNodes()) this.takeBack();
      else this.close();
    });
  }

  get isOpen(): boolean {
    return !this.open.hidden;
  }

  /** Which panel is wanted, whoever says so. */
  set(panel: PanelAsked | undefined): void {
    this.asked = panel;
    for (const [kind, one] of this.buttons) one.setAttribute('aria-expanded', `${kind === panel?.kind}`);
    if (panel) return;
    this.open.hidden = true;
    this.blocks.show([]);
    this.offer.replaceChildren();
    this.choices.replaceChildren();
  }

  /** Another chord is looked at: what is open follows it. What was open for the one before is dropped. */
  follow(chord: ChordHere): void {
    this.chord = chord;
    if (!this.asked || (this.asked.bar === chord.bar && this.asked.chord === chord.chord)) return;
    this.offer.replaceChildren();
    this.ask({ kind: this.asked.kind });
  }

  /** False where a part should be there from before and is not. */
  show(panel: PreviewPanel | undefined): boolean {
    if (!panel || panel.kind !== this.asked?.kind) return true;
    const isNew = this.open.hidden || this.title.textContent !== panel.title;
    const key = keyOf(document.activeElement);
    const isWhole = this.blocks.show(panel.blocks);
    this.open.hidden = false;
    this.open.dataset.kind = panel.kind;
    this.title.textContent = panel.title;
    if (key !== undefined && !this.body.contains(document.activeElement))
      this.body.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)?.focus({ preventScroll: true });
    this.roving.renew(this.body.querySelector('[aria-pressed="true"]'));
    this.setVariants();
    if (isNew) this.tells.heard(`${NAMES[panel.kind]}: ${panel.title}`);
    return isWhole;
  }

  private toggle(kind: PanelKind): void {
    if (this.asked?.kind === kind) this.close();
    else {
      this.offer.replaceChildren();
      this.ask({ kind });
    }
  }

  private close(): void {
    const kind = this.asked?.kind;
    this.set(undefined);
    this.tells.asked(undefined);
    this.tells.heard('Closed');
    if (kind) this.buttons.get(kind)?.focus();
  }

  private ask({ kind, most }: Pick<PanelAsked, 'kind' | 'most'>): void {
    const asked = { kind, ...this.chord, ...(most !== undefined && { most }) };
    this.set(asked);
    this.tells.asked(asked);
  }

  private press({ dataset, classList }: HTMLElement): void {
    const { chord } = this;
    if (dataset.most !== undefined) this.ask({ kind: 'voicings', most: Number(dataset.most) });
    else if (dataset.unpin !== undefined && chord) this.tells.chosen(chord, { kind: 'unpin' });
    else if (dataset.pin !== undefined && chord) this.tells.chosen(chord, { kind: 'pin', frets: dataset.pin });
    else if (classList.contains('cell')) this.offerFor(dataset);
  }

  /** What a cell of the map would change, in words, with a button for each way of writing it. */
  private offerFor({ bar = '', chord, string, rings, frets, line, shape, key }: DOMStringMap): void {
    const place = { bar, chord: Number(chord) };
    const cell = this.body.querySelector(`[data-key="${CSS.escape(key ?? '')}"]`);
    this.offer.replaceChildren();
    this.offer.dataset.of = key;
    append(this.offer, 'p', 'offer-words', cell?.getAttribute('aria-label') ?? '');
    const row = append(this.offer, 'div', 'offer-buttons');
    const write = (change: PreviewChange): void => {
      this.takeBack();
      this.tells.chosen(place, change);
    };
    if (line !== undefined)
      button(row, 'plain', `in every chord of shape ${shape}: ${line}`, () =>
        write({ kind: 'open', string: Number(string), rings: rings !== 'true' }),
      );
    if (frets !== undefined) button(row, 'plain', `in this chord alone: ${frets}`, () => write({ kind: 'pin', frets }));
    if (!row.hasChildNodes()) append(row, 'span', 'quiet', 'No hand could hold that.');
    row.querySelector('button')?.focus();
    this.offer.scrollIntoView({ block: 'nearest' });
  }

  private takeBack(): void {
    const { of } = this.offer.dataset;
    this.offer.replaceChildren();
    this.body.querySelector<HTMLElement>(`[data-key="${CSS.escape(of ?? '')}"]`)?.focus();
  }

  /** Side by side, or one at a time with a row of buttons to choose among them. */
  private setVariants(): void {
    const mode = this.body.querySelector<HTMLElement>('[data-variants]')?.dataset.variants;
    this.body.dataset.variants = mode ?? '';
    const parts = [...this.body.querySelectorAll<HTMLElement>('.block:has(> section)')];
    const names = parts.map((part) => part.querySelector('h3')?.textContent ?? '');
    const isTabs = mode === 'tabs';
    const chosen = names.includes(this.variant) ? this.variant : names[Math.min(1, names.length - 1)];
    parts.forEach((part, at) => (part.hidden = isTabs && names[at] !== chosen));
    const shown = [...this.choices.children].map(({ textContent }) => textContent);
    if (!isTabs) this.choices.replaceChildren();
    else if (shown.join('\n') !== names.join('\n')) {
      this.choices.replaceChildren();
      for (const name of names)
        button(this.choices, 'plain', name, () => {
          this.variant = name;
          this.setVariants();
        });
    }
    for (const one of this.choices.children) one.setAttribute('aria-pressed', `${one.textContent === chosen}`);
  }
}

const keyOf = (element: Element | null): string | undefined =>
  element instanceof HTMLElement ? element.closest<HTMLElement>('[data-key]')?.dataset.key : undefined;
