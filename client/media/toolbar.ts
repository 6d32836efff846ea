/** The bar of buttons above the music: which reading, which hand, which print. */
import { READINGS, type PreviewView, type Reading } from '../../server/src/protocol.ts';
import { append, button } from './element.ts';
import { Roving } from './roving.ts';

/** Without the panel, which has buttons of its own. */
export type Look = Omit<PreviewView, 'panel'>;

export class Toolbar {
  readonly element: HTMLElement;
  private readonly readings = new Map<Reading, HTMLElement>();
  private readonly leftHanded: HTMLElement;
  private readonly largePrint: HTMLElement;
  private look: Look | undefined;

  constructor(
    place: HTMLElement,
    private readonly choose: (look: Look, says: string) => void,
  ) {
    this.element = append(place, 'div', 'tools');
    this.element.setAttribute('role', 'toolbar');
    this.element.setAttribute('aria-label', 'How the lesson is shown');
    const readings = append(this.element, 'div', 'readings');
    readings.setAttribute('role', 'radiogroup');
    readings.setAttribute('aria-label', 'What stands on the strings');
    for (const reading of READINGS) {
      const one = button(readings, 'reading', reading, () => this.change({ reading }, `Shown as ${reading}`));
      one.setAttribute('role', 'radio');
      // As with all radio buttons, an arrow chooses as it goes.
      one.addEventListener('focus', () => one.matches(':focus-visible') && one.click());
      this.readings.set(reading, one);
    }
    new Roving(readings, 'button');
    const more = append(this.element, 'div', 'switches');
    this.leftHanded = button(more, 'switch left-handed', 'left-handed', () =>
      this.toggle('leftHanded', 'Left-handed diagrams'),
    );
    this.largePrint = button(more, 'switch', 'large print', () => this.toggle('largePrint', 'Large print'));
  }

  show(look: Look): void {
    this.look = look;
    for (const [reading, one] of this.readings) {
      one.setAttribute('aria-checked', `${reading === look.reading}`);
      one.tabIndex = reading === look.reading ? 0 : -1;
    }
    this.leftHanded.setAttribute('aria-pressed', `${look.leftHanded}`);
    this.largePrint.setAttribute('aria-pressed', `${look.largePrint}`);
  }

  private toggle(which: 'leftHanded' | 'largePrint', words: string): void {
    const on = !this.look?.[which];
    this.change({ [which]: on }, `${words} ${on ? 'on' : 'off'}`);
  }

  private change(part: Partial<Look>, says: string): void {
    if (!this.look) return;
    const { reading, leftHanded, largePrint } = { ...this.look, ...part };
    const look = { reading, leftHanded, largePrint };
    if (JSON.stringify(look) === JSON.stringify(this.look)) return;
    this.show(look);
    this.choose(look, says);
  }
}
