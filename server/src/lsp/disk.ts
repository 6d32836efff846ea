/** The files around the lessons, where the server itself can read them: given by whoever starts it. */
import type { FetchFile } from './library-files.ts';

export interface Disk {
  readonly read: FetchFile;
  /** The addresses of all lessons below these folders. */
  list(folders: readonly string[]): Promise<readonly string[]>;
}

/** In a browser's worker, and in tests: nothing is there. */
export const NO_DISK: Disk = { read: async () => null, list: async () => [] };
