/** The rows of marks under a tab: plucking fingers, fretting fingers and the muting palm, step by step. */
import type { Leaf } from '../syntax/tree.ts';
import type { PluckingFinger } from './lesson.ts';
import type { Source } from './reader.ts';
import type { Row, RowBar, System } from './tab-rows.ts';
import type { TabNote } from './tab-time.ts';

/** The notes that begin at one step: a list for each string that has any, from the lowest string up. */
export type StepNotes = (readonly TabNote[])[];

const areNeighbours = (notes: readonly TabNote[]): boolean =>
  notes.every((note, i) => i === 0 || notes[i - 1].string - note.string <= 1);

export class MarkReader {
  /** The rows that this bar has. */
  readonly rows: readonly { readonly label: string; readonly bar: RowBar | undefined }[];

  /** The bar's number, where the mark that is read stands in the bar before it. */
  private repeatedIn: number | undefined;

  /** `bar` is the bar's index in its system, `number` its number in the tab. */
  constructor(
    private readonly source: Source,
    { pluck, fingers, palm }: System,
    bar: number,
    private readonly number: number,
  ) {
    this.rows = [pluck, fingers, palm].flatMap((row: Row | undefined) =>
      row ? [{ label: row.label, bar: row.bars[bar] }] : [],
    );
  }

  /** Marks what begins at the step; a mark where nothing begins does nothing. */
  apply(step: number, notes: StepNotes): void {
    for (const { label, bar } of this.rows) {
      const word = bar?.steps[step];
      if (!word || word.text === '-' || word.text === 'r') continue;
      this.repeatedIn = bar?.repeats ? this.number : undefined;
      if (label === 'pluck') this.pluck(word, notes);
      else if (label === 'fingers') this.fingers(word, notes);
      else this.palm(word, notes);
    }
  }

  private pluck(word: Leaf, notes: StepNotes): void {
    if (!/^[pimac](?:\+?[pimac])*$/.test(word.text)) return this.stray('pluck', word, 'unread', 0);
    const fingers = [...word.text.replaceAll('+', '')] as PluckingFinger[];
    const plucked = notes.flat().filter(({ attack }) => attack === 'plucked' || attack === 'slap');
    // One finger takes neighbouring strings only; beyond these the thumb has the lowest and another finger the highest.
    const lone = fingers.length === 1 && !areNeighbours(plucked);
    const meant = lone ? plucked.slice(fingers[0] === 'p' ? 0 : -1).slice(0, 1) : plucked;
    this.share('pluck', word, fingers, meant, (note, finger) => (note.pluck = finger));
  }

  private fingers(word: Leaf, notes: StepNotes): void {
    if (!/^[0-4](?:\+?[0-4])*$/.test(word.text)) return this.stray('fingers', word, 'unread', 0);
    const fingers = [...word.text.replaceAll('+', '')].map(Number);
    const all = notes.flat();
    const first = notes.flatMap(([note]) => note ?? []);
    const pressed = first.filter(({ fret }) => fret > 0);
    // Open strings need no mark, and one mark for several strings is a barre.
    const barre = pressed.length > 0 && pressed.every(({ fret }) => fret === pressed[0].fret);
    const choices = fingers.length === 1 ? [barre ? pressed : first] : [all, first, pressed];
    const meant = choices.find((one) => one.length === fingers.length) ?? choices[0];
    if (fingers.length === 1 && meant.length > 1 && !barre && fingers[0] > 0)
      this.stray('fingers', word, 'count', pressed.length);
    else this.share('fingers', word, fingers, meant, (note, finger) => (note.finger = finger));
  }

  private palm(word: Leaf, notes: StepNotes): void {
    if (word.text !== '*') return this.stray('palm', word, 'unread', 0);
    for (const note of notes.flat()) note.palmMuted = true;
  }

  /** One mark is for all the notes: a brush of the thumb, a barre; else there is one for each. */
  private share<T>(
    row: string,
    word: Leaf,
    marks: readonly T[],
    notes: readonly TabNote[],
    put: (note: TabNote, mark: T) => void,
  ): void {
    // A finger may lie ready where nothing begins.
    if (notes.length === 0) return;
    if (marks.length > 1 && marks.length !== notes.length) this.stray(row, word, 'count', notes.length);
    else for (const [i, note] of notes.entries()) put(note, marks.length === 1 ? marks[0] : marks[i]);
  }

  private stray(row: string, word: Leaf, wrong: 'unread' | 'count', notes: number): void {
    const bar = this.repeatedIn === undefined ? '' : `${this.repeatedIn}`;
    this.source.report('stray-mark', this.source.at(word), { row, found: word.text, wrong, notes: `${notes}`, bar });
  }
}
