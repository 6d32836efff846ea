/** Playback as the editor around the page sees it: commands, a page that waits for a touch, and marks in the text. */
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { SAMPLE } from './sample.ts';
import { eventually } from './user-steps.ts';
import { editorIn, previewIn, runCommand, SHOTS, startWorkbench, type Workbench } from './workbench.ts';

/**
 * In every page of the workbench, those inside panels too: what is opened that can be heard. Here a panel's page has the workbench's
 * own address and counts as touched with it; on a desktop it has another, and counts by itself. So it is told here: the editor
 * writes the page anew into its frame, which takes every listener away.
 */
function countOpened(): void {
  const opened: AudioContext[] = [];
  const Plain = window.AudioContext;
  window.AudioContext = class extends Plain {
    constructor(options?: AudioContextOptions) {
      super(options);
      opened.push(this);
    }
  };
  const touched = { hasBeenActive: false };
  Object.defineProperty(navigator, 'userActivation', { get: () => touched });
  Object.assign(window, { opened, touched });
}

describe('playback in the installed extension', { timeout: 300_000 }, () => {
  let workbench: Workbench;
  const page = (): Page => workbench.page;
  const preview = (): ReturnType<typeof previewIn> => previewIn(page());
  /** What the extension marks in the text, by the words that stand there. */
  const marks = (): Locator => editorIn(page(), SAMPLE).locator('.view-overlays [class*="ced-"]');
  const inPage = async <T>(look: () => T): Promise<T> => {
    const body = await preview().locator('body').elementHandle();
    const frame = await body?.ownerFrame();
    assert.ok(frame, 'the preview has a page');
    return frame.evaluate(look);
  };
  const states = (): Promise<readonly string[]> =>
    inPage(() => (window as unknown as { opened: readonly AudioContext[] }).opened.map(({ state }) => state));

  before(async () => {
    workbench = await startWorkbench({
      folder: 'samples',
      extension: 'installed',
      log: 'playback.log',
      beforeOpening: async (opening) => void (await opening.addInitScript(countOpened)),
    });
    await page().locator('.explorer-folders-view .monaco-list-row', { hasText: SAMPLE }).dblclick();
    await editorIn(page(), SAMPLE).locator('.view-line').first().waitFor();
  });
  after(() => workbench?.stop());

  let unmarked = 0;
  test('a command opens the preview, which waits to be touched and makes no sound', async () => {
    await runCommand(page(), 'Stringcourse: Play');
    await preview().locator('.player-hint', { hasText: 'Press Play, or the space bar, to hear it.' }).waitFor();
    assert.deepEqual(await states(), []);
    unmarked = await marks().count();
    await eventually('the page has the focus', async () =>
      assert.deepEqual(await inPage(() => [document.hasFocus(), document.activeElement?.tagName]), [true, 'BODY']),
    );
    await page().screenshot({ path: join(SHOTS, 'playback-editor-waits.png') });
  });
  test('a key is enough, and what sounds is marked in the tab and in the text', async () => {
    await inPage(
      () => void ((window as unknown as { touched: { hasBeenActive: boolean } }).touched.hasBeenActive = true),
    );
    await page().keyboard.press('Space');
    await preview().locator('.sounding').first().waitFor();
    assert.deepEqual(await states(), ['running']);
    await eventually('the text is marked', async () => assert.ok((await marks().count()) > unmarked));
    await page().screenshot({ path: join(SHOTS, 'playback-editor.png') });
  });
  test('a command ends it, and no mark is left', async () => {
    // The buttons are those of the group with the focus.
    await runCommand(page(), 'View: Focus First Editor Group');
    await page().locator('.editor-actions [aria-label^="Stop Playing"]').waitFor();
    await runCommand(page(), 'Stringcourse: Stop Playing');
    await eventually('no mark is left', async () => {
      assert.equal(await preview().locator('.sounding, .playing').count(), 0);
      assert.equal(await marks().count(), unmarked);
      assert.deepEqual(await states(), ['suspended']);
    });
    await page().locator('.editor-actions [aria-label="Play"]').waitFor();
  });
  test('once it was touched the command plays at once, and a closed preview is silent', async () => {
    await page().locator('.editor-actions [aria-label="Play"]').click();
    await preview().locator('.sounding').first().waitFor();
    await page().locator('.tab', { hasText: 'Preview' }).locator('.codicon-close').click();
    await eventually('no mark is left', async () => assert.equal(await marks().count(), unmarked));
    await runCommand(page(), 'View: Focus First Editor Group');
    await page().locator('.editor-actions [aria-label="Play"]').waitFor();
  });
});
