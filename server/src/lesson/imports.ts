/** What `use` brings in: the parts of other files, read as if they stood in the lesson itself. */
import { stringCount, type Instrument } from '../fretboard/instrument.ts';
import { midi } from '../theory/note.ts';
import type { Span } from '../util/span.ts';
import { leaf, leaves } from '../syntax/tree.ts';
import type { SyntaxDocument } from '../syntax/document.ts';
import { PART_KINDS } from '../syntax/statements.ts';
import type { ChordBook } from './chord-book.ts';
import type { Definition, PartKind, Settings } from './lesson.ts';
import type { PathUse } from './library.ts';
import type { Neighbours } from './neighbours.ts';
import { readPart } from './parts.ts';
import { Scope, Source } from './reader.ts';
import { readSettings } from './settings.ts';

/** A file that uses a file that uses a file: no library is nested as deep. */
const DEEPEST = 20;
const SHARED: readonly string[] = [...PART_KINDS, 'grip'];
/** Parts that hold frets, which mean other notes in another tuning. */
const FRETTED: readonly PartKind[] = ['melody', 'tab', 'grip'];

/** One `use` line: the names that it brings, all of the file where it names none. */
export interface Import extends PathUse {
  readonly names: readonly { readonly name: string; readonly span: Span }[];
  /** What came of it: everything of these names, or of the file. */
  readonly brought: readonly Definition[];
  /** All that the file has to give, whether it is called for or not. */
  readonly parts: readonly Definition[];
  /** Whether its file, or one that its file uses, is not there or has not come yet: then what it brings is not all that it should. */
  readonly waits: boolean;
}

/** Reads the `use` lines of a lesson, and puts what they bring into `scope`, behind what the lesson has itself. */
export function readImports(
  sources: readonly Source[],
  scope: Scope,
  settings: Settings,
  neighbours: Neighbours,
  book: ChordBook,
): readonly Import[] {
  return new Importer(settings, neighbours, book).read(sources, scope, neighbours.path, []);
}

class Importer {
  constructor(
    private readonly settings: Settings,
    private readonly neighbours: Neighbours,
    private readonly book: ChordBook,
  ) {}

  /** `above` are the files that brought us here, the lesson first. */
  read(sources: readonly Source[], scope: Scope, own: string | undefined, above: readonly string[]): readonly Import[] {
    return sources.flatMap((source): Import | readonly [] => {
      const word = leaf(source.tree.head, 'path');
      if (!word) return [];
      const names = leaves(source.tree.head, 'name').map((name) => ({ name: name.text, span: source.at(name) }));
      const written = { path: word.text, span: source.at(word), names };
      const to = this.neighbours.resolve(word.text, own);
      const wait = (): Import => {
        for (const name of names.length > 0 ? names.map((one) => one.name) : ['*']) scope.awaited.add(name);
        return { ...written, ...(to !== undefined && { to }), brought: [], parts: [], waits: true };
      };
      // A text that has no place among files cannot be told that one is missing.
      if (own === undefined) return wait();
      if (to === undefined) {
        source.report('path-outside', written.span, { path: word.text });
        return wait();
      }
      if (to === own || above.includes(to)) {
        source.report('use-circular', written.span, { path: word.text, chain: [...above, own, to].join(' ') });
        return wait();
      }
      const document = this.neighbours.document(to);
      if (document === null)
        source.report('file-missing', written.span, { path: word.text, right: this.withEnding(word.text, own) });
      if (!document || above.length >= DEEPEST) return wait();
      return { ...written, to, ...this.bring(document, to, [...above, own], scope, source, written) };
    });
  }

  /** The path with the ending that it lacks, where there is such a file. */
  private withEnding(path: string, own: string): string {
    const right = `${path}.lesson`;
    const to = path.endsWith('.lesson') ? undefined : this.neighbours.resolve(right, own);
    return to !== undefined && this.neighbours.document(to) ? right : '';
  }

  private bring(
    document: SyntaxDocument,
    path: string,
    above: readonly string[],
    scope: Scope,
    source: Source,
    { path: written, span, names }: Pick<Import, 'path' | 'span' | 'names'>,
  ): Pick<Import, 'brought' | 'parts' | 'waits'> {
    const home = new Scope(() => {});
    const all = new Map<string, Definition[]>();
    for (const placed of document.statements) {
      const { keyword } = placed.tree;
      if (keyword === undefined || !SHARED.includes(keyword)) continue;
      const name = leaf(placed.tree.head, keyword === 'grip' ? 'chord' : 'name')?.text ?? '';
      const called = names.find((one) => one.name === name);
      // What was not called for may still be named by what was: its own progression's shape, that shape's cell.
      const from = { path, span: called?.span ?? span, scope: home };
      const part = readPart(new Source(placed, () => {}, from), this.settings, this.book);
      if (!part) continue;
      home.bring(part);
      all.set(part.name, [...(all.get(part.name) ?? []), part]);
    }
    const uses = document.statements.filter((placed) => placed.tree.keyword === 'use');
    // Said where it goes in a circle; what else is wrong with them is said in that file itself.
    const passOn = (kind: string, _: Span, data: Readonly<Record<string, string>> = {}): void => {
      if (kind === 'use-circular') source.report(kind, span, data);
    };
    const further = this.read(
      uses.map((placed) => new Source(placed, passOn)),
      home,
      path,
      above,
    );
    for (const { name, span: place } of names) {
      if (all.has(name)) continue;
      source.report('part-not-in-file', place, { found: name, path: written, names: [...all.keys()].join(' ') });
      scope.awaited.add(name);
    }
    const parts = [...all.values()].flat();
    const called = names.length > 0 ? names.flatMap(({ name }) => all.get(name) ?? []) : parts;
    const brought = called.filter((part) => scope.bring(part));
    if (names.length > 0) {
      for (const { kind, name, span: place } of called.filter((part) => !brought.includes(part)))
        source.report('doubled-name', place, { kind, name });
    }
    this.checkTuning(document, brought, source, written);
    return { brought, parts, waits: further.some((one) => one.waits) };
  }

  /** Frets that were written for another tuning sound other notes here. */
  private checkTuning(document: SyntaxDocument, called: readonly Definition[], source: Source, path: string): void {
    const fretted = called.filter((part) => FRETTED.includes(part.kind));
    if (fretted.length === 0) return;
    const stated = document.statements.filter((placed) => placed.tree.keyword === 'tuning');
    const { instrument } = readSettings(
      stated.map((placed) => new Source(placed, () => {})),
      undefined,
    ).settings;
    if (isTunedAlike(instrument, this.settings.instrument)) return;
    for (const part of fretted) {
      source.report('part-for-other-tuning', part.span, {
        part: `${part.kind} ${part.name}`,
        path,
        theirs: instrument.tuning.name,
        ours: this.settings.instrument.tuning.name,
        stated: stated.length > 0 ? 'yes' : '',
      });
    }
  }
}

/** Whether the same frets give the same intervals: a whole instrument tuned lower is tuned alike. */
function isTunedAlike(a: Instrument, b: Instrument): boolean {
  if (stringCount(a) !== stringCount(b)) return false;
  const from = midi(a.tuning.strings[0]) - midi(b.tuning.strings[0]);
  return a.tuning.strings.every((pitch, index) => midi(pitch) - midi(b.tuning.strings[index]) === from);
}
