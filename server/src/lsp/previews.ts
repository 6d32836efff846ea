/** Who watches which lesson's preview, and what of it they have been sent already. */
import { findingsWords } from '../draw/facts.ts';
import { drawsAlike, updateOf } from '../features/preview-update.ts';
import { PLAIN_VIEW, type PreviewUpdate, type PreviewView } from '../protocol.ts';
import { weighed } from './diagnostics.ts';
import type { OpenLesson } from './lessons.ts';
import type { Weights } from './settings.ts';

/** More panels than an editor shows; beyond it the one that has been watched longest is let go. */
const MOST_WATCHED = 32;

interface Watcher {
  readonly width: number;
  readonly view: PreviewView;
  /** The hash last sent under each block's id that the watcher still shows. */
  readonly has: ReadonlyMap<string, string>;
  /** What the last update was made from: the same version is not sent twice. */
  readonly shown?: OpenLesson;
  /** What findings weighed then. */
  readonly weights?: Weights;
}

export class Previews {
  private readonly watchers = new Map<string, Watcher>();

  /** Starts watching, or goes on in another way: what a watcher has is not sent again where only its panel is another. */
  watch(uri: string, width: number, view: PreviewView = PLAIN_VIEW): void {
    const before = this.watchers.get(uri);
    const same = before !== undefined && before.width === width && drawsAlike(before.view, view);
    const isNew = same && before.view.panel === undefined && view.panel === undefined;
    this.watchers.delete(uri);
    this.watchers.set(uri, { width, view, has: same && !isNew ? before.has : new Map() });
    if (this.watchers.size > MOST_WATCHED) this.watchers.delete(this.watchers.keys().next().value as string);
  }

  unwatch(uri: string): void {
    this.watchers.delete(uri);
  }

  isWatched(uri: string): boolean {
    return this.watchers.has(uri);
  }

  /** What a watcher must be sent to see this version; undefined where nobody watches or it has been sent already. */
  update(lesson: OpenLesson, weights: Weights): PreviewUpdate | undefined {
    const { uri, version } = lesson.document;
    const watcher = this.watchers.get(uri);
    if (!watcher || (watcher.shown === lesson && watcher.weights === weights)) return undefined;
    const { width, view } = watcher;
    const { update, has } = updateOf(lesson.analysis, { uri, version, width, view }, watcher.has);
    this.watchers.set(uri, { width, view, has, shown: lesson, weights });
    const text = findingsWords(weighed(lesson.analysis.ownFindings, weights));
    return { ...update, facts: update.facts.map((fact) => (fact.kind === 'findings' ? { ...fact, text } : fact)) };
  }
}
