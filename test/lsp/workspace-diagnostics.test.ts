/** Findings of lessons that nobody has open: behind those of the file at hand, once, and as the client wants them. */
import assert from 'node:assert/strict';
import { ProgressType, type Diagnostic, type WorkspaceDiagnosticReport } from 'vscode-languageserver/node';
import { LanguageClient, MODERN, PULLING, type Abilities, type Surroundings } from '../support/language-client.ts';

const FOLDER = 'file:///lessons';
const at = (name: string): string => `${FOLDER}/${name}.lesson`;
const OTHER = 'file:///shared/slip.lesson';

const FILES: Readonly<Record<string, string>> = {
  [at('a')]: 'use row from "parts.lesson"\n\nsection verse\n  progression row\n',
  [at('b')]: 'lessen "Slip"\n',
  [at('parts')]: 'progression row\n  G | D\n',
  [OTHER]: 'nonsense\n',
};

describe('findings of the workspace', () => {
  let client: LanguageClient;
  let files: Record<string, string>;
  const start = async (abilities: Abilities, more: Surroundings = {}): Promise<void> => {
    files = { ...FILES };
    const folders = [FOLDER, 'file:///shared'];
    ({ client } = await LanguageClient.start(abilities, { folders, files, later: (callback) => callback(), ...more }));
  };
  afterEach(async () => client.stop());

  const save = (uri: string, text: string | undefined): void => {
    const type = text === undefined ? 3 : uri in files ? 2 : 1;
    if (text === undefined) delete files[uri];
    else files[uri] = text;
    client.send('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });
  };
  const codes = (items: readonly Diagnostic[]): string => items.map(({ code }) => `${code}`).join(' ');

  describe('asked for', () => {
    const ask = (
      previous: ReadonlyMap<string, string> = new Map(),
      more: object = {},
    ): Promise<WorkspaceDiagnosticReport> =>
      client.ask('workspace/diagnostic', {
        previousResultIds: [...previous].map(([uri, value]) => ({ uri, value })),
        ...more,
      });
    /** `file: codes`, or `file: unchanged`. */
    const told = ({ items }: WorkspaceDiagnosticReport): readonly string[] =>
      items.map((one) => `${one.uri.slice(8)}: ${one.kind === 'full' ? codes(one.items) : one.kind}`);
    const idsOf = ({ items }: WorkspaceDiagnosticReport): Map<string, string> =>
      new Map(items.flatMap(({ uri, resultId }) => (resultId === undefined ? [] : [[uri, resultId] as const])));

    it('are those of all folders but for what is open, of which the client asks by itself', async () => {
      await start(PULLING);
      assert.deepEqual(told(await ask()), [
        'lessons/a.lesson: ',
        'lessons/b.lesson: misspelt-word',
        'lessons/parts.lesson: ',
        'shared/slip.lesson: unknown-statement',
      ]);
      client.open(at('b'), files[at('b')]);
      assert.deepEqual(told(await ask()), [
        'lessons/a.lesson: ',
        'lessons/parts.lesson: ',
        'shared/slip.lesson: unknown-statement',
      ]);
      assert.deepEqual(client.published, []);
    });

    it('are said again in one word where they are the same', async () => {
      await start(PULLING);
      const first = await ask();
      const again = ask(idsOf(first));
      save(at('b'), 'lesson "Mended"\n');
      assert.deepEqual(told(await again), [
        'lessons/a.lesson: unchanged',
        'lessons/b.lesson: ',
        'lessons/parts.lesson: unchanged',
        'shared/slip.lesson: unchanged',
      ]);
    });

    it('are not said at all as long as there is nothing new', async () => {
      await start(PULLING);
      const first = await ask();
      let isAnswered = false;
      const again = ask(idsOf(first)).finally(() => (isAnswered = true));
      save(at('b'), files[at('b')]);
      await client.caughtUp();
      assert.equal(isAnswered, false);
      save(at('b'), undefined);
      assert.deepEqual(told(await again), [
        'lessons/a.lesson: unchanged',
        'lessons/parts.lesson: unchanged',
        'shared/slip.lesson: unchanged',
        'lessons/b.lesson: ',
      ]);
    });

    it('follow what an open lesson gives to others, before it is saved', async () => {
      await start(PULLING);
      client.open(at('parts'), files[at('parts')]);
      const first = await ask();
      const again = ask(idsOf(first));
      client.change(at('parts'), { text: 'progression rows\n  G | D\n' });
      assert.deepEqual(told(await again), [
        'lessons/a.lesson: part-not-in-file',
        'lessons/b.lesson: unchanged',
        'shared/slip.lesson: unchanged',
      ]);
    });

    it('come in full after a lesson has been open, whatever the client has of it', async () => {
      await start(PULLING);
      const first = await ask();
      client.open(at('b'), '');
      await client.caughtUp();
      client.close(at('b'));
      const again = await ask(idsOf(first));
      assert.ok(told(again).includes('lessons/b.lesson: misspelt-word'));
    });

    it('are told of a lesson that has just been closed, when the editor asks once more, and of no file elsewhere', async () => {
      await start(PULLING);
      const elsewhere = 'file:///elsewhere/slip.lesson';
      files[elsewhere] = 'nonsense\n';
      const one = async (uri: string): Promise<string> => {
        client.open(uri, '');
        client.close(uri);
        return codes(
          (await client.ask<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument: { uri } })).items,
        );
      };
      assert.equal(await one(at('b')), 'misspelt-word');
      assert.equal(await one(elsewhere), '');
    });

    it('come one by one where the client takes them so', async () => {
      await start(PULLING);
      const parts: string[] = [];
      const type = new ProgressType<WorkspaceDiagnosticReport>();
      client.connection.onProgress(type, 'parts', (report) => void parts.push(told(report).join(', ')));
      const rest = await ask(new Map(), { partialResultToken: 'parts' });
      assert.deepEqual(told(rest), []);
      assert.deepEqual(parts, [
        'lessons/a.lesson: ',
        'lessons/b.lesson: misspelt-word',
        'lessons/parts.lesson: ',
        'shared/slip.lesson: unknown-statement',
      ]);
    });

    it('wait for the file at hand', async () => {
      await start(PULLING);
      const order: string[] = [];
      const workspace = ask().then(() => order.push('workspace'));
      client.open(at('c'), 'nonsense\n');
      const hand = client
        .ask('textDocument/diagnostic', { textDocument: { uri: at('c') } })
        .then(() => order.push('at hand'));
      await Promise.all([workspace, hand]);
      assert.deepEqual(order, ['at hand', 'workspace']);
    });

    it('rest while somebody writes', async () => {
      const pauses: (() => void)[] = [];
      await start(PULLING, { later: (callback) => void pauses.push(callback) });
      const paused = async (): Promise<void> => {
        for (const end of pauses.splice(0)) end();
        await client.caughtUp();
      };
      client.open(at('c'), '');
      let isAnswered = false;
      const asked = ask().finally(() => (isAnswered = true));
      await client.caughtUp();
      client.type(at('c'), 0, 0, '; a');
      await client.caughtUp();
      await paused();
      assert.equal(isAnswered, false, 'something was written since the pause began');
      await paused();
      await asked;
    });

    it('are given up when they are called back, while they are worked out and while they wait', async () => {
      await start(PULLING);
      const asked = ask();
      client.send('$/cancelRequest', { id: 1 });
      await assert.rejects(asked, { code: -32800 });
      const waits = ask(idsOf(await ask()));
      await client.caughtUp();
      client.send('$/cancelRequest', { id: 3 });
      await assert.rejects(waits, { code: -32800 });
    });

    it('go where a teacher does not want them', async () => {
      await start(PULLING);
      const first = await ask();
      const again = ask(idsOf(first));
      client.send('workspace/didChangeConfiguration', { settings: { stringcourse: { workspaceDiagnostics: false } } });
      const report = await again;
      assert.deepEqual(
        report.items.map((one) => one.kind === 'full' && one.items.length === 0 && one.resultId === undefined),
        [true, true, true, true],
      );
    });
  });

  describe('sent', () => {
    const last = (): Readonly<Record<string, string>> =>
      Object.fromEntries(client.published.map(({ uri, diagnostics }) => [uri, codes(diagnostics)]));
    const settled = async (): Promise<Readonly<Record<string, string>>> => {
      for (let turn = 0; turn < 5; turn++) await client.caughtUp();
      return last();
    };

    it('come by themselves, and nothing is sent of lessons that have none', async () => {
      await start(MODERN);
      assert.deepEqual(await settled(), { [at('b')]: 'misspelt-word', [OTHER]: 'unknown-statement' });
      assert.equal(client.published.length, 2);
    });

    it('come behind those of the file at hand, and not twice for the same text', async () => {
      await start(MODERN);
      client.open(at('c'), 'nonsense\n');
      await settled();
      assert.equal(client.published[0].uri, at('c'));
      client.published.length = 0;
      client.change(at('c'), { text: '; nothing\n' });
      save(at('b'), files[at('b')]);
      await settled();
      assert.deepEqual(
        client.published.map(({ uri }) => uri),
        [at('c')],
      );
    });

    it('follow what is saved, made and deleted', async () => {
      await start(MODERN);
      await settled();
      save(at('b'), 'lesson "Mended"\n');
      save(OTHER, undefined);
      save(at('d'), 'key H major\n');
      assert.deepEqual(await settled(), { [at('b')]: '', [OTHER]: '', [at('d')]: 'unknown-key' });
    });

    it('change hands when a lesson is opened and closed', async () => {
      await start(MODERN);
      await settled();
      client.open(at('b'), 'lesson "Mended"\n');
      assert.equal((await settled())[at('b')], '');
      client.close(at('b'));
      assert.equal((await settled())[at('b')], 'misspelt-word');
    });

    it('go where a teacher does not want them', async () => {
      await start(MODERN);
      await settled();
      client.send('workspace/didChangeConfiguration', { settings: { stringcourse: { workspaceDiagnostics: false } } });
      assert.deepEqual(await settled(), { [at('b')]: '', [OTHER]: '' });
    });
  });
});
