/** The language server as the rest of the extension sees it: it starts, stops, starts again, and draws previews. */
import { CancellationTokenSource, EventEmitter, Uri, window, workspace, type LogOutputChannel } from 'vscode';
import {
  State,
  type BaseLanguageClient,
  type LanguageClientOptions,
  type WorkspaceEdit as LspWorkspaceEdit,
} from 'vscode-languageclient';
import {
  CHANGE_CHORD,
  LIST_LESSONS,
  OPEN_PREVIEW,
  PLAY,
  PREVIEW_UPDATED,
  READ_FILE,
  TAKE_TO_KEY,
  SHOW_REFERENCES,
  UNWATCH_PREVIEW,
  WATCH_PREVIEW,
  type AboutKey,
  type ChangeChord,
  type ChordChanged,
  type PreviewUpdate,
  type PreviewView,
  type WatchPreview,
} from '../../server/src/protocol.ts';
import { LANGUAGE, LESSONS } from './lesson-documents.ts';

export type Health = 'starting' | 'running' | 'stopped';

const HEALTH: Readonly<Record<State, Health>> = {
  [State.Starting]: 'starting',
  [State.Running]: 'running',
  [State.Stopped]: 'stopped',
  [State.StartFailed]: 'stopped',
};

/** What the server may put above a section or a part: commands that are registered. */
const COMMANDS: readonly string[] = [OPEN_PREVIEW, PLAY, SHOW_REFERENCES];

/** What came of an edit that was asked for. */
export interface Written {
  readonly isWritten: boolean;
  /** One line for the reader. */
  readonly says: string;
}

/** For questions that nobody calls back. */
const NEVER = new CancellationTokenSource();

export class LessonServer {
  private readonly log: LogOutputChannel = window.createOutputChannel('Stringcourse', { log: true });
  private readonly updated = new EventEmitter<PreviewUpdate>();
  private readonly opened = new EventEmitter<Uri>();
  private readonly stopped = new EventEmitter<void>();
  private readonly changed = new EventEmitter<Health>();
  private readonly client: BaseLanguageClient;
  /** Starting and stopping wait for one another: a client in between can do neither. */
  private last: Promise<void> = Promise.resolve();

  /** A lesson was drawn again. */
  readonly onUpdated = this.updated.event;
  /** The server has been told of a lesson, and can draw it from here on; after a restart of every open one again. */
  readonly onOpened = this.opened.event;
  readonly onStopped = this.stopped.event;
  readonly onHealth = this.changed.event;
  /** Until it runs for the first time it is being started. */
  health: Health = 'starting';

  constructor(createClient: (options: LanguageClientOptions) => BaseLanguageClient) {
    this.client = createClient({
      // By language alone: lessons in files, untitled ones, and those in repositories that are not on this machine.
      documentSelector: [{ language: LANGUAGE }],
      outputChannel: this.log,
      initializationOptions: { readsFiles: true, commands: COMMANDS },
      middleware: {
        didOpen: async (document, next) => {
          await next(document);
          this.opened.fire(document.uri);
        },
      },
    });
    this.client.onNotification(PREVIEW_UPDATED, (update: PreviewUpdate) => this.updated.fire(update));
    this.client.onRequest(LIST_LESSONS, async () => (await workspace.findFiles(LESSONS)).map(String));
    this.client.onRequest(READ_FILE, ({ uri }: { readonly uri: string }) => readFile(Uri.parse(uri)));
    this.client.onDidChangeState(({ newState }) => {
      this.health = HEALTH[newState];
      this.changed.fire(this.health);
      if (newState === State.Stopped) this.stopped.fire();
    });
  }

  get isRunning(): boolean {
    return this.client.isRunning();
  }

  showOutput(): void {
    this.log.show();
  }

  /** Undefined where it cannot be asked, is called back, or says nothing. */
  async ask<T>(method: string, question: object, token = NEVER.token): Promise<T | undefined> {
    try {
      return (await this.client.sendRequest<T | null>(method, question, token)) ?? undefined;
    } catch (failure) {
      this.log.debug(`${method}: ${String(failure)}`);
      return undefined;
    }
  }

  start(): Promise<void> {
    return this.inTurn(() => this.client.start());
  }

  restart(): Promise<void> {
    return this.inTurn(async () => {
      if (this.client.isRunning()) await this.client.stop();
      await this.client.start();
    });
  }

  stop(): Promise<void> {
    return this.inTurn(async () => {
      if (this.client.isRunning()) await this.client.stop();
    });
  }

  /** Null where the server does not know the lesson, or cannot be asked. `width` is in CSS pixels. */
  async watch(uri: Uri, width: number, view: PreviewView): Promise<PreviewUpdate | null> {
    const question: WatchPreview = { uri: `${uri}`, width, view };
    try {
      return await this.client.sendRequest<PreviewUpdate | null>(WATCH_PREVIEW, question);
    } catch (failure) {
      this.log.warn(`No preview of ${uri}: ${String(failure)}`);
      return null;
    }
  }

  /** Writes what was chosen in a preview into the text, where that has not changed since, and says what was written or why not. */
  async change(change: ChangeChord): Promise<string> {
    return (await this.write(CHANGE_CHORD, change, change.uri, change.version)).says;
  }

  /** Takes a lesson to another key, where it has not changed since the keys were listed. */
  takeToKey(choice: AboutKey): Promise<Written> {
    return this.write(TAKE_TO_KEY, choice, choice.textDocument.uri, choice.version);
  }

  /** Asks for an edit and makes it, as one step that can be undone. */
  private async write(method: string, question: object, uri: string, version: number): Promise<Written> {
    const not = (says: string): Written => ({ isWritten: false, says });
    try {
      const answer = await this.client.sendRequest<ChordChanged | null>(method, question);
      if (!answer?.edit) return not(answer?.says ?? 'The lesson is not open any more.');
      const edit = await this.client.protocol2CodeConverter.asWorkspaceEdit(answer.edit as LspWorkspaceEdit);
      const lesson = workspace.textDocuments.find((one) => `${one.uri}` === uri);
      if (lesson?.version !== version || !edit || !(await workspace.applyEdit(edit)))
        return not('The lesson has changed meanwhile: choose again.');
      return { isWritten: true, says: `Written: ${answer.says}` };
    } catch (failure) {
      this.log.warn(`Nothing was written into ${uri}: ${String(failure)}`);
      return not('Nothing was written: the language server does not answer.');
    }
  }

  unwatch(uri: Uri): void {
    if (!this.client.isRunning()) return;
    this.client.sendNotification(UNWATCH_PREVIEW, { uri: `${uri}` }).catch((failure: unknown) => {
      this.log.warn(`The preview of ${uri} is still watched: ${String(failure)}`);
    });
  }

  dispose(): void {
    for (const each of [this.updated, this.opened, this.stopped, this.changed, this.log]) each.dispose();
  }

  /** The client itself tells the user of a failed start, so that here it need only be written down. */
  private inTurn(action: () => Promise<void>): Promise<void> {
    this.last = this.last.then(action).catch((failure: unknown) => this.log.error(String(failure)));
    return this.last;
  }
}

/** Through the editor, which knows files on other machines and in repositories too. Null where there is none. */
async function readFile(uri: Uri): Promise<string | null> {
  try {
    return new TextDecoder().decode(await workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}
