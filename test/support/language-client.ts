/** A client that talks to the language server over streams inside the test's own process, as an editor would from outside. */
import { PassThrough } from 'node:stream';
import {
  createConnection,
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type TextDocumentContentChangeEvent,
} from 'vscode-languageserver/node';
import type { Disk } from '../../server/src/lsp/disk.ts';
import { serve } from '../../server/src/lsp/server.ts';
import type { Later } from '../../server/src/lsp/watched-files.ts';
import { PREVIEW_UPDATED, type PreviewUpdate } from '../../server/src/protocol.ts';

export type Abilities = InitializeParams['capabilities'];

/** What a modern editor can take, but for pulling diagnostics. */
export const MODERN: Abilities = {
  general: { positionEncodings: ['utf-16'] },
  workspace: { workspaceEdit: { documentChanges: true } },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true, tagSupport: { valueSet: [1] } },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    definition: { linkSupport: true },
    semanticTokens: {
      requests: { full: { delta: true }, range: true },
      tokenTypes: [],
      tokenModifiers: [],
      formats: ['relative'],
    },
    selectionRange: {},
    documentLink: { tooltipSupport: true },
    linkedEditingRange: {},
    inlayHint: { resolveSupport: { properties: ['tooltip'] } },
    rename: { prepareSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
  },
};

export const PULLING: Abilities = {
  ...MODERN,
  textDocument: { ...MODERN.textDocument, diagnostic: { relatedInformation: true } },
};

/** What lies around the lessons that are opened. */
export interface Surroundings {
  /** The workspace's folder. */
  readonly folder?: string | null;
  /** Texts on disk by their addresses; the server asks for them anew where it was told that they changed. */
  readonly files?: Record<string, string>;
  /** The folders of the workspace, where they are several. */
  readonly folders?: readonly string[];
  /** Comes back a while later: when a file that was taken away is gone for good, and a pause in the writing is one. */
  readonly later?: Later;
  /** What the client says of itself beyond the protocol. */
  readonly options?: unknown;
}

export class LanguageClient {
  /** Every publication of diagnostics, in the order in which they came. */
  readonly published: PublishDiagnosticsParams[] = [];
  readonly previews: PreviewUpdate[] = [];
  /** What the server wrote to its log. */
  readonly log: string[] = [];
  private readonly versions = new Map<string, number>();
  private awaiting: { until: () => boolean; resolve: () => void }[] = [];

  private constructor(readonly connection: ProtocolConnection) {}

  static async start(
    capabilities: Abilities = MODERN,
    { folder = null, files = {}, folders, later, options }: Surroundings = {},
  ): Promise<{ client: LanguageClient; introduced: InitializeResult }> {
    const toServer = new PassThrough();
    const toClient = new PassThrough();
    // Readers and writers, not streams: with a stream the library would end the process that the test runs in.
    const server = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient));
    const disk: Disk = {
      read: async (uri) => files[uri] ?? null,
      list: async (below) => Object.keys(files).filter((uri) => below.some((one) => uri.startsWith(one))),
    };
    serve(server, (callback) => setImmediate(callback), disk, later);
    const connection = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
    const client = new LanguageClient(connection);
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      client.published.push(params);
      client.settle();
    });
    connection.onNotification(PREVIEW_UPDATED, (update: PreviewUpdate) => {
      client.previews.push(update);
      client.settle();
    });
    connection.onNotification('window/logMessage', ({ message }: { message: string }) => void client.log.push(message));
    connection.listen();
    const introduced = await connection.sendRequest<InitializeResult>('initialize', {
      processId: null,
      rootUri: folder,
      capabilities,
      ...(folders && { workspaceFolders: folders.map((uri) => ({ uri, name: uri })) }),
      ...(options !== undefined && { initializationOptions: options }),
    });
    void connection.sendNotification('initialized', {});
    return { client, introduced };
  }

  open(uri: string, text: string): void {
    this.versions.set(uri, 1);
    this.send('textDocument/didOpen', { textDocument: { uri, languageId: 'stringcourse', version: 1, text } });
  }

  /** The version that the lesson has now. */
  change(uri: string, ...contentChanges: TextDocumentContentChangeEvent[]): number {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    this.send('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
    return version;
  }

  /** Writes `text` where nothing stood. */
  type(uri: string, line: number, character: number, text: string): number {
    const at: Position = { line, character };
    return this.change(uri, { range: { start: at, end: at }, text });
  }

  close(uri: string): void {
    this.send('textDocument/didClose', { textDocument: { uri } });
  }

  send(method: string, params: unknown): void {
    void this.connection.sendNotification(method, params);
  }

  ask<T>(method: string, params: unknown): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  at<T>(method: string, uri: string, line: number, character: number): Promise<T> {
    return this.ask(method, { textDocument: { uri }, position: { line, character } });
  }

  /** The findings published for a version. */
  async findings(uri: string, version = this.versions.get(uri)): Promise<readonly Diagnostic[]> {
    const find = (): PublishDiagnosticsParams | undefined =>
      this.published.find((one) => one.uri === uri && one.version === version);
    await this.until(() => find() !== undefined);
    return find()!.diagnostics;
  }

  /** The preview sent for a version. */
  async preview(uri: string, version: number): Promise<PreviewUpdate> {
    const find = (): PreviewUpdate | undefined =>
      this.previews.find((one) => one.uri === uri && one.version === version);
    await this.until(() => find() !== undefined);
    return find()!;
  }

  until(condition: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      this.awaiting.push({ until: condition, resolve });
      this.settle();
    });
  }

  /** Everything sent so far has been answered when this returns, since a server answers in turn. */
  async caughtUp(): Promise<void> {
    await this.ask('textDocument/foldingRange', { textDocument: { uri: 'lesson:none' } });
    // Work put off until it is quiet takes a few turns more.
    for (let turn = 0; turn < 20; turn++) await new Promise((resolve) => setImmediate(resolve));
  }

  async stop(): Promise<void> {
    await this.ask('shutdown', undefined);
    this.connection.dispose();
  }

  private settle(): void {
    const met = this.awaiting.filter(({ until }) => until());
    this.awaiting = this.awaiting.filter((one) => !met.includes(one));
    for (const { resolve } of met) resolve();
  }
}
