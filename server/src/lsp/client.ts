/** What the client on the other side can take, read once from its introduction. */
import { MarkupKind, ResourceOperationKind, TokenFormat, type InitializeParams } from 'vscode-languageserver';
import { chooseEncoding, type Encoding } from './positions.ts';

export interface Client {
  readonly encoding: Encoding;
  /** Asks for diagnostics itself; otherwise they are sent. */
  readonly pulls: boolean;
  readonly markdownHover: boolean;
  readonly markdownCompletion: boolean;
  readonly snippets: boolean;
  /** Asks for what is shown beside an item only when it is looked at. */
  readonly resolvesCompletions: boolean;
  /** Shows a few words behind an item’s label. */
  readonly labelDetails: boolean;
  readonly markdownSignatures: boolean;
  /** Takes what a signature's parameters are as places in it; otherwise as their words. */
  readonly parameterPlaces: boolean;
  /** Takes an outline as a tree. */
  readonly symbolTree: boolean;
  /** Takes a definition with the place it was asked from. */
  readonly definitionLinks: boolean;
  readonly related: boolean;
  readonly tags: boolean;
  /** Takes code actions that carry their edits. */
  readonly codeActions: boolean;
  /** Asks for what an action writes only when it is chosen. */
  readonly resolvesActions: boolean;
  /** Shows actions that cannot be done, with the reason. */
  readonly showsDisabled: boolean;
  /** Takes edits that make files. */
  readonly makesFiles: boolean;
  /** Reads files for us, wherever they lie: what the product's own client says of itself. */
  readonly readsFiles: boolean;
  /** Tells of files that change, once it is asked to. */
  readonly watchesFiles: boolean;
  /** Asks for diagnostics again when it is told to. */
  readonly refreshes: boolean;
  /** Asks whether a name can be changed before it asks for a new one. */
  readonly preparesRename: boolean;
  /** Takes edits that name the version they are for. */
  readonly versionedEdits: boolean;
  /** What can be asked of it by name: the product's own client says what it has. */
  readonly commands: ReadonlySet<string>;
  /** Asks where a symbol of the workspace stands only when it is chosen. */
  readonly lazySymbols: boolean;
  /** Asks what a new name of a file brings with it. */
  readonly asksBeforeRename: boolean;
  readonly tellsOfRename: boolean;
  /** Tells when other folders are opened or closed. */
  readonly changesFolders: boolean;
  /** Asks for code lenses again when it is told to. */
  readonly refreshesLenses: boolean;
  /** Takes semantic tokens, in these ways; undefined where it takes none. */
  readonly semanticTokens: TokenRequests | undefined;
  readonly selectionRanges: boolean;
  readonly documentLinks: boolean;
  /** Shows what a link says of its file. */
  readonly linkTooltips: boolean;
  readonly linkedEditing: boolean;
  readonly inlayHints: boolean;
  /** Asks for what a hint says when it is pointed at. */
  readonly resolvesHints: boolean;
  /** Asks for inlay hints again when it is told to. */
  readonly refreshesHints: boolean;
}

/** How a client asks for semantic tokens. */
export interface TokenRequests {
  readonly full: boolean;
  /** What has changed since the last answer. */
  readonly delta: boolean;
  readonly range: boolean;
  /** Asks again when it is told to. */
  readonly refreshes: boolean;
}

/** A client that says nothing of itself can take the least. */
export const PLAIN_CLIENT: Client = clientOf({ processId: null, rootUri: null, capabilities: {} });

