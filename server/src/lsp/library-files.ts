/** The files that open lessons speak of: fetched when an analysis first asks for one, and kept until it changes. */
import { LIBRARY_FILE } from '../lesson/library.ts';
import type { Location } from '../lesson/neighbours.ts';

/** The text at an address; null where there is none, or it may not be read. */
export type FetchFile = (uri: string) => Promise<string | null>;

/** Where a lesson stands, with the address of the root that its paths count from. */
export interface Placed extends Location {
  readonly root: string;
}

/** More files than a library of years has; beyond it the one that was fetched first is fetched again when it is asked for. */
const MOST_KEPT = 2_000;

export class LibraryFiles {
  private readonly texts = new Map<string, string | null>();
  private readonly fetching = new Map<string, Promise<void>>();
  /** How often a file is being read again: only the last reading counts. */
  private readonly rereads = new Map<string, number>();
  /** By file, the lessons whose analysis has asked for it. */
  private readonly readers = new Map<string, Set<string>>();
  private folders: readonly string[] = [];

  /**
   * `open` gives the text of a document that is open in the editor, which goes before what is saved; `outdated` is told of every
   * lesson that has to be looked at again.
   */
  constructor(
    private readonly fetch: () => FetchFile,
    private readonly open: (uri: string) => string | undefined,
    private readonly outdated: (uri: string) => void,
  ) {}

  /** The folders of the workspace: no lesson looks for files outside the one it lies in. */
  openFolders(uris: readonly string[]): void {
    this.folders = uris.map((uri) => folderOf(`${known(uri).replace(/\/$/, '')}/`));
  }

  get roots(): readonly string[] {
    return this.folders;
  }

  /** Undefined for a text that has no place among files, such as one that was never saved. */
  locate(lesson: string): Placed | undefined {
    const uri = known(lesson);
    const own = folderOf(uri);
    if (own === '' || uri.startsWith('untitled:')) return undefined;
    const base = this.folders.filter((folder) => uri.startsWith(folder)).sort((a, b) => b.length - a.length)[0] ?? own;
    const root = this.rootAbove(own, base, lesson);
    return { root, path: uri.slice(root.length), files: { read: (path) => this.read(`${root}${path}`, lesson) } };
  }

  /** A file was saved, edited, made or deleted. */
  changed(uri: string): void {
    this.texts.delete(known(uri));
    this.tell(known(uri));
  }

  /**
   * A file, or a folder, may have changed on disk, been made or gone: it is read again, and those that speak of it look again only
   * where it reads differently: then the answer is true. Until then what it held still counts.
   */
  async reread(address: string): Promise<boolean> {
    const uri = known(address);
    const asked = new Set([...this.texts.keys(), ...this.fetching.keys()]);
    const below = [...asked].filter((one) => one === uri || one.startsWith(`${uri}/`));
    return (await Promise.all(below.map((one) => this.rereadFile(one)))).some((differs) => differs);
  }

  /** A lesson was closed: what it asked for need not reach it any more. */
  forget(lesson: string): void {
    for (const lessons of this.readers.values()) lessons.delete(lesson);
    this.changed(lesson);
  }

  /** The text of a file, fetched where it is not known yet; null where there is none. */
  async load(address: string): Promise<string | null> {
    const uri = known(address);
    const open = this.open(uri);
    if (open !== undefined) return open;
    if (!this.texts.has(uri)) await this.fetchNow(uri);
    return this.texts.get(uri) ?? null;
  }

  /** Fetches files that a lesson waits for, by their paths from its root. */
  async fetchFor(lesson: string, paths: Iterable<string>): Promise<void> {
    const placed = this.locate(lesson);
    if (placed) await Promise.all([...paths].map((path) => this.load(`${placed.root}${path}`)));
  }

  private async rereadFile(uri: string): Promise<boolean> {
    const turn = (this.rereads.get(uri) ?? 0) + 1;
    this.rereads.set(uri, turn);
    // What is on its way may have been read before the change.
    await this.fetching.get(uri);
    const text = await this.fetch()(encoded(uri)).catch(() => null);
    if (this.rereads.get(uri) !== turn) return false;
    this.rereads.delete(uri);
    if (this.texts.get(uri) === text) return false;
    this.texts.set(uri, text);
    // What is open counts, whatever is saved.
    if (this.open(uri) !== undefined) return false;
    this.tell(uri);
    return true;
  }

  /** The nearest folder upwards that is a library's root; without one, the folder of the workspace. */
  private rootAbove(own: string, base: string, lesson: string): string {
    for (let folder = own; folder.length >= base.length; folder = folderOf(folder.slice(0, -1))) {
      if (typeof this.read(`${folder}${LIBRARY_FILE}`, lesson) === 'string') return folder;
      if (folder === base) break;
    }
    return base;
  }

  private read(uri: string, lesson: string): string | null | undefined {
    const lessons = this.readers.get(uri);
    if (lessons) lessons.add(lesson);
    else this.readers.set(uri, new Set([lesson]));
    const open = this.open(uri);
    if (open !== undefined) return open;
    const text = this.texts.get(uri);
    if (text === undefined) void this.fetchNow(uri);
    return text;
  }

  /** A file that is on its way is not asked for twice. */
  private fetchNow(uri: string): Promise<void> {
    let fetching = this.fetching.get(uri);
    if (!fetching) this.fetching.set(uri, (fetching = this.fetchAnew(uri)));
    return fetching;
  }

  private async fetchAnew(uri: string): Promise<void> {
    const text = await this.fetch()(encoded(uri)).catch(() => null);
    this.fetching.delete(uri);
    const oldest = this.texts.keys().next();
    if (this.texts.size >= MOST_KEPT && !oldest.done) this.texts.delete(oldest.value);
    this.texts.set(uri, text);
    // That a folder is no library is what was taken for granted meanwhile.
    if (text !== null || !uri.endsWith(`/${LIBRARY_FILE}`)) this.tell(uri);
  }

  private tell(uri: string): void {
    for (const lesson of this.readers.get(uri) ?? []) if (known(lesson) !== uri) this.outdated(lesson);
  }
}

/** An address as we compare it: editors write the same sign now plainly, now by its number. */
export function known(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}

/** Back to an address that an editor takes. */
export const encoded = (uri: string): string => {
  const [, scheme, rest] = /^([a-z][a-z\d+.-]*:\/*)(.*)$/is.exec(uri) ?? ['', '', uri];
  return scheme + rest.split('/').map(encodeURIComponent).join('/');
};

const folderOf = (uri: string): string => uri.slice(0, uri.lastIndexOf('/') + 1);
