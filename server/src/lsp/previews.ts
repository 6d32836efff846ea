/** Who watches which lesson's preview, and what of it they have been sent already. */
import { previewOf } from '../features/preview.ts';
import type { PreviewBlock, PreviewUpdate } from '../protocol.ts';
import type { OpenLesson } from './lessons.ts';

/** More panels than an editor shows; beyond it the one that has been watched longest is let go. */
const MOST_WATCHED = 32;

interface Watcher {
  readonly width: number;
  /** The hash last sent under each block's id that the watcher still shows. */
  readonly has: ReadonlyMap<string, string>;
  /** What the last update was made from: the same version is not sent twice. */
  readonly shown?: OpenLesson;
}

export class Previews {
  private readonly watchers = new Map<string, Watcher>();

  /** Starts watching, or goes on in another width: everything is sent again. */
  watch(uri: string, width: number): void {
    this.watchers.delete(uri);
    this.watchers.set(uri, { width, has: new Map() });
    if (this.watchers.size > MOST_WATCHED) this.watchers.delete(this.watchers.keys().next().value as string);
  }

  unwatch(uri: string): void {
    this.watchers.delete(uri);
  }

  isWatched(uri: string): boolean {
    return this.watchers.has(uri);
  }

  /** What a watcher must be sent to see this version; undefined where nobody watches or it has been sent already. */
  update(lesson: OpenLesson): PreviewUpdate | undefined {
    const { uri, version } = lesson.document;
    const watcher = this.watchers.get(uri);
    if (!watcher || watcher.shown === lesson) return undefined;
    const preview = previewOf(lesson.analysis, watcher.width);
    const blocks = preview.blocks.map(({ id, hash, content }): PreviewBlock =>
      watcher.has.get(id) === hash ? { id, hash } : { id, hash, content },
    );
    const has = new Map(preview.blocks.map(({ id, hash }) => [id, hash]));
    this.watchers.set(uri, { width: watcher.width, has, shown: lesson });
    return { uri, version, title: preview.title, facts: preview.facts, blocks, bars: preview.bars };
  }
}
