/** The language server itself, the same in Node and in a browser's worker: which message leads to which feature. */
import {
  DidChangeWatchedFilesNotification,
  LSPErrorCodes,
  ResponseError,
  TextDocuments,
  TextDocumentSyncKind,
  WatchKind,
  type Connection,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  type ServerCapabilities,
  type WorkspaceFoldersChangeEvent,
} from 'vscode-languageserver';
import type { VariantAnalysis } from '../analyze.ts';
import {
  PREVIEW_UPDATED,
  LIST_LESSONS,
  READ_FILE,
  UNWATCH_PREVIEW,
  WATCH_PREVIEW,
  type PreviewUpdate,
  type WatchPreview,
} from '../protocol.ts';
import type { Finding } from '../util/finding.ts';
import { clientOf, PLAIN_CLIENT, type Client } from './client.ts';
import { answers } from './answers/all.ts';
import { SOURCE } from './convert.ts';
import type { Desk } from './desk.ts';
import { DiagnosticReports, diagnosticsOf, publication } from './diagnostics.ts';
import { lineDocuments, type LineDocument } from './documents.ts';
import { NO_DISK, type Disk } from './disk.ts';
import { known, LibraryFiles } from './library-files.ts';
import { OpenLessons, type OpenLesson } from './lessons.ts';
import { Previews } from './previews.ts';
import { Quiet, type Hop } from './quiet.ts';
import { SettingsOfLessons } from './settings.ts';
import { A_WHILE, WatchedFiles, type Later } from './watched-files.ts';
import { Workspace } from './workspace.ts';

const NO_FINDINGS: DocumentDiagnosticReport = { kind: 'full', items: [] };

/**
 * Answers on `connection`, which is listened to from here on. `hop` lets the loop go round once; `disk` reads files where the client
 * does not; `later` comes back a while later.
 */
