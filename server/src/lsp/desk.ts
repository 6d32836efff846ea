/** What an answer to an editor's question has at hand, and how it is asked for. */
import type { CancellationToken, Connection, LSPErrorCodes, ServerCapabilities } from 'vscode-languageserver';
import type { AboutLesson } from '../protocol.ts';
import type { Client } from './client.ts';
import type { OpenLesson, OpenLessons } from './lessons.ts';
import type { LibraryFiles } from './library-files.ts';
import type { SettingsOfLessons } from './settings.ts';
import type { Workspace } from './workspace.ts';

export type { AboutLesson };

export interface Desk {
  readonly connection: Connection;
  readonly lessons: OpenLessons;
  readonly files: LibraryFiles;
  readonly workspace: Workspace;
  readonly settings: SettingsOfLessons;
  /** Known once the client has introduced itself. */
  readonly client: () => Client;
  /**
   * Answers from the lesson as it is: `empty` where it is not open or something fails, and not at all where the question was called
   * back or the text has changed meanwhile.
   */
  about<Params extends AboutLesson, T>(
    what: string,
    compute: (lesson: OpenLesson, params: Params, token: CancellationToken) => T | Promise<T>,
    empty: T,
    stale?: LSPErrorCodes,
  ): (params: Params, token: CancellationToken) => Promise<T>;
  /** The same for a question about no lesson that need be open: asked when it is quiet, `empty` where something fails. */
  across<Params, T>(
    what: string,
    compute: (params: Params, token: CancellationToken) => T | Promise<T>,
    empty: T,
  ): (params: Params, token: CancellationToken) => Promise<T>;
  /** Settles when nothing else is left to do and nobody is writing: between one step of work in the background and the next. */
  idle(): Promise<void>;
}

/** One feature of the server: what it offers a client, and how it answers. */
export interface Answer {
  offers(client: Client): ServerCapabilities;
  listen(desk: Desk): void;
}
