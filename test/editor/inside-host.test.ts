import assert from 'node:assert/strict';
import { test } from 'node:test';
import { setTimeout as sleep } from 'node:timers/promises';
import { startWorkbench } from './workbench.ts';

test('inside the extension’s host, through the editor’s own interface', { timeout: 180_000 }, async (context) => {
  const said: string[] = [];
  let end: (code: number) => void = () => {};
  const ended = new Promise<number>((done) => {
    end = done;
  });
  const workbench = await startWorkbench({
    folder: 'samples',
    extension: 'tested',
    testModule: 'test/editor/inside-host.cjs',
    log: 'inside-host.log',
    beforeOpening: async (page) => {
      // The names by which a workbench hands over what its tests print, and how they ended.
      await page.exposeFunction('codeAutomationLog', (kind: string, words: readonly unknown[]) =>
        said.push([kind, ...words].join(' ')),
      );
      await page.exposeFunction('codeAutomationExit', (code: number) => end(code));
    },
  });
  context.after(() => workbench.stop());
  const code = await Promise.race([ended, sleep(90_000, -1, { ref: false })]);
  const passed = said.flatMap((line) => /(?<=\bok ).*/.exec(line) ?? []);
  for (const name of passed) context.diagnostic(name);
  assert.equal(code, 0, said.filter((line) => !line.includes('[lifecycle]')).join('\n'));
  assert.ok(passed.length > 0);
});