export function clientOf({ capabilities, initializationOptions }: InitializeParams): Client {
  const text = capabilities?.textDocument;
  const markdown = (formats: readonly string[] | undefined): boolean => formats?.includes(MarkupKind.Markdown) ?? false;
  // Both ways of getting diagnostics describe what they can show alike.
  const shown = text?.diagnostic ?? text?.publishDiagnostics;
  const published = text?.publishDiagnostics;
  const edits = capabilities?.workspace?.workspaceEdit;
  return {
    encoding: chooseEncoding(capabilities?.general?.positionEncodings),
    pulls: text?.diagnostic !== undefined,
    markdownHover: markdown(text?.hover?.contentFormat),
    markdownCompletion: markdown(text?.completion?.completionItem?.documentationFormat),
    snippets: text?.completion?.completionItem?.snippetSupport ?? false,
    resolvesCompletions: (text?.completion?.completionItem?.resolveSupport?.properties ?? []).includes('documentation'),
    labelDetails: text?.completion?.completionItem?.labelDetailsSupport ?? false,
    markdownSignatures: markdown(text?.signatureHelp?.signatureInformation?.documentationFormat),
    parameterPlaces: text?.signatureHelp?.signatureInformation?.parameterInformation?.labelOffsetSupport ?? false,
    symbolTree: text?.documentSymbol?.hierarchicalDocumentSymbolSupport ?? false,
    definitionLinks: text?.definition?.linkSupport ?? false,
    related: shown?.relatedInformation ?? published?.relatedInformation ?? false,
    tags: (shown?.tagSupport ?? published?.tagSupport) !== undefined,
    codeActions: text?.codeAction?.codeActionLiteralSupport !== undefined,
    resolvesActions:
      (text?.codeAction?.dataSupport ?? false) && (text?.codeAction?.resolveSupport?.properties ?? []).includes('edit'),
    showsDisabled: text?.codeAction?.disabledSupport ?? false,
    makesFiles:
      (edits?.documentChanges ?? false) && (edits?.resourceOperations ?? []).includes(ResourceOperationKind.Create),
    readsFiles: (initializationOptions as { readsFiles?: unknown } | undefined)?.readsFiles === true,
    watchesFiles: capabilities?.workspace?.didChangeWatchedFiles?.dynamicRegistration ?? false,
    refreshes: capabilities?.workspace?.diagnostics?.refreshSupport ?? false,
    preparesRename: text?.rename?.prepareSupport ?? false,
    versionedEdits: edits?.documentChanges ?? false,
    commands: new Set(commandsIn(initializationOptions)),
    lazySymbols: (capabilities?.workspace?.symbol?.resolveSupport?.properties ?? []).includes('location.range'),
    asksBeforeRename: capabilities?.workspace?.fileOperations?.willRename ?? false,
    tellsOfRename: capabilities?.workspace?.fileOperations?.didRename ?? false,
    changesFolders: capabilities?.workspace?.workspaceFolders ?? false,
    refreshesLenses: capabilities?.workspace?.codeLens?.refreshSupport ?? false,
    semanticTokens: tokenRequests(capabilities),
    selectionRanges: text?.selectionRange !== undefined,
    documentLinks: text?.documentLink !== undefined,
    linkTooltips: text?.documentLink?.tooltipSupport ?? false,
    linkedEditing: text?.linkedEditingRange !== undefined,
    inlayHints: text?.inlayHint !== undefined,
    resolvesHints: (text?.inlayHint?.resolveSupport?.properties ?? []).includes('tooltip'),
    refreshesHints: capabilities?.workspace?.inlayHint?.refreshSupport ?? false,
  };
}

function tokenRequests(capabilities: InitializeParams['capabilities'] | undefined): TokenRequests | undefined {
  const tokens = capabilities?.textDocument?.semanticTokens;
  if (!tokens?.formats?.includes(TokenFormat.Relative)) return undefined;
  const { full, range } = tokens.requests ?? {};
  return {
    full: Boolean(full),
    delta: typeof full === 'object' && (full.delta ?? false),
    range: Boolean(range),
    refreshes: capabilities?.workspace?.semanticTokens?.refreshSupport ?? false,
  };
}

function commandsIn(options: unknown): readonly string[] {
  const { commands } = (options ?? {}) as { readonly commands?: unknown };
  return Array.isArray(commands) ? commands.filter((one): one is string => typeof one === 'string') : [];
}
