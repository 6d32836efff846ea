/** The floor that a language server is measured against: the same library, every answer at once, nothing computed. */
const { createConnection, TextDocuments, TextDocumentSyncKind } = require('vscode-languageserver/node');
const { TextDocument } = require('vscode-languageserver-textdocument');

const connection = createConnection(process.stdin, process.stdout);
const documents = new TextDocuments(TextDocument);

connection.onInitialize(() => ({
  capabilities: {
    textDocumentSync: TextDocumentSyncKind.Incremental,
    hoverProvider: true,
    completionProvider: {},
    documentSymbolProvider: true,
    diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false },
  },
}));
connection.languages.diagnostics.on(() => ({ kind: 'full', items: [] }));
documents.onDidChangeContent(({ document }) => {
  void connection.sendDiagnostics({ uri: document.uri, version: document.version, diagnostics: [] });
});
connection.onHover(() => null);
connection.onCompletion(() => []);
connection.onDocumentSymbol(() => []);

documents.listen(connection);
connection.listen();
