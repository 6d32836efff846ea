/** Follows one file through every way in which editors save: in place, by renaming, by deleting and writing anew. */
import { unwatchFile, watch, watchFile } from 'node:fs';
import type { FSWatcher } from 'node:fs';
import { basename, dirname } from 'node:path';

/** A save is several events in a row; what lies within this time is one. */
const SETTLES_IN_MS = 25;
/** The slower look that also finds what a file system does not tell of. */
const LOOKS_EVERY_MS = 500;

/** Calls `changed` after the file may have changed. Returns what ends it. */
export function follow(path: string, changed: () => void): () => void {
  let timer: NodeJS.Timeout | undefined;
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(changed, SETTLES_IN_MS);
  };
  let watcher: FSWatcher | undefined;
  try {
    // The folder is watched, not the file: after a rename the file of that name is another one.
    watcher = watch(dirname(path), (_, name) => {
      if (name === null || name === basename(path)) soon();
    });
    watcher.on('error', () => watcher?.close());
  } catch {
    watcher = undefined;
  }
  watchFile(path, { interval: LOOKS_EVERY_MS }, soon);
  return () => {
    clearTimeout(timer);
    watcher?.close();
    unwatchFile(path, soon);
  };
}
