/** Files that change outside the editor, told apart from those that an editor saves by making them anew. */
import { FileChangeType, type FileEvent } from 'vscode-languageserver';
import type { LibraryFiles } from './library-files.ts';

/** Comes back a while later. */
export type Later = (callback: () => void) => void;

/**
 * In milliseconds. An editor that saves by renaming takes a file away and puts another in its place within a few, and watchers tell
 * of both halves apart, up to a tenth of a second late. It is also longer than from one key to the next for whoever writes fluently.
 */
export const A_WHILE = 250;

export class WatchedFiles {
  /** `changed` is told once for changes that come together, and again when a file has proved to be gone. */
  constructor(
    private readonly files: LibraryFiles,
    private readonly later: Later,
    private readonly changed: () => void,
  ) {}

  take(changes: readonly FileEvent[]): void {
    const gone = changes.filter(({ type }) => type === FileChangeType.Deleted);
    const there = changes.filter(({ type }) => type !== FileChangeType.Deleted);
    if (there.length > 0) void this.look(there);
    // Until then what they held still counts.
    if (gone.length > 0) this.later(() => void this.look(gone));
  }

  private async look(changes: readonly FileEvent[]): Promise<void> {
    const differs = await Promise.all(changes.map(({ uri }) => this.files.reread(uri)));
    const cameOrWent = changes.some(({ type }) => type !== FileChangeType.Changed);
    if (cameOrWent || differs.some((one) => one)) this.changed();
  }
}
