/** The server as a client meets it: introduction, findings, questions, slips. */
import assert from 'node:assert/strict';
import {
  SignatureHelpTriggerKind,
  type CodeAction,
  type CompletionList,
  type DefinitionLink,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type DocumentSymbol,
  type FoldingRange,
  type Hover,
  type Location,
  type MarkupContent,
  type SignatureHelp,
  type SymbolInformation,
  type TextDocumentEdit,
  type TextEdit,
} from 'vscode-languageserver/node';
import { LanguageClient, MODERN, PULLING, type Abilities } from '../support/language-client.ts';

const URI = 'file:///lessons/a.lesson';
const OTHER = 'file:///lessons/b.lesson';

const LESSON = `lesson "Lamps"
key G major

progression quay
  G | D | Em

section verse
  progression quay
  shape open-chords
`;

const codes = (diagnostics: readonly Diagnostic[]): unknown[] => diagnostics.map(({ code }) => code);
const hovered = (hover: Hover | null): string => (hover?.contents as MarkupContent | undefined)?.value ?? '';

describe('the language server', () => {
  let client: LanguageClient;
  const start = async (abilities: Abilities = MODERN): Promise<LanguageClient> => {
    ({ client } = await LanguageClient.start(abilities));
    return client;
  };
  afterEach(async () => client.stop());

  describe('introduced', () => {
    for (const encoding of ['utf-8', 'utf-16', 'utf-32'])
      it(`counts columns in ${encoding} where the client does`, async () => {
        const started = await LanguageClient.start({ ...MODERN, general: { positionEncodings: [encoding] } });
        client = started.client;
        assert.equal(started.introduced.capabilities.positionEncoding, encoding);
        client.open(URI, '; 😀♭\nlesson "😀♭" xy\n');
        const [slip] = await client.findings(URI);
        // The word behind the title: eight signs, a sign of 4 bytes or 2 units, one of 3 bytes, and two more.
        const column = { 'utf-8': 8 + 4 + 3 + 2, 'utf-16': 8 + 2 + 1 + 2, 'utf-32': 8 + 1 + 1 + 2 }[encoding]!;
        assert.deepEqual(slip.range, {
          start: { line: 1, character: column },
          end: { line: 1, character: column + 2 },
        });
        const hover = await client.at<Hover | null>('textDocument/hover', URI, 1, 3);
        assert.deepEqual(hover?.range?.end, { line: 1, character: 6 });
      });

    it('offers nothing that it does not answer', async () => {
      const commands = ['stringcourse.openPreview'];
      const started = await LanguageClient.start(PULLING, { options: { commands } });
      client = started.client;
      client.open(URI, LESSON);
      const methods: Record<string, string> = {
        hoverProvider: 'hover',
        inlayHintProvider: 'inlayHint',
        selectionRangeProvider: 'selectionRange',
        documentLinkProvider: 'documentLink',
        linkedEditingRangeProvider: 'linkedEditingRange',
        semanticTokensProvider: 'semanticTokens/full',
        callHierarchyProvider: 'prepareCallHierarchy',
        workspaceSymbolProvider: 'workspace/symbol',
        codeLensProvider: 'codeLens',
        definitionProvider: 'definition',
        documentSymbolProvider: 'documentSymbol',
        foldingRangeProvider: 'foldingRange',
        completionProvider: 'completion',
        signatureHelpProvider: 'signatureHelp',
        codeActionProvider: 'codeAction',
        documentFormattingProvider: 'formatting',
        documentRangeFormattingProvider: 'rangeFormatting',
        documentOnTypeFormattingProvider: 'onTypeFormatting',
        diagnosticProvider: 'diagnostic',
        documentHighlightProvider: 'documentHighlight',
        referencesProvider: 'references',
        renameProvider: 'rename',
      };
      const offered = Object.keys(started.introduced.capabilities).filter((name) => name.endsWith('Provider'));
      assert.deepEqual(offered.sort(), Object.keys(methods).sort());
      const position = { line: 0, character: 0 };
      const range = { start: position, end: position };
      const options = { tabSize: 2, insertSpaces: true };
      for (const method of Object.values(methods)) {
        const params = { textDocument: { uri: URI }, position, range, context: { diagnostics: [] }, options, ch: '|' };
        const places = { positions: [position] };
        const isOfWorkspace = method.startsWith('workspace/');
        await client.ask(isOfWorkspace ? method : `textDocument/${method}`, { ...params, ...places, query: '' });
      }
    });

    it('does for a client that can take nothing', async () => {
      await start({});
      client.open(URI, LESSON);
      assert.deepEqual(await client.findings(URI), []);
      const hover = await client.at<Hover>('textDocument/hover', URI, 4, 6);
      assert.equal((hover.contents as MarkupContent).kind, 'plaintext');
      const definition = await client.at<Location>('textDocument/definition', URI, 7, 16);
      assert.deepEqual(definition.range.start, { line: 3, character: 12 });
      const symbols = await client.ask<SymbolInformation[]>('textDocument/documentSymbol', {
        textDocument: { uri: URI },
      });
      assert.ok(symbols.some(({ name, containerName }) => name === 'Bar 2' && containerName === 'quay'));
      const completions = await client.at<CompletionList>('textDocument/completion', URI, 0, 0);
      assert.equal(completions.items[0].textEdit?.newText, 'lesson');
    });
  });

  describe('sent findings', () => {
    it('come with the version they are for, and go when the lesson is mended or closed', async () => {
      await start();
      client.open(URI, LESSON.replace('Em', 'Hm'));
      assert.deepEqual(codes(await client.findings(URI)), ['unknown-chord']);
      client.change(URI, { range: { start: { line: 4, character: 10 }, end: { line: 4, character: 11 } }, text: 'E' });
      assert.deepEqual(await client.findings(URI, 2), []);
      client.change(URI, { text: 'nonsense' });
      assert.deepEqual(codes(await client.findings(URI, 3)), ['unknown-statement']);
      client.close(URI);
      await client.until(() => client.published.some((one) => one.version === undefined));
      assert.deepEqual(client.published.at(-1), { uri: URI, diagnostics: [] });
    });

    it('are sent once for changes that come together, for the newest version', async () => {
      await start();
      client.open(URI, LESSON);
      await client.findings(URI);
      for (let typed = 0; typed < 10; typed++) client.type(URI, 1, 11, 'x');
      await client.findings(URI, 11);
      await client.caughtUp();
      assert.deepEqual(
        client.published.map(({ version }) => version),
        [1, 11],
      );
    });

    it('mark what is not needed, and point to what explains them', async () => {
      await start();
      client.open(URI, `${LESSON}\ncell spare\n  p6\n\nkey D major\nshape a\n  strings 1\nshape a\n  strings 2\n`);
      const findings = await client.findings(URI);
      const unused = findings.find(({ code }) => code === 'unused-name');
      assert.deepEqual(unused?.tags, [1]);
      assert.equal(unused?.source, 'stringcourse');
    });

    it('are of each lesson by itself', async () => {
      await start();
      client.open(URI, LESSON);
      client.open(OTHER, 'nonsense\n');
      assert.deepEqual(codes(await client.findings(OTHER)), ['unknown-statement']);
      assert.deepEqual(await client.findings(URI), []);
      client.close(OTHER);
      client.type(URI, 0, 0, '; a comment\n');
      assert.deepEqual(await client.findings(URI, 2), []);
      assert.equal(await client.at('textDocument/hover', OTHER, 0, 0), null);
    });
  });

  describe('asked for findings', () => {
    const pull = (previousResultId?: string): Promise<DocumentDiagnosticReport> =>
      client.ask('textDocument/diagnostic', { textDocument: { uri: URI }, previousResultId });

    it('answers, and sends none', async () => {
      await start(PULLING);
      client.open(URI, LESSON.replace('Em', 'Hm'));
      const report = await pull();
      assert.ok(report.kind === 'full');
      assert.deepEqual(codes(report.items), ['unknown-chord']);
      client.close(URI);
      await client.caughtUp();
      assert.deepEqual(client.published, []);
    });

    it('says in one word that nothing has changed', async () => {
      await start(PULLING);
      client.open(URI, LESSON);
      const first = await pull();
      assert.ok(first.kind === 'full' && first.resultId);
      assert.deepEqual(await pull(first.resultId), { kind: 'unchanged', resultId: first.resultId });
      client.type(URI, 8, 0, '; a comment');
      assert.deepEqual(await pull(first.resultId), { kind: 'unchanged', resultId: first.resultId });
      client.type(URI, 0, 0, 'nonsense\n');
      const changed = await pull(first.resultId);
      assert.ok(changed.kind === 'full' && changed.resultId !== first.resultId);
    });

    it('gives up on a text that has changed meanwhile, and asks to be asked again', async () => {
      await start(PULLING);
      client.open(URI, LESSON);
      const asked = pull();
      client.type(URI, 0, 0, '; first\n');
      // ServerCancelled.
      await assert.rejects(asked, (failure: { code: number; data: unknown }) => {
        assert.equal(failure.code, -32802);
        assert.deepEqual(failure.data, { retriggerRequest: true });
        return true;
      });
    });

    it('knows nothing of a lesson that is not open', async () => {
      await start(PULLING);
      assert.deepEqual(await pull(), { kind: 'full', items: [] });
    });
  });

  describe('questions', () => {
    it('are answered at a place', async () => {
      await start();
      client.open(URI, LESSON);
      const hover = await client.at<Hover>('textDocument/hover', URI, 4, 6);
      assert.equal((hover.contents as MarkupContent).kind, 'markdown');
      assert.match(hovered(hover), /^\*\*D\*\* sounds as written\n/);
      assert.deepEqual(hover.range, { start: { line: 4, character: 6 }, end: { line: 4, character: 7 } });

      const [link] = await client.at<DefinitionLink[]>('textDocument/definition', URI, 7, 16);
      assert.deepEqual(link.originSelectionRange?.start, { line: 7, character: 14 });
      assert.deepEqual(link.targetSelectionRange.start, { line: 3, character: 12 });
      assert.deepEqual(link.targetRange, { start: { line: 3, character: 0 }, end: { line: 4, character: 12 } });

      const { items } = await client.at<CompletionList>('textDocument/completion', URI, 8, 8);
      assert.deepEqual(
        items.map(({ label }) => label),
        ['open-chords', 'barre-chords', 'power-chords'],
      );
      assert.deepEqual(
        items.map(({ sortText }) => sortText),
        ['0', '1', '2'],
      );
    });

    it('are answered for a document', async () => {
      await start();
      client.open(URI, LESSON);
      const symbols = await client.ask<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument: { uri: URI } });
      assert.deepEqual(
        symbols.map(({ name }) => name),
        ['Lamps', 'key', 'quay', 'verse'],
      );
      const folds = await client.ask<FoldingRange[]>('textDocument/foldingRange', { textDocument: { uri: URI } });
      assert.deepEqual(folds, [
        { startLine: 3, endLine: 4 },
        { startLine: 6, endLine: 8 },
      ]);
    });

    it('lay the text out', async () => {
      await start();
      client.open(URI, 'key  G major\nprogression p\n  G|D   \n');
      const edits = await client.ask<TextEdit[]>('textDocument/formatting', {
        textDocument: { uri: URI },
        options: { tabSize: 8, insertSpaces: false },
      });
      client.change(URI, ...[...edits].reverse().map(({ range, newText }) => ({ range, text: newText })));
      assert.deepEqual(
        await client.ask('textDocument/formatting', { textDocument: { uri: URI }, options: {} }),
        [],
        'what is laid out stays as it is',
      );
      assert.ok(edits.length > 0);
    });

    it('about the text as it is now follow each edit', async () => {
      await start();
      client.open(URI, LESSON);
      client.type(URI, 0, 0, '; above\r\n; and again\r');
      const hover = await client.at<Hover>('textDocument/hover', URI, 6, 6);
      assert.match(hovered(hover), /^\*\*D\*\*/);
    });

    it('offer what must follow behind a blank, and nothing at a line’s end', async () => {
      await start();
      client.open(URI, 'key \nprogression p\n  G \n');
      const behindBlank = (line: number, character: number): Promise<CompletionList | null> =>
        client.ask('textDocument/completion', {
          textDocument: { uri: URI },
          position: { line, character },
          context: { triggerKind: 2, triggerCharacter: ' ' },
        });
      assert.equal((await behindBlank(0, 4))?.items[0].label, 'C major');
      assert.equal(await behindBlank(2, 4), null);
    });

    it('about a place outside the text are answered', async () => {
      await start();
      client.open(URI, LESSON);
      assert.equal(await client.at('textDocument/hover', URI, 99, 99), null);
      assert.equal(await client.at('textDocument/hover', URI, 2, 5_000), null);
    });

    it('that are called back are not answered', async () => {
      await start();
      client.open(URI, LESSON);
      const asked = client.connection.sendRequest('textDocument/hover', {
        textDocument: { uri: URI },
        position: { line: 4, character: 6 },
      });
      // The library numbers its requests from 0; the introduction was the first.
      client.send('$/cancelRequest', { id: 1 });
      await assert.rejects(asked, { code: -32800 });
    });

    it('that an edit has overtaken are not answered', async () => {
      // Nothing is analysed before it is asked for.
      await start(PULLING);
      client.open(URI, LESSON);
      const asked = client.at('textDocument/hover', URI, 4, 6);
      client.type(URI, 0, 0, '; first\n');
      await assert.rejects(asked, { code: -32801 });
    });
  });

  describe('signature help', () => {
    const KEY = `${LESSON}\ncapo \n`;
    const ask = (kind: SignatureHelpTriggerKind, character: number): Promise<SignatureHelp | null> =>
      client.ask('textDocument/signatureHelp', {
        textDocument: { uri: URI },
        position: { line: KEY.split('\n').length - 2, character },
        context: { triggerKind: kind, isRetrigger: false },
      });

    it('marks the word that the cursor is at', async () => {
      await start();
      client.open(URI, KEY);
      const found = (await ask(SignatureHelpTriggerKind.Invoked, 5))!;
      assert.deepEqual(
        found.signatures.map(({ label, activeParameter }) => [label, activeParameter]),
        [['capo FRET [on STRING …]', 0]],
      );
      assert.equal(found.signatures[0].parameters?.[1].label, '[on STRING …]');
    });

    it('opens by itself only where something must follow', async () => {
      await start();
      client.open(URI, KEY.replace('capo ', 'capo 2 '));
      assert.equal(await ask(SignatureHelpTriggerKind.TriggerCharacter, 7), null);
      assert.equal((await ask(SignatureHelpTriggerKind.Invoked, 7))?.signatures[0].activeParameter, 1);
    });
  });

  describe('quick fixes', () => {
    const fixes = (only?: string[]): Promise<CodeAction[] | null> =>
      client.ask('textDocument/codeAction', {
        textDocument: { uri: URI },
        range: { start: { line: 0, character: 2 }, end: { line: 0, character: 2 } },
        context: { diagnostics: client.published.at(-1)?.diagnostics ?? [], ...(only && { only }) },
      });

    it('mend the finding at the cursor', async () => {
      await start();
      client.open(URI, 'lessen "Lamps"\n\nsections a\n');
      await client.findings(URI);
      const [fix, ...others] = (await fixes())!;
      assert.deepEqual(others, []);
      assert.equal(fix.title, 'Write `lesson`');
      assert.equal(fix.isPreferred, true);
      assert.deepEqual(codes(fix.diagnostics!), ['misspelt-word']);
      const [change] = fix.edit!.documentChanges as TextDocumentEdit[];
      assert.deepEqual(change.textDocument, { uri: URI, version: 1 });
      const word = { start: { line: 0, character: 0 }, end: { line: 0, character: 6 } };
      assert.deepEqual(change.edits, [{ range: word, newText: 'lesson' }]);
      assert.equal((await fixes(['quickfix']))?.length, 1);
      assert.deepEqual(await fixes(['refactor']), []);
    });

    it('and the other keys on the key of the lesson', async () => {
      await start();
      client.open(URI, LESSON.replace('lesson "Lamps"\n', ''));
      const actions = (await fixes(['refactor']))!;
      const toA = actions.find(({ title }) => title === 'Transpose to A major')!;
      assert.equal(toA.kind, 'refactor.rewrite.key');
      const [change] = toA.edit!.documentChanges as TextDocumentEdit[];
      assert.deepEqual(
        change.edits.map((edit) => ('newText' in edit ? edit.newText : '')),
        ['A', 'A', 'E', 'F#m'],
      );
      assert.deepEqual(await fixes(['quickfix']), []);
    });
  });

  describe('nonsense', () => {
    it('is survived', async () => {
      await start();
      client.open(URI, LESSON);
      await assert.rejects(client.ask('textDocument/nonsense', {}), { code: -32601 });
      await assert.rejects(client.ask('textDocument/hover', {}));
      await assert.rejects(client.ask('textDocument/hover', 7));
      await client.ask('stringcourse/watchPreview', {});
      client.send('textDocument/didChange', {
        textDocument: { uri: OTHER, version: 4 },
        contentChanges: [{ text: 'x' }],
      });
      client.send('textDocument/didClose', { textDocument: { uri: OTHER } });
      client.send('textDocument/didChange', { textDocument: { uri: URI } });
      client.send('stringcourse/unwatchPreview', null);
      await client.at('textDocument/hover', URI, -3, -8);
      assert.match(hovered(await client.at<Hover>('textDocument/hover', URI, 4, 6)), /^\*\*D\*\*/);
    });

    it('that fails inside is written to the log, and answered with nothing', async () => {
      await start();
      client.open(URI, LESSON);
      assert.equal(await client.ask('textDocument/hover', { textDocument: { uri: URI }, position: null }), null);
      assert.equal(client.log.length, 1);
      assert.match(client.log[0], /^hover: TypeError/);
    });

    it('in a lesson is survived too', async () => {
      await start();
      client.open(URI, `${'\u0000'.repeat(20)}\nkey`);
      assert.deepEqual(codes(await client.findings(URI)), ['not-a-text']);
      client.change(URI, { text: '|'.repeat(10_000) });
      assert.ok((await client.findings(URI, 2)).length > 0);
    });
  });
});
