/** The preview beside the text in a real editor: what is chosen there is written, what was looked at is kept, and typing is followed. */
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { setTimeout as sleep } from 'node:timers/promises';
import type { FrameLocator, Page } from 'playwright-core';
import { evening } from '../bench/lessons.ts';
import { BARS, lineOf, SAMPLE, SAMPLE_FILE } from './sample.ts';
import { eventually } from './user-steps.ts';
import { editorIn, goTo, previewIn, runCommand, SHOTS, startWorkbench, type Workbench } from './workbench.ts';

const SAMPLE_LINES = readFileSync(SAMPLE_FILE, 'utf8').split('\n');
const CHORDS = SAMPLE_LINES[BARS - 1];

/** A workbench in a browser writes down what is open every five seconds, and cannot while it is being closed. */
const STATE_IS_KEPT = 8000;

const LONG = 'long.lesson';
/** The section whose picking is typed on, which draws all of its bars anew and no others. */
const PART = 3;
const PARTS = 20;
/** Before the plucks that are there: a bar takes the first that fit, so that each bar of the part is another in the end. */
const TYPED = 'a1 i3 m2 i3 p4 i3 m2 i3 a1 i3 m2 i3 ';
const INDENT = 2;
const KEYS_EVERY = 100;

describe('the preview beside the text', { timeout: 300_000 }, () => {
  let workbench: Workbench;
  let page: Page;
  let preview: FrameLocator;

  const open = async (file: string): Promise<void> => {
    await runCommand(page, 'View: Focus First Editor Group');
    await page.keyboard.press('Control+s');
    await runCommand(page, 'View: Close All Editors');
    await page.keyboard.press('F1');
    const input = page.locator('.quick-input-widget input.input');
    await input.waitFor();
    await input.fill(file);
    await page.locator('.quick-input-list .monaco-list-row', { hasText: file }).first().waitFor();
    await page.keyboard.press('Enter');
    await editorIn(page, file).locator('.view-line').first().waitFor();
    await runCommand(page, 'Stringcourse: Open Preview Beside');
    preview = previewIn(page);
    await preview.locator('body[data-version]').waitFor({ timeout: 60_000 });
  };
  /** A line of an open lesson as it is on the screen. */
  const lineIs = (words: string, file: string = SAMPLE): Promise<void> =>
    eventually(`a line reads “${words}”`, async () => {
      const shown = await editorIn(page, file)
        .locator('.view-line')
        .evaluateAll((lines) =>
          lines.map((line) =>
            // What hints put between the words is no text.
            [...line.querySelectorAll('span span')]
              .map((one) => (/dyn-rule|ced-/.test(one.className) ? '' : one.textContent))
              .join(''),
          ),
        );
      const read = shown.map((line) => line.replaceAll('\u00a0', ' ').trim());
      assert.ok(read.includes(words.trim()), read.join('\n'));
    });
  const undo = async (): Promise<void> => {
    await goTo(page, BARS);
    await page.keyboard.press('Control+z');
  };

  before(async () => {
    workbench = await startWorkbench({ folder: 'samples', extension: 'installed', log: 'preview.log' });
    ({ page } = workbench);
    writeFileSync(join(workbench.folder, LONG), evening(PARTS));
  });
  after(() => workbench?.stop());

  test('a voicing that is chosen is written behind its chord, as one step back', async () => {
    await open(SAMPLE);
    await goTo(page, BARS, 7);
    await preview.locator('.bar.here[data-bar="verse.2"]').waitFor();
    await preview.getByRole('button', { name: 'Voicings' }).click();
    await preview.getByRole('region', { name: 'D in bar 2 of The quay at dusk' }).waitFor();
    await preview.locator('.voicing').first().click();
    await lineIs(CHORDS.replace('| D |', '| D at 3 |'));
    await preview.locator('.said', { hasText: 'Written: D at 3' }).waitFor();
    await page.screenshot({ path: join(SHOTS, 'preview-chosen.png') });
    await preview.getByRole('button', { name: 'unpin' }).click();
    await lineIs(CHORDS);
    await undo();
    await lineIs(CHORDS.replace('| D |', '| D at 3 |'));
    await undo();
    await lineIs(CHORDS);
  });
  test('a cell of the map writes the open string into the shape', async () => {
    await preview.getByRole('button', { name: 'Open strings' }).click();
    await preview.getByRole('button', { name: /^String 6 open over G: sixth/ }).click();
    await preview.getByRole('button', { name: 'in every chord of shape lamp: open 6 3' }).click();
    await goTo(page, lineOf('open 3'));
    await lineIs('open 6 3');
    await preview.getByRole('button', { name: /^String 6 open over G: sixth; it rings already/ }).waitFor();
    await undo();
    await lineIs('open 3');
  });
  test('a step of the practice and its line in the text lead to each other', async () => {
    const line = lineOf('step "The ripple"');
    await preview.locator('[data-step="1"] b').click();
    await editorIn(page, SAMPLE)
      .locator('.line-numbers.active-line-number', { hasText: new RegExp(`^${line}$`) })
      .waitFor();
    await goTo(page, line - 1);
    await preview.locator('.at-cursor[data-step="0"]').waitFor();
  });
  test('is there again after the window was loaded again, as it was looked at', async () => {
    await goTo(page, BARS, 7);
    await preview.getByRole('radio', { name: 'notes' }).click();
    await preview.getByRole('button', { name: 'Neck' }).click();
    await preview.getByRole('region', { name: 'D in bar 2 of The quay at dusk' }).waitFor();
    await preview.locator('[data-block="practice"]').evaluate((element) => element.scrollIntoView());
    const top = (): Promise<number> =>
      preview.locator('[data-block="practice"]').evaluate((element) => element.getBoundingClientRect().top);
    const before = await top();
    await sleep(STATE_IS_KEPT);
    await page.reload();
    preview = previewIn(page);
    await preview.locator('body[data-reading="notes"]').waitFor({ timeout: 60_000 });
    await preview.getByRole('region', { name: 'D in bar 2 of The quay at dusk' }).waitFor();
    await eventually('it is scrolled to where it was', async () => {
      const now = await top();
      assert.ok(Math.abs(now - before) < 3, `${now} after ${before}`);
    });
    await page.screenshot({ path: join(SHOTS, 'preview-again.png') });
    await preview.getByRole('radio', { name: 'frets' }).click();
    await preview.getByRole('button', { name: 'Neck' }).click();
  });
  test('keeps up with typing in a long lesson, and leaves alone what does not change', async (context) => {
    await open(LONG);
    const text = evening(PARTS).split('\n');
    const line = text.indexOf(`cell hand-${PART}`) + 3;
    assert.ok(text.length > 500, `${text.length} lines`);
    await goTo(page, line, INDENT + 1);
    await editorIn(page, LONG)
      .locator('.line-numbers.active-line-number', { hasText: new RegExp(`^${line}$`) })
      .waitFor();
    await preview.locator(`[data-bar="part-${PART}.1"]`).scrollIntoViewIfNeeded();
    const before = await preview.locator('body').evaluate((body) => {
      for (const svg of document.querySelectorAll<SVGElement>('.blocks svg')) svg.dataset.seen = '';
      const shown: [number, number][] = [];
      Object.assign(window, { shown });
      const note = (): void => void shown.push([Number(body.dataset.version), Date.now()]);
      note();
      new MutationObserver(note).observe(body, { attributeFilter: ['data-version'] });
      // The first part in sight, by which it is seen whether anything moves.
      const edge = document.querySelector('.tools')!.getBoundingClientRect().bottom;
      const first = [...document.querySelectorAll<HTMLElement>('.block')].find(
        (block) => block.getBoundingClientRect().top > edge,
      )!;
      return { block: first.dataset.block!, top: first.getBoundingClientRect().top };
    });
    await page.evaluate(() => {
      const pressed: number[] = [];
      Object.assign(window, { pressed });
      window.addEventListener('keydown', () => pressed.push(Date.now()), true);
    });
    const start = performance.now();
    for (const [index, key] of [...TYPED].entries()) {
      await sleep(Math.max(0, start + index * KEYS_EVERY - performance.now()));
      await page.keyboard.press(key === ' ' ? 'Space' : key);
    }
    await page.screenshot({ path: join(SHOTS, 'preview-typed.png') });
    await lineIs(text[line - 1].slice(0, INDENT) + TYPED + text[line - 1].slice(INDENT), LONG);
    const shown = await eventuallyShown(preview, [...TYPED].length);
    const pressed = await page.evaluate(() => (window as unknown as { pressed: readonly number[] }).pressed);
    const [[first]] = shown;
    // Each key is a version: the picture of the last is the picture of the whole text.
    assert.equal(shown.at(-1)![0], first + [...TYPED].length);
    const waits = pressed.slice(-[...TYPED].length).map((at, index) => {
      const drawn = shown.find(([version]) => version > first + index)!;
      return drawn[1] - at;
    });
    const sorted = [...waits].sort((a, b) => a - b);
    context.diagnostic(
      `${text.length} lines, ${waits.length} keys: from key to picture ${sorted[sorted.length >> 1]} ms in the middle, ` +
        `${sorted.at(-1)} ms at the most, ${waits.at(-1)} ms for the last key`,
    );
    const now = await preview.locator('body').evaluate((_, { block }) => {
      const anew = [...document.querySelectorAll<SVGElement>('.blocks svg:not([data-seen])')];
      return {
        anew: [...new Set(anew.map((svg) => svg.closest<HTMLElement>('.block')!.dataset.block!.split('/')[0]))],
        kept: document.querySelectorAll('.blocks svg[data-seen]').length,
        top: document.querySelector(`[data-block="${CSS.escape(block)}"]`)!.getBoundingClientRect().top,
      };
    }, before);
    assert.deepEqual(now.anew, [`part-${PART}`]);
    assert.ok(now.kept > 50, `${now.kept} drawings are the same elements`);
    assert.ok(Math.abs(now.top - before.top) < 2, `${before.block} moved from ${before.top} to ${now.top}`);
  });
});

/** The versions that were shown, each with its time, once so many keys are among them. */
async function eventuallyShown(preview: FrameLocator, keys: number): Promise<readonly (readonly [number, number])[]> {
  let shown: readonly (readonly [number, number])[] = [];
  await eventually('the last version is shown', async () => {
    shown = await preview
      .locator('body')
      .evaluate(() => (window as unknown as { shown: readonly (readonly [number, number])[] }).shown);
    assert.ok(shown.at(-1)![0] >= shown[0][0] + keys, `${shown.at(-1)![0] - shown[0][0]} of ${keys} versions`);
  });
  return shown;
}
