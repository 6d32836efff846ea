/** What a teacher does with a lesson in the editor, step by step, whichever host the extension runs in. */
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import type { Frame, Locator, Page } from 'playwright-core';
import { assertAccessible, assertLegible } from './legibility.ts';
import { BARS, CALL, SAMPLE, TEMPO, TONES } from './sample.ts';
import {
  chooseTheme,
  editorIn,
  goTo,
  placeOf,
  previewIn,
  runCommand,
  SHOTS,
  startWorkbench,
  type Workbench,
} from './workbench.ts';

/** The four that come with the editor, and the classes by which a page and the window know their kind. */
export const THEMES = [
  ['Dark Modern', 'vscode-dark', 'vs-dark'],
  ['Dark High Contrast', 'vscode-high-contrast:not(.vscode-high-contrast-light)', 'hc-black'],
  ['Light High Contrast', 'vscode-high-contrast-light', 'hc-light'],
  ['Light Modern', 'vscode-light', 'vs'],
] as const;

/** A workbench in a browser writes down what is open every five seconds, and cannot while it is being closed. */
const STATE_IS_KEPT = 8000;

export type Step = (name: string, does: () => Promise<void>) => void;

export interface Sight {
  readonly workbench: Workbench;
  readonly page: Page;
  readonly editor: Locator;
}

/** Steps that go on from one another: behind one that failed the others would only wait. Each leaves a picture. */
export function stepsIn(name: string, page: () => Page | undefined): Step {
  let count = 0;
  let failed = false;
  return (title, does) => {
    const picture = `${name}-${String(++count).padStart(2, '0')}-${title.replaceAll(/\W+/g, '-')}.png`;
    test(title, async (context) => {
      if (failed) {
        context.skip('a step before it failed');
        return;
      }
      failed = true;
      try {
        await does();
        failed = false;
      } finally {
        await page()?.screenshot({ path: join(SHOTS, picture) });
      }
    });
  };
}

