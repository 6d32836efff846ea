/** Code actions on the wire: listed without their edits, worked out when one is chosen, and never for another version. */
import assert from 'node:assert/strict';
import { LSPErrorCodes, type CodeAction, type TextDocumentEdit } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, type Abilities } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const URI = `${FOLDER}/lamps.lesson`;
const LESSON = `key G major

shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3

progression quay
  G | D | Em

section verse
  progression quay
  shape lamp
`;

/** A client that asks for the edit of the action that somebody chooses, shows what cannot be done, and makes files. */
const LAZY: Abilities = {
  ...MODERN,
  workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ['create'] } },
  textDocument: {
    ...MODERN.textDocument,
    codeAction: {
      ...MODERN.textDocument?.codeAction,
      dataSupport: true,
      disabledSupport: true,
      resolveSupport: { properties: ['edit'] },
    },
  },
};

describe('code actions', () => {
  let client: LanguageClient;
  const start = async (abilities: Abilities = LAZY, files: Record<string, string> = {}): Promise<void> => {
    ({ client } = await LanguageClient.start(abilities, { folder: FOLDER, files }));
    client.open(URI, LESSON);
  };
  afterEach(async () => client.stop());

  const at = (line: number, character: number, only?: string[]): Promise<CodeAction[]> => {
    const position = { line, character };
    return client.ask('textDocument/codeAction', {
      textDocument: { uri: URI },
      range: { start: position, end: position },
      context: { diagnostics: [], ...(only && { only }) },
    });
  };
  const called = (actions: readonly CodeAction[], start_: string): CodeAction => {
    const found = actions.find(({ title }) => title.startsWith(start_));
    assert.ok(found, `${start_} among ${actions.map(({ title }) => title).join('; ')}`);
    return found;
  };
  const resolved = (action: CodeAction): Promise<CodeAction> => client.ask('codeAction/resolve', action);
  const changes = ({ edit }: CodeAction): readonly unknown[] => edit?.documentChanges ?? [];

  it('are listed without their edits, and resolved with the version that they are for', async () => {
    await start();
    const pin = called(await at(8, 6), 'Pin what is played: D');
    assert.equal(pin.kind, 'refactor.rewrite.voicing');
    assert.equal(pin.edit, undefined);
    const [change, ...others] = changes(await resolved(pin)) as TextDocumentEdit[];
    assert.deepEqual(others, []);
    assert.deepEqual(change.textDocument, { uri: URI, version: 1 });
    const place = { line: 8, character: 7 };
    assert.deepEqual(change.edits, [{ range: { start: place, end: place }, newText: ' at 3' }]);
  });

  it('carry their edits for a client that cannot ask for them, and nothing that it cannot do', async () => {
    await start(MODERN);
    const all = await at(8, 6);
    assert.ok(all.length > 3);
    for (const { edit, disabled } of all) assert.ok(edit && !disabled);
    assert.ok(!(await at(2, 8)).some(({ title }) => title.startsWith('Move shape')), 'it makes no files');
  });

  it('say why they cannot be done', async () => {
    await start();
    client.change(URI, {
      text: LESSON.replace('section verse', 'grip D xx0232\n\nsection verse').replace('  shape lamp\n', ''),
    });
    const pin = called(await at(8, 6), 'Pin D');
    assert.deepEqual(pin.disabled, { reason: 'The grip of D says its frets already.' });
  });

  it('are refused for another version of the lesson', async () => {
    await start();
    const pin = called(await at(8, 6), 'Pin what is played: D');
    client.type(URI, 0, 0, ';\n');
    await assert.rejects(resolved(pin), { code: LSPErrorCodes.ContentModified });
  });

  it('come by the kind that is asked for', async () => {
    await start();
    const titles = async (only: string[]): Promise<readonly string[]> =>
      (await at(8, 6, only)).map(({ title }) => title.split(' ')[0]);
    assert.deepEqual(await titles(['refactor.extract']), ['Move']);
    assert.deepEqual(await titles(['refactor.rewrite.symbol']), ['Write', 'Write', 'Write']);
    assert.deepEqual(await titles(['quickfix']), ['Allow']);
  });

  it('mend all slips at once where the client asks for that', async () => {
    await start();
    client.change(URI, { text: LESSON.replace('key G major', 'key: G major').replace('section', 'sektion') });
    assert.ok(!(await at(0, 4)).some(({ kind }) => kind?.startsWith('source')));
    const [all, ...others] = await at(0, 4, ['source.fixAll']);
    assert.deepEqual(others, []);
    assert.equal(all.kind, 'source.fixAll.stringcourse');
    const [change] = changes(await resolved(all)) as TextDocumentEdit[];
    assert.deepEqual(
      change.edits.map((edit) => [edit.range.start.line, 'newText' in edit ? edit.newText : '']),
      [
        [0, ''],
        [10, 'c'],
      ],
    );
  });

  it('say after a while what another key wins and loses', async () => {
    await start();
    const toA = async (): Promise<string> => called(await at(0, 5), 'Transpose to A major').title;
    const first = await toA();
    let last = first;
    for (let turn = 0; turn < 200 && last === first; turn++) {
      await client.caughtUp();
      last = await toA();
    }
    assert.equal(first, 'Transpose to A major');
    // The open G is the root of G, 11 of D and 3 of Em; over A it is b7, over E #9, over F#m b9.
    assert.equal(last, 'Transpose to A major (loses 1 colour, wins 3)');
  });

  describe('that make a file', () => {
    it('write it beside the lesson under a free name', async () => {
      await start(LAZY, { [`${FOLDER}/lamp.lesson`]: 'shape bell\n  strings 3 2 1\n' });
      const move = called(await at(2, 8), 'Move shape lamp');
      const uri = `${FOLDER}/lamp-2.lesson`;
      const [create, write, edit] = changes(await resolved(move)) as [object, TextDocumentEdit, TextDocumentEdit];
      assert.deepEqual(create, { kind: 'create', uri, options: { overwrite: false, ignoreIfExists: false } });
      assert.deepEqual(write.textDocument, { uri, version: null });
      assert.deepEqual(
        write.edits.map((one) => 'newText' in one && one.newText),
        ['shape lamp\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n'],
      );
      assert.deepEqual(
        edit.edits.map((one) => 'newText' in one && one.newText),
        ['use lamp from "lamp-2.lesson"'],
      );
    });
    it('are refused where other lessons would lose the part', async () => {
      await start(LAZY, { [`${FOLDER}/other.lesson`]: 'use lamp from "lamps.lesson"\n' });
      await assert.rejects(resolved(called(await at(2, 8), 'Move shape lamp')), /Another lesson uses lamp/);
    });
  });
});