export function serve(
  connection: Connection,
  hop: Hop,
  disk: Disk = NO_DISK,
  later: Later = (callback) => void setTimeout(callback, A_WHILE),
): void {
  let client: Client = PLAIN_CLIENT;
  let folders: readonly string[] = [];
  /** How often something was written, and how often it had been when last there was a pause. */
  let written = 0;
  let rested = 0;
  const encoding = (): Client['encoding'] => client.encoding;
  const documents = new TextDocuments(lineDocuments(encoding));
  const files = new LibraryFiles(
    () => (client.readsFiles ? (uri) => connection.sendRequest<string | null>(READ_FILE, { uri }) : disk.read),
    (uri) => openTexts.get(uri)?.text,
    (uri) => lookAgain(uri),
  );
  const openTexts = new Map<string, LineDocument>();
  const lessons = new OpenLessons(encoding, (uri) => files.locate(uri));
  const workspace = new Workspace(
    () => (client.readsFiles ? connection.sendRequest<string[]>(LIST_LESSONS) : disk.list(files.roots)),
    files,
    lessons,
    { encoding, isWatched: () => client.watchesFiles, breathe: () => new Promise<void>(hop) },
  );
  const watched = new WatchedFiles(files, later, () => workspace.listChanged());
  const settings = new SettingsOfLessons(connection);
  const reports = new DiagnosticReports();
  const previews = new Previews();
  const quiet = new Quiet(hop);

  /** Nothing that a lesson holds may end the server: what fails is written to the log, and the answer is empty. */
  const failed = <T>(what: string, failure: unknown, empty: T): T => {
    if (failure instanceof ResponseError) throw failure;
    const told = failure instanceof Error ? (failure.stack ?? failure.message) : String(failure);
    connection.console.error(`${what}: ${told}`);
    return empty;
  };
  const guarded = <T>(what: string, compute: () => T, empty: T): T => {
    try {
      return compute();
    } catch (failure) {
      return failed(what, failure, empty);
    }
  };
  const guardedLater = async <T>(what: string, compute: () => T | Promise<T>, empty: T): Promise<T> => {
    try {
      return await compute();
    } catch (failure) {
      return failed(what, failure, empty);
    }
  };

  /**
   * Answers from the lesson as it is. Where that needs an analysis first, what is in the pipe is read before: it may call the
   * question back, or change the text that it was asked about.
   */
  const about: Desk['about'] =
    (what, compute, empty, stale = LSPErrorCodes.ContentModified) =>
    async (params, token) => {
      const { uri } = params.textDocument;
      const lesson = lessons.get(uri);
      if (!lesson) return empty;
      if (!lesson.isAnalysed && !token.isCancellationRequested) await quiet.whenQuiet();
      if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'called back');
      if (lessons.get(uri) !== lesson)
        throw new ResponseError(stale, 'the lesson has changed', { retriggerRequest: true });
      return guardedLater(what, () => compute(lesson, params, token), empty);
    };

  const across: Desk['across'] = (what, compute, empty) => async (params, token) => {
    await quiet.whenQuiet();
    const calledBack = (): ResponseError<void> => new ResponseError(LSPErrorCodes.RequestCancelled, 'called back');
    if (token.isCancellationRequested) throw calledBack();
    const answer = await guardedLater(what, () => compute(params, token), empty);
    if (token.isCancellationRequested) throw calledBack();
    return answer;
  };

  connection.onInitialize((params) => {
    client = clientOf(params);
    settings.introduced(params);
    const { workspaceFolders, rootUri } = params;
    folders = workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []);
    files.openFolders(folders);
    return { capabilities: capabilitiesFor(client), serverInfo: { name: 'stringcourse' } };
  });

  connection.onInitialized(() => {
    settings.listen();
    workspace.changed();
    if (client.changesFolders) connection.workspace.onDidChangeWorkspaceFolders(foldersChanged);
    if (!client.watchesFiles) return;
    // Where a folder goes, some clients tell of the folder alone.
    const watchers = [{ globPattern: '**/*.lesson' }, { globPattern: '**/*', kind: WatchKind.Delete }];
    void connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
  });
  connection.onDidChangeWatchedFiles(({ changes }) => watched.take(changes));

  const tell = (lesson: OpenLesson): void => {
    const { document } = lesson;
    const { uri } = document;
    const isNewest = (): boolean => lessons.get(uri) === lesson;
    const sendPreview = (): void =>
      void settings.whenKnown(uri).then(({ severity }) => {
        if (!isNewest()) return;
        const update = guarded('preview', () => previews.update(lesson, severity), undefined);
        if (update) void connection.sendNotification(PREVIEW_UPDATED, update);
      });
    if (client.pulls) {
      if (previews.isWatched(uri)) quiet.ask(`preview ${uri}`, sendPreview);
      return;
    }
    const publish = (findings: () => readonly Finding[]): void => {
      const empty = { uri, version: document.version, diagnostics: [] };
      void settings.whenKnown(uri).then(({ severity }) => {
        if (!isNewest()) return;
        void connection.sendDiagnostics(
          guarded('findings', () => publication(findings(), lesson, client, severity), empty),
        );
      });
    };
    /** Each is as much work as the lesson, and nobody waits for it while they write: one at a time, then all are told. */
    const judgeVariants = ([next, ...others]: readonly VariantAnalysis[]): void => {
      if (!next) return;
      quiet.ask(`variants ${uri}`, () => {
        if (!isNewest()) return;
        guarded('variants', () => next.findings, []);
        if (others.length > 0) judgeVariants(others);
        else publish(() => lesson.findings);
      });
    };
    quiet.ask(`findings ${uri}`, () => {
      if (!isNewest()) return;
      publish(() => lesson.findingsAtOnce);
      if (previews.isWatched(uri)) quiet.ask(`preview ${uri}`, sendPreview);
      judgeVariants(guarded('variants', () => lesson.analysis.variants, []));
    });
  };

  /** What a lesson can see of other files, and which files there are, counts from other roots now. */
  const foldersChanged = ({ added, removed }: WorkspaceFoldersChangeEvent): void => {
    const gone = new Set(removed.map(({ uri }) => uri));
    folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
    files.openFolders(folders);
    workspace.foldersChanged();
    for (const uri of lessons.uris) lookAgain(uri);
  };

  /** A file that the lesson speaks of is there now, or is another: the same text may mean something else. */
  const lookAgain = (uri: string): void => {
    const before = lessons.get(uri);
    if (!before) return workspace.outdated(uri);
    tell(lessons.take(before.document));
    if (client.pulls && client.refreshes) quiet.ask('refresh', () => connection.languages.diagnostics.refresh());
  };

  settings.onChanged((concerned) => {
    for (const uri of lessons.uris.filter(concerned)) tell(lessons.get(uri)!);
    if (client.pulls && client.refreshes) quiet.ask('refresh', () => connection.languages.diagnostics.refresh());
  });

  documents.onDidChangeContent(({ document }) => {
    quiet.disturb();
    written++;
    const isNew = !openTexts.has(known(document.uri));
    openTexts.set(known(document.uri), document);
    tell(lessons.take(document));
    files.changed(document.uri);
    if (isNew) workspace.forget(document.uri);
    else workspace.changed();
  });

  documents.onDidClose(({ document: { uri } }) => {
    lessons.close(uri);
    openTexts.delete(known(uri));
    files.forget(uri);
    workspace.forget(uri);
    reports.forget(uri);
    settings.forget(uri);
    previews.unwatch(uri);
    quiet.forget(`findings ${uri}`);
    quiet.forget(`variants ${uri}`);
    quiet.forget(`preview ${uri}`);
    if (!client.pulls) void connection.sendDiagnostics({ uri, diagnostics: [] });
  });

  const findingsOfOpen = about<DocumentDiagnosticParams, DocumentDiagnosticReport>(
    'findings',
    async (lesson, { previousResultId }) => {
      const { severity } = await settings.whenKnown(lesson.document.uri);
      if (lessons.get(lesson.document.uri) !== lesson)
        throw new ResponseError(LSPErrorCodes.ServerCancelled, 'the lesson has changed', { retriggerRequest: true });
      return reports.answer(lesson, client, severity, previousResultId);
    },
    NO_FINDINGS,
    LSPErrorCodes.ServerCancelled,
  );
  /** An editor asks once more when it closes a lesson, and shows that until it hears of the whole workspace. */
  const findingsOfClosed = across<DocumentDiagnosticParams, DocumentDiagnosticReport>(
    'findings',
    async ({ textDocument: { uri } }) => {
      const { severity, workspaceDiagnostics: isWanted } = await settings.whenKnown(uri);
      const lesson = isWanted && (await workspace.has(uri)) ? await workspace.lessonAt(uri) : undefined;
      // Of its own analysis, so that its music is let go afterwards.
      const once = lesson?.next(lesson.document);
      return once ? { kind: 'full', items: diagnosticsOf(once.findings, once, client, severity) } : NO_FINDINGS;
    },
    NO_FINDINGS,
  );
  connection.languages.diagnostics.on((params, token) =>
    (lessons.get(params.textDocument.uri) ? findingsOfOpen : findingsOfClosed)(params, token),
  );
  /** Whoever writes is about to write on, and waits for no step of the background that has begun meanwhile. */
  const idle = async (): Promise<void> => {
    while (rested !== written) {
      const seen = written;
      await new Promise<void>(later);
      if (seen === written) rested = seen;
    }
    await quiet.whenIdle();
  };
  const desk: Desk = { connection, lessons, files, workspace, settings, client: () => client, about, across, idle };
  for (const answer of answers) answer.listen(desk);

  connection.onRequest(WATCH_PREVIEW, async ({ uri, width, view }: WatchPreview): Promise<PreviewUpdate | null> => {
    await quiet.whenQuiet();
    if (!lessons.get(uri)) return null;
    const { severity } = await settings.whenKnown(uri);
    const lesson = lessons.get(uri);
    if (!lesson) return null;
    previews.watch(uri, width, view);
    return guarded('preview', () => previews.update(lesson, severity), undefined) ?? null;
  });
  connection.onNotification(UNWATCH_PREVIEW, ({ uri }: { readonly uri: string }) => previews.unwatch(uri));

  documents.listen(connection);
  connection.listen();
}

/** Nothing that has no handler: a client shows an error for what is offered and not done. */
function capabilitiesFor(client: Client): ServerCapabilities {
  const offered = answers.map((answer) => answer.offers(client));
  const workspace = Object.assign(
    {},
    client.changesFolders && { workspaceFolders: { supported: true, changeNotifications: true } },
    ...offered.map((one) => one.workspace),
  ) as NonNullable<ServerCapabilities['workspace']>;
  return Object.assign(
    {
      positionEncoding: client.encoding,
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      ...(client.pulls && {
        diagnosticProvider: { identifier: SOURCE, interFileDependencies: true, workspaceDiagnostics: true },
      }),
    },
    ...offered,
    Object.keys(workspace).length > 0 && { workspace },
  ) as ServerCapabilities;
}
