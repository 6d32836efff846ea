/** Settings: from the client that can be asked, and from the one that sends them. */
import assert from 'node:assert/strict';
import { DEFAULTS, readSettings, SettingsOfLessons } from '../../server/src/lsp/settings.ts';

const A = 'file:///lessons/a.lesson';
const B = 'file:///lessons/b.lesson';
const without = (name: string): unknown => ({ inlayHints: { [name]: false } });

/** The settings of a client that answers from `values`, by address, and what it was asked. */
function asked(values: Record<string, unknown>): {
  settings: SettingsOfLessons;
  questions: string[][];
  told: string[][];
  change: (sent?: unknown) => void;
} {
  const questions: string[][] = [];
  const told: string[][] = [];
  let change: (params: { settings: unknown }) => void = () => {};
  const connection = {
    onDidChangeConfiguration: (handler: typeof change) => void (change = handler),
    workspace: {
      getConfiguration: async (items: { scopeUri: string; section: string }[]) => {
        questions.push(items.map(({ scopeUri }) => scopeUri));
        return items.map(({ scopeUri }) => values[scopeUri]);
      },
    },
  };
  const settings = new SettingsOfLessons(connection as never);
  settings.introduced({ processId: null, rootUri: null, capabilities: { workspace: { configuration: true } } });
  settings.listen();
  settings.onChanged((concerned) => told.push([A, B].filter(concerned)));
  return { settings, questions, told, change: (sent) => change({ settings: sent }) };
}

describe('settings', () => {
  it('that are missing, or of another kind than they should be, are as by default', () => {
    for (const sent of [
      undefined,
      null,
      3,
      'no',
      [],
      {},
      { inlayHints: null },
      { inlayHints: { soundingNames: 'no' } },
    ])
      assert.deepEqual(readSettings(sent), DEFAULTS);
    assert.deepEqual(readSettings(without('soundingNames')), {
      ...DEFAULTS,
      inlayHints: { soundingNames: false, contourFrets: true },
    });
  });

  it('are asked once for each lesson, and in one question for many', async () => {
    const { settings, questions } = asked({ [A]: without('contourFrets') });
    const [a, b] = await Promise.all([settings.whenKnown(A), settings.whenKnown(B), settings.whenKnown(A)]);
    assert.deepEqual([a.inlayHints.contourFrets, b.inlayHints.contourFrets], [false, true]);
    assert.equal(settings.settingsOf(A).inlayHints.contourFrets, false);
    assert.deepEqual(questions, [[A, B]]);
  });

  it('are the default for who does not wait, who is told of another answer', async () => {
    const { settings, told } = asked({ [A]: without('contourFrets') });
    assert.deepEqual([settings.settingsOf(A), settings.settingsOf(B)], [DEFAULTS, DEFAULTS]);
    await settings.whenKnown(B);
    assert.deepEqual(told, [[A]]);
  });

  it('that change are told of, lesson by lesson, and nothing is told of what nobody asked about', async () => {
    const values: Record<string, unknown> = {};
    const { settings, told, questions, change } = asked(values);
    change();
    await settings.whenKnown(A);
    assert.deepEqual(told, []);
    values[A] = without('soundingNames');
    values[B] = without('soundingNames');
    change();
    await settings.whenKnown(B);
    assert.deepEqual(told, [[A]]);
    assert.equal(settings.settingsOf(A).inlayHints.soundingNames, false);
    settings.forget(A);
    change();
    await settings.whenKnown(A);
    assert.deepEqual(questions.at(-1), [B, A]);
  });

  it('that change while the client answers are asked again', async () => {
    const values: Record<string, unknown> = { [A]: without('soundingNames') };
    const { settings, change } = asked(values);
    const answer = settings.whenKnown(A);
    await Promise.resolve();
    values[A] = without('contourFrets');
    change();
    assert.deepEqual((await answer).inlayHints, { soundingNames: true, contourFrets: false });
  });

  it('of a client that cannot be asked are those that it sends, under their name or without it', () => {
    let change: (params: { settings: unknown }) => void = () => {};
    const connection = { onDidChangeConfiguration: (handler: typeof change) => void (change = handler) };
    const settings = new SettingsOfLessons(connection as never);
    settings.introduced({
      processId: null,
      rootUri: null,
      capabilities: {},
      initializationOptions: { readsFiles: false, ...(without('soundingNames') as object) },
    });
    settings.listen();
    let told = 0;
    settings.onChanged((concerned) => void (told += concerned(A) ? 1 : 0));
    assert.equal(settings.settingsOf(A).inlayHints.soundingNames, false);
    change({ settings: { stringcourse: without('soundingNames') } });
    assert.equal(told, 0);
    change({ settings: { stringcourse: {} } });
    assert.deepEqual([told, settings.settingsOf(A)], [1, DEFAULTS]);
  });
});
