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

export class Workspace {
  /** Lessons that are not open, as they were read last. */
  private readonly closed = new Map<string, { readonly text: string; lesson: OpenLesson }>();
  private session = new Session();

  constructor(
    private readonly list: ListLessons,
    private readonly files: LibraryFiles,
    private readonly lessons: OpenLessons,
    private readonly encoding: () => Encoding,
  ) {}

  /** In the order of their addresses, with every file that they speak of at hand. */
  async everyLesson(isCancelled: () => boolean = () => false): Promise<readonly OpenLesson[]> {
    const uris = [...new Set([...(await this.list()), ...this.lessons.uris])].sort((a, b) => (a < b ? -1 : 1));
    const found: OpenLesson[] = [];
    for (const uri of uris.slice(0, MOST_LESSONS)) {
      if (isCancelled()) break;
      const lesson = await this.lessonAt(uri);
      if (lesson) found.push(lesson);
    }
    return found;
  }

  /** One lesson; undefined where there is no such file. */
  async lessonAt(uri: string): Promise<OpenLesson | undefined> {
    const open = this.lessons.at(uri);
    let lesson = open ?? (await this.closedAt(uri));
    for (let round = 0; lesson && round < MOST_ROUNDS; round++) {
      const { wanted } = lesson.analysis.files;
      if (wanted.size === 0) break;
      await this.files.fetchFor(lesson.document.uri, wanted);
      lesson = open ? (this.lessons.at(uri) ?? lesson) : lesson.next(lesson.document);
      if (!open) this.closed.set(known(uri), { text: lesson.document.text, lesson });
    }
    return lesson;
  }

  /** Something was saved, made or deleted: what speaks of it may mean something else. */
  forgetAll(): void {
    this.closed.clear();
    this.session = new Session();
  }

  private async closedAt(uri: string): Promise<OpenLesson | undefined> {
    const text = await this.files.load(uri);
    if (text === null) {
      this.closed.delete(known(uri));
      return undefined;
    }
    const before = this.closed.get(known(uri));
    if (before?.text === text) return before.lesson;
    const document = lineDocuments(this.encoding).create(uri, 'stringcourse', 0, text);
    const lesson = new OpenLesson(document, this.session, this.encoding(), (one) => this.files.locate(one));
    this.closed.set(known(uri), { text, lesson });
    return lesson;
  }
}