/** Declares the steps; `host` names the pictures. The sight is there once the first step runs. */
export function userSteps(host: 'installed' | 'worker'): { readonly step: Step; readonly sight: () => Sight } {
  let workbench: Workbench | undefined;
  const sight = (): Sight => {
    assert.ok(workbench, 'the editor runs');
    const { page } = workbench;
    return { workbench, page, editor: editorIn(page, SAMPLE) };
  };
  const step = stepsIn(host, () => workbench?.page);
  before(async () => {
    workbench = await startWorkbench({ folder: 'samples', extension: host, log: `${host}.log` });
    await workbench.page.locator('.explorer-folders-view .monaco-list-row', { hasText: SAMPLE }).dblclick();
    await sight().editor.locator('.view-line').first().waitFor();
  });
  after(() => workbench?.stop());

  step('open a sample and see its language and colours', async () => {
    const { page, editor } = sight();
    await page.locator('#status\\.editor\\.mode', { hasText: 'Stringcourse' }).waitFor();
    const colourOf = (text: string): Promise<string> =>
      editor
        .locator('.view-line span[class^=mtk]', { hasText: text })
        .first()
        .evaluate((element) => getComputedStyle(element).color);
    await eventually('keywords have a colour of their own', async () => {
      assert.notEqual(await colourOf('tempo'), await colourOf('84'));
    });
    assert.equal(await page.locator('.squiggly-error').count(), 0);
  });
  step('break a line and see the finding', async () => {
    const { page, editor } = sight();
    await write(page, TONES, '  tones 3 R 8');
    await editor.locator('.squiggly-error').first().waitFor();
    await runCommand(page, 'Problems: Focus on Problems View');
    const finding = page.locator('.markers-panel .monaco-list-row', { hasText: 'unknown-tone' });
    await finding.waitFor();
    assert.match((await finding.textContent()) ?? '', new RegExp(`stringcourse.*Ln ${TONES}, Col 13`, 's'));
  });
  step('mend it and see the finding go', async () => {
    const { page, editor } = sight();
    await write(page, TONES, '  tones 3 R 5');
    await editor.locator('.squiggly-error').first().waitFor({ state: 'detached' });
  });
  step('read between the words what a chord sounds and which frets a contour became', async () => {
    const { page, editor } = sight();
    await goTo(page, BARS);
    // The editor writes blanks as signs that no line is broken at.
    await editor
      .locator('.view-line', { hasText: /G.\|.D.?Dadd11/ })
      .first()
      .waitFor();
    await goTo(page, CALL);
    await editor
      .locator('.view-line', { hasText: /contour.swell.*10.8.10/s })
      .first()
      .waitFor();
  });
  step('hover a chord and read its intervals', async () => {
    const { page, editor } = sight();
    await goTo(page, BARS);
    // What the chord sounds stands right behind it.
    const { x, y } = await placeOf(editor, 'G | D', 'D');
    await page.mouse.move(x - 2, y);
    await page.mouse.move(x, y);
    const hover = page.locator('.monaco-hover:visible', { hasText: 'Dadd11/F#' });
    await hover.waitFor();
    const said = (await hover.textContent()) ?? '';
    for (const word of ['11', 'F#', 'A']) assert.ok(said.includes(word), `${word} in ${said}`);
  });
  step('open the preview beside the text', async () => {
    const { page } = sight();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+j');
    await runCommand(page, 'View: Focus First Editor Group');
    await page.locator('.editor-actions [aria-label^="Open Preview Beside"]').click();
    await previewIn(page).locator('body[data-version]').waitFor();
    const preview = previewIn(page);
    assert.equal(await preview.locator('h1').textContent(), 'Harbour lamps');
    assert.equal(await preview.locator('[data-bar]').count(), 8);
    assert.match((await preview.locator('.facts').textContent()) ?? '', /G major.*3\/4.*84/s);
  });
  step('see it change while typing and keep what did not change', async () => {
    const { page } = sight();
    const preview = previewIn(page);
    await preview.locator('.block').evaluateAll((blocks) => blocks.forEach((block) => (block.dataset.seen = '')));
    await write(page, TEMPO, 'tempo 96');
    await preview.locator('.fact', { hasText: '96' }).waitFor();
    assert.equal(await preview.locator('.block:not([data-seen])').count(), 0);
    await write(page, BARS, '  G | C | Em | Am | Em | D | G at 8 | G held');
    await preview.locator('[data-bar="verse.2"] .symbol', { hasText: /^C$/ }).waitFor();
  });
  step('follow the cursor with the bar', async () => {
    const { page } = sight();
    await goTo(page, BARS, 11);
    await previewIn(page).locator('.bar.here[data-bar="verse.3"]').waitFor();
    await goTo(page, BARS, 3);
    await previewIn(page).locator('.bar.here[data-bar="verse.1"]').waitFor();
  });
  step('click a bar and land in the text', async () => {
    const { page, editor } = sight();
    await goTo(page, 1);
    await previewIn(page).locator('[data-bar="verse.2"]').click();
    await editor.locator('.line-numbers.active-line-number', { hasText: new RegExp(`^${BARS}$`) }).waitFor();
    // What was chosen is selected: typing replaces it.
    await page.keyboard.type('D');
    await previewIn(page).locator('[data-bar="verse.2"] .symbol', { hasText: /^D$/ }).waitFor();
  });
  step('choose a bar by keyboard', async () => {
    const { page, editor } = sight();
    await goTo(page, 1);
    const preview = previewIn(page);
    await preview.locator('[data-bar="verse.1"]').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    assert.equal(await preview.locator('[data-bar]:focus').getAttribute('data-bar'), 'verse.3');
    await page.keyboard.press('Enter');
    await editor.locator('.line-numbers.active-line-number', { hasText: new RegExp(`^${BARS}$`) }).waitFor();
  });
  step('save, and follow a change on disk', async () => {
    const { page, workbench: running } = sight();
    const file = join(running.folder, SAMPLE);
    await page.keyboard.press('Control+s');
    await page.locator('.tab.dirty').waitFor({ state: 'detached' });
    assert.match(readFileSync(file, 'utf8'), /tempo 96/);
    writeFileSync(file, readFileSync(file, 'utf8').replace('tempo 96', 'tempo 72'));
    await previewIn(page).locator('.fact', { hasText: '72' }).waitFor();
  });
  step('start the server again and see the preview wake', async () => {
    const { page } = sight();
    await runCommand(page, 'Stringcourse: Restart Language Server');
    await write(page, TEMPO, 'tempo 100');
    await previewIn(page).locator('.fact', { hasText: '100' }).waitFor();
    await previewIn(page).locator('body:not([data-asleep])').waitFor();
  });
  step('read the preview in every kind of theme', async () => {
    const { page } = sight();
    await goTo(page, BARS, 7);
    for (const [theme, kind] of THEMES) {
      await chooseTheme(page, theme);
      await previewIn(page).locator(`body.${kind}`).waitFor();
      // The theme's colours fade in.
      await page.waitForTimeout(500);
      await page.screenshot({ path: join(SHOTS, `${host}-${theme.toLowerCase().replaceAll(' ', '-')}.png`) });
      const frame = await frameOf(page);
      await assertLegible(frame);
      await assertAccessible(frame);
    }
  });
  if (host === 'installed')
    step('load the window again and find the preview there', async () => {
      const { page } = sight();
      await page.keyboard.press('Control+s');
      await page.locator('.tab.dirty').waitFor({ state: 'detached' });
      await page.waitForTimeout(STATE_IS_KEPT);
      await page.reload();
      await previewIn(page).locator('.fact', { hasText: '100' }).waitFor({ timeout: 60_000 });
      assert.equal(await previewIn(page).locator('[data-bar]').count(), 8);
    });
  return { step, sight };
}

async function frameOf(page: Page): Promise<Frame> {
  const body = await previewIn(page).locator('body').elementHandle();
  const frame = await body?.ownerFrame();
  assert.ok(frame, 'the preview has a page');
  return frame;
}

/** Writes a line of the lesson anew. */
export async function write(page: Page, line: number, words: string): Promise<void> {
  await goTo(page, line);
  await page.keyboard.press('Home');
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+End');
  await page.keyboard.insertText(words);
  await page.keyboard.press('Escape');
}

/** Tries again until the assertion holds, for ten seconds. */
export async function eventually(what: string, holds: () => Promise<void>): Promise<void> {
  let failure: unknown;
  for (let tries = 0; tries < 100; tries++) {
    try {
      await holds();
      return;
    } catch (problem) {
      failure = problem;
      await new Promise((done) => setTimeout(done, 100));
    }
  }
  throw new Error(`${what}: ${String(failure)}`);
}
