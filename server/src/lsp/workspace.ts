/** Every lesson of the workspace, open or not: what questions that reach across files are answered from. */
import { Session } from '../analyze.ts';
import { lineDocuments } from './documents.ts';
import { known, type LibraryFiles } from './library-files.ts';
import { OpenLesson, type OpenLessons } from './lessons.ts';
import type { Encoding } from './positions.ts';

/** The addresses of all lessons below the workspace's folders. */
export type ListLessons = () => Promise<readonly string[]>;

/** A library of years. What lies beyond is not looked through. */
const MOST_LESSONS = 2_000;
/** A file that speaks of a file that speaks of a file: so often what is missing is fetched. */
const MOST_ROUNDS = 24;
/** Texts that belong to no folder of the workspace and are lessons all the same. */
const OWN_SCHEMES: readonly string[] = ['file', 'untitled'];

/** What the workspace is told of the client and the loop. */
export interface Surroundings {
  readonly encoding: () => Encoding;
  /** Whether the client tells of files that come and go, so that they need not be listed for each question. */
  readonly isWatched: () => boolean;
  /** Lets the loop go round once, so that messages are read between one lesson and the next. */
  readonly breathe: () => Promise<void>;
}

export class Workspace {
  /** Lessons that are not open, as they were read last, by their addresses as we compare them. */
  private readonly closed = new Map<string, OpenLesson>();
  private readonly reading = new Map<string, Promise<OpenLesson | undefined>>();
  private readonly session = new Session();
  private readonly listeners: (() => void)[] = [];
  private listed: Promise<readonly string[]> | undefined;

  constructor(
    private readonly list: ListLessons,
    private readonly files: LibraryFiles,
    private readonly lessons: OpenLessons,
    private readonly around: Surroundings,
  ) {}

  /** In the order of their addresses, with every file that they speak of at hand. */
  everyLesson(isCancelled: () => boolean = () => false): Promise<readonly OpenLesson[]> {
    return this.each((uri) => this.lessonAt(uri), isCancelled);
  }

  /** The same without the files that they speak of: enough for what is read from a text alone. */
  everyText(isCancelled: () => boolean = () => false): Promise<readonly OpenLesson[]> {
    return this.each((uri) => this.textAt(uri), isCancelled);
  }

  /** The addresses of all lessons, in order; of one that is open, as the client opened it. */
  async uris(): Promise<readonly string[]> {
    const found = new Map((await this.listNow()).map((uri) => [known(uri), uri]));
    for (const uri of this.lessons.uris) if (this.holds(uri)) found.set(known(uri), uri);
    return [...found]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .slice(0, MOST_LESSONS)
      .map(([, uri]) => uri);
  }

  /** One lesson; undefined where there is no such file. */
  async lessonAt(uri: string): Promise<OpenLesson | undefined> {
    let lesson = await this.textAt(uri);
    for (let round = 0; lesson && round < MOST_ROUNDS; round++) {
      const { wanted } = lesson.analysis.files;
      if (wanted.size === 0) break;
      await this.files.fetchFor(lesson.document.uri, wanted);
      const next: OpenLesson = this.lessons.at(uri) ?? this.lookedAtAgain(uri, lesson);
      if (next === lesson) break;
      lesson = next;
    }
    return lesson;
  }

  /** A lesson as it was read, whatever of the files that it speaks of is at hand; undefined where there is no such file. */
  async textAt(uri: string): Promise<OpenLesson | undefined> {
    const open = this.lessons.at(uri);
    if (open) return open;
    const key = known(uri);
    let reading = this.reading.get(key);
    if (!reading) {
      reading = this.read(uri).finally(() => this.reading.delete(key));
      this.reading.set(key, reading);
    }
    return reading;
  }

  /** Whether a text is one of the workspace's lessons: an old version that is shown beside it is not. */
  holds(uri: string): boolean {
    const scheme = schemeOf(uri);
    return OWN_SCHEMES.includes(scheme) || this.files.roots.some((root) => schemeOf(root) === scheme);
  }

  /** Whether it is one of all lessons. */
  async has(uri: string): Promise<boolean> {
    return (await this.uris()).some((one) => known(one) === known(uri));
  }

  isOpen(uri: string): boolean {
    return this.lessons.at(uri) !== undefined;
  }

  /** Whether a lesson that is not open is still the one that counts: of the newest text, among the newest of other files. */
  isAsItWas(lesson: OpenLesson): boolean {
    return this.closed.get(known(lesson.document.uri)) === lesson && !this.isOpen(lesson.document.uri);
  }

  /** `listener` is called after each change of a lesson, or of the files that there are. */
  onChange(listener: () => void): void {
    this.listeners.push(listener);
  }

  /** A file that a lesson speaks of is another now: the same text may mean something else. */
  outdated(uri: string): void {
    const before = this.closed.get(known(uri));
    if (before?.isAnalysed) this.lookedAtAgain(uri, before);
    this.changed();
  }

  /** A lesson was opened or closed: from here on it is another that counts. */
  forget(uri: string): void {
    this.closed.delete(known(uri));
    this.listChanged();
  }

  /** Files came or went. */
  listChanged(): void {
    this.listed = undefined;
    this.changed();
  }

  /** The folders of the workspace are others: every path may lead elsewhere. */
  foldersChanged(): void {
    this.closed.clear();
    this.listChanged();
  }

  /** A lesson that is open was written in. */
  changed(): void {
    for (const listener of this.listeners) listener();
  }

  private async each(
    find: (uri: string) => Promise<OpenLesson | undefined>,
    isCancelled: () => boolean,
  ): Promise<readonly OpenLesson[]> {
    const found: OpenLesson[] = [];
    for (const uri of await this.uris()) {
      if (isCancelled()) break;
      const isNew = !this.isOpen(uri) && !this.closed.get(known(uri))?.isAnalysed;
      const lesson = await find(uri);
      if (lesson) found.push(lesson);
      if (isNew) await this.around.breathe();
    }
    return found;
  }

  private listNow(): Promise<readonly string[]> {
    if (this.listed && this.around.isWatched()) return this.listed;
    const listed = this.list();
    this.listed = listed;
    listed.catch(() => {
      if (this.listed === listed) this.listed = undefined;
    });
    return listed;
  }

  private async read(uri: string): Promise<OpenLesson | undefined> {
    const text = await this.files.load(uri);
    const key = known(uri);
    if (text === null) {
      this.closed.delete(key);
      return undefined;
    }
    const before = this.closed.get(key);
    if (before?.document.text === text) return before;
    const document = lineDocuments(this.around.encoding).create(uri, 'stringcourse', 0, text);
    const lesson =
      before?.next(document) ??
      new OpenLesson(document, this.session, this.around.encoding(), (one) => this.files.locate(one));
    this.closed.set(key, lesson);
    return lesson;
  }

  private lookedAtAgain(uri: string, lesson: OpenLesson): OpenLesson {
    const next = lesson.next(lesson.document);
    this.closed.set(known(uri), next);
    return next;
  }
}

const schemeOf = (uri: string): string => uri.slice(0, uri.indexOf(':'));
