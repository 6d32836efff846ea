import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, beforeEach, describe, test } from 'node:test';
import type { Browser, Page } from 'playwright-core';
import { assertAccessible, assertLegible } from './legibility.ts';
import { BARS, lineOf, SAMPLE_FILE } from './sample.ts';
import { eventually } from './user-steps.ts';
import { Watching } from './watching.ts';
import { launchBrowser, SHOTS } from './workbench.ts';

const SAMPLE_TEXT = readFileSync(SAMPLE_FILE, 'utf8');

describe('the live page in a browser', { timeout: 120_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'stringcourse-live-'));
  const file = join(folder, 'watched.lesson');
  let browser: Browser;
  let watching: Watching;
  let page: Page;

  const open = async (width = 900, height = 700): Promise<void> => {
    await page?.close();
    page = await browser.newPage({ viewport: { width, height } });
    page.setDefaultTimeout(10_000);
    await page.goto(await watching.address());
    await page.locator('body[data-version]').waitFor();
  };

  before(async () => {
    mkdirSync(SHOTS, { recursive: true });
    writeFileSync(file, SAMPLE_TEXT);
    watching = new Watching(file);
    browser = await launchBrowser();
  });
  after(async () => {
    await browser?.close();
    await watching?.end();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(() => writeFileSync(file, SAMPLE_TEXT));

  test('draws the lesson to the width that the page has', async () => {
    for (const width of [1400, 700]) {
      await open(width, 900);
      await page.locator('[data-bar="verse.8"]').waitFor();
      const edges = await page
        .locator('.block > svg')
        .evaluateAll((systems) => systems.map((system) => system.getBoundingClientRect().right));
      for (const edge of edges) assert.ok(edge <= width, `${edge} in ${width}`);
      await page.screenshot({ path: join(SHOTS, `page-light-${width}.png`), fullPage: true });
      await page.emulateMedia({ colorScheme: 'dark' });
      await page.screenshot({ path: join(SHOTS, `page-dark-${width}.png`), fullPage: true });
    }
  });
  test('can be read by everybody, by day and by night', async () => {
    await open();
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await assertAccessible(page);
      await assertLegible(page);
    }
  });
  test('is drawn anew when the file is saved, and keeps the elements of what did not change', async () => {
    await open();
    await page.locator('.block').evaluateAll((blocks) => {
      for (const block of blocks as HTMLElement[]) block.dataset.seen = '';
    });
    writeFileSync(file, SAMPLE_TEXT.replace('tempo 84', 'tempo 96'));
    await page.locator('.fact', { hasText: '96' }).waitFor();
    assert.equal(await page.locator('.block:not([data-seen])').count(), 0);
  });
  test('keeps the reader’s place when something is added above it', async () => {
    await open(700, 240);
    const last = page.locator('[data-block="verse@rest/shapes"]');
    await last.evaluate((element) => element.scrollIntoView());
    const before = await last.boundingBox();
    writeFileSync(file, SAMPLE_TEXT.replace('G | D | Em', 'G | D | C | D | C | D | C | D | C | D | Em'));
    await page.locator('[data-bar="verse.16"]').waitFor({ state: 'attached' });
    const after = await last.boundingBox();
    assert.ok(before && after && Math.abs(before.y - after.y) < 2, `from ${before?.y} to ${after?.y}`);
  });
  test('keeps the focus on a bar that is drawn anew', async () => {
    await open();
    await page.locator('[data-bar="verse.2"]').focus();
    writeFileSync(file, SAMPLE_TEXT.replace('G | D | Em', 'G | C | Em'));
    await page.locator('[data-bar="verse.2"] .symbol', { hasText: /^C$/ }).waitFor();
    assert.equal(await page.locator(':focus').getAttribute('data-bar'), 'verse.2');
  });
  test('one bar is a stop of the Tab key, the arrows lead to the others', async () => {
    await open(700);
    assert.equal(await page.locator('[data-bar][tabindex="0"]').count(), 1);
    const focused = (): Promise<string | null> => page.locator(':focus').getAttribute('data-bar');
    // Before the music: the readings, two switches, the prose.
    for (const stop of ['frets', 'left-handed', 'large print']) {
      await page.keyboard.press('Tab');
      assert.equal(await page.locator(':focus').textContent(), stop);
    }
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    assert.equal(await focused(), 'verse.1');
    await page.keyboard.press('ArrowRight');
    assert.equal(await focused(), 'verse.2');
    await page.keyboard.press('ArrowDown');
    const below = await focused();
    assert.ok(below !== null && below > 'verse.2', `${below} stands below`);
    await page.keyboard.press('ArrowUp');
    assert.match((await focused()) ?? '', /^verse\.[12]$/);
    await page.keyboard.press('End');
    assert.equal(await focused(), 'verse.8');
  });
  test('a bar that is chosen leads to its place in the text', async () => {
    await open();
    await page.locator('[data-bar="verse.3"]').click();
    await watching.saying(new RegExp(`watched\\.lesson:${BARS}:11`));
  });
  test('a text that is chosen leads to its place too, and so does a step of the practice', async () => {
    await open();
    await page.locator('[data-block="text/1"] h2').click();
    await watching.saying(new RegExp(`watched\\.lesson:${lineOf('text')}:1`));
    await page.locator('[data-step="1"]').focus();
    await page.keyboard.press('Enter');
    await watching.saying(new RegExp(`watched\\.lesson:${lineOf('step "The ripple"')}:3`));
    assert.equal(await page.locator('.at-cursor').getAttribute('data-step'), '1');
  });
  test('shows frets, intervals, notes or fingers in the same places, by mouse and by arrows', async () => {
    await open(1400);
    const notes = page.locator('[data-bar="verse.2"] .fret');
    const read = async (): Promise<string> => (await notes.allTextContents()).join(' ');
    const xs = (): Promise<readonly (string | null)[]> =>
      notes.evaluateAll((all) => all.map((one) => one.getAttribute('x')));
    const before = await xs();
    assert.equal(await read(), '4 5 0 3 3 0 3 5 0');
    await page.getByRole('radio', { name: 'notes' }).click();
    await page.locator('body[data-reading="notes"]').waitFor();
    assert.equal(await read(), 'F# A G D G G D A G');
    await page.keyboard.press('ArrowLeft');
    await page.locator('body[data-reading="intervals"]').waitFor();
    assert.equal(await read(), '3 5 11 R 11 11 R 5 11');
    assert.deepEqual(await xs(), before);
    assert.equal(await page.locator('.heard').textContent(), 'Shown as intervals');
    assert.equal(await page.getByRole('radio', { checked: true }).textContent(), 'intervals');
    await page.screenshot({ path: join(SHOTS, 'page-intervals.png'), fullPage: true });
  });
  test('draws for a left-handed player, and in large print', async () => {
    await open(700, 900);
    const size = (): Promise<number> =>
      page
        .locator('svg')
        .first()
        .evaluate((svg) => svg.clientHeight);
    const finger = (): Promise<string | null> => page.locator('.shapes .finger').first().getAttribute('x');
    const [small, right] = [await size(), await finger()];
    await page.getByRole('button', { name: 'left-handed' }).click();
    await eventually('the diagrams are mirrored', async () => assert.notEqual(await finger(), right));
    await page.getByRole('button', { name: 'large print' }).click();
    await eventually('the tab is larger', async () => assert.ok((await size()) > 1.3 * small));
    for (const svg of await page.locator('.block > svg').all())
      assert.ok(((await svg.boundingBox())?.width ?? 0) <= 700 - 64);
    await assertLegible(page);
    await page.screenshot({ path: join(SHOTS, 'page-large-left.png'), fullPage: true });
  });
  test('opens the neck of the chord that was chosen, follows to another, and closes on Escape', async () => {
    await open(1400, 900);
    await page.getByRole('button', { name: 'Neck' }).click();
    await page.locator('.open-panel', { hasText: 'Put the cursor on a chord' }).waitFor();
    await page.locator('[data-bar="verse.2"]').click();
    await page.getByRole('region', { name: 'D in bar 2 of The quay at dusk' }).waitFor();
    assert.match((await page.locator('.open-panel').textContent()) ?? '', /reach 60 mm/);
    await page.screenshot({ path: join(SHOTS, 'page-neck.png') });
    await page.locator('[data-bar="verse.3"]').focus();
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'Em in bar 3 of The quay at dusk' }).waitFor();
    assert.equal(await page.locator('.open-panel svg').count(), 1, 'what was open before is dropped');
    await page.locator('.open-panel').focus();
    await page.keyboard.press('Escape');
    await page.locator('.open-panel').waitFor({ state: 'hidden' });
    assert.equal(await page.locator('.open-panel svg').count(), 0);
    assert.equal(await page.locator(':focus').textContent(), 'Neck');
  });
  test('shows the voicings of a chord, and says what to write for the one that is chosen', async () => {
    writeFileSync(file, SAMPLE_TEXT.replace('  shape lamp\n', '  shape open-chords\n'));
    await open(1000, 900);
    await page.locator('[data-bar="verse.1"]').click();
    await page.getByRole('button', { name: 'Voicings' }).click();
    await page.locator('.voicing').nth(23).waitFor();
    assert.equal(await page.locator('.voicing').count(), 24);
    assert.equal(await page.locator('.voicing[tabindex="0"]').count(), 1);
    await page.locator('.voicing[tabindex="0"]').focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    const frets = await page.locator('.voicing:focus').getAttribute('data-pin');
    await page.keyboard.press('Enter');
    await page.locator('.said', { hasText: `In line ${BARS} write: G as ${frets}` }).waitFor();
    await page.screenshot({ path: join(SHOTS, 'page-voicings.png') });
    await page.getByRole('button', { name: /more$/ }).click();
    await eventually('there are more', async () => assert.ok((await page.locator('.voicing').count()) > 24));
  });
  test('says what each open string adds, and offers the edit', async () => {
    await open(1000, 900);
    await page.getByRole('button', { name: 'Open strings' }).click();
    const cell = page.getByRole('button', { name: 'String 6 open over G: sixth' });
    await cell.focus();
    await page.keyboard.press('ArrowRight');
    assert.match((await page.locator(':focus').getAttribute('aria-label')) ?? '', /^String 5 open over G/);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    assert.equal(await page.locator(':focus').textContent(), 'in every chord of shape lamp: open 6 3');
    await page.screenshot({ path: join(SHOTS, 'page-open-strings.png') });
    await page.keyboard.press('Escape');
    assert.equal(await page.locator(':focus').getAttribute('data-key'), '0.6');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await page.locator('.said', { hasText: /write: shape lamp: open 6 3$/ }).waitFor();
  });
  test('sets the variants side by side where there is room, and one at a time where there is none', async () => {
    await open(1400, 900);
    await page.getByRole('button', { name: 'Variants' }).click();
    const columns = page.locator('.panel-blocks section');
    await columns.nth(1).waitFor();
    const boxes = await Promise.all([0, 1].map((at) => columns.nth(at).boundingBox()));
    assert.ok(boxes[0] && boxes[1] && boxes[0].x + boxes[0].width <= boxes[1].x && boxes[0].y === boxes[1].y);
    assert.match((await columns.nth(1).textContent()) ?? '', /difficulty 1\.8 → 1\.\d/);
    await page.screenshot({ path: join(SHOTS, 'page-variants.png') });
    await page.setViewportSize({ width: 500, height: 900 });
    await page.locator('.variant-choices button').nth(1).waitFor();
    assert.equal(await page.locator('.panel-blocks section:visible').count(), 1);
    await page.locator('.variant-choices button', { hasText: 'As written' }).click();
    assert.match((await page.locator('.panel-blocks section:visible').textContent()) ?? '', /^As written/);
  });
  test('comes back as it was looked at', async () => {
    await open(700, 500);
    await page.getByRole('radio', { name: 'fingers' }).click();
    await page.locator('[data-bar="verse.2"]').click();
    await page.getByRole('button', { name: 'Neck' }).click();
    await page.locator('.open-panel svg').waitFor();
    await page.locator('[data-block="verse@rest/shapes"]').evaluate((element) => element.scrollIntoView());
    const top = (): Promise<number> =>
      page.locator('[data-block="verse@rest/shapes"]').evaluate((element) => element.getBoundingClientRect().top);
    await page.waitForTimeout(200);
    const before = await top();
    await page.reload();
    await page.locator('.open-panel svg').waitFor();
    assert.equal(await page.getByRole('radio', { checked: true }).textContent(), 'fingers');
    assert.ok(Math.abs((await top()) - before) < 2, `${await top()} after ${before}`);
  });
  test('is read by everybody with each panel open, at any width, by day and by night', async () => {
    for (const [width, panel] of [
      [1600, 'Neck'],
      [1000, 'Variants'],
      [700, 'Voicings'],
      [300, 'Open strings'],
    ] as const) {
      await open(width, 900);
      await page.locator('[data-bar="verse.2"]').click();
      await page.getByRole('button', { name: panel }).click();
      await page.locator('.panel-blocks :is(svg, table)').first().waitFor();
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        await assertAccessible(page);
        await assertLegible(page);
        await page.screenshot({ path: join(SHOTS, `page-panel-${colorScheme}-${width}.png`) });
      }
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(wide <= 0, `${wide} pixels beyond the window`);
    }
    await page.emulateMedia({ colorScheme: 'light', forcedColors: 'active' });
    await page.screenshot({ path: join(SHOTS, 'page-panel-forced-300.png') });
  });
  test('what a lesson says is shown as it is, and never run', async () => {
    const title = '<img src=x onerror=alert(1)><b>lamps</b>';
    writeFileSync(file, SAMPLE_TEXT.replaceAll(/"(?:Harbour lamps|The quay at dusk)"/g, `"${title}"`));
    const asked: string[] = [];
    await open();
    page.on('dialog', (dialog) => {
      asked.push(dialog.message());
      void dialog.dismiss();
    });
    await page.locator('h1', { hasText: title }).waitFor();
    await page.locator('h2', { hasText: title }).waitFor();
    assert.equal(await page.locator('img, b:text("lamps")').count(), 0);
    assert.deepEqual(asked, []);
  });
  test('prose stands between the music, and what it says is never run', async () => {
    const asked: string[] = [];
    await open();
    page.on('dialog', (dialog) => {
      asked.push(dialog.message());
      void dialog.dismiss();
    });
    const prose = `text
  # Seen <img src=x onerror=alert(1)>
  [a](javascript:alert(1)) [b](command:x) ![c](https://example.org/c.png) over {verse.2.chord}: {verse.2.string3.interval}.

  [page](https://example.org)

show verse bars 1 to 2 as neck

note
  Said <script>alert(1)</script> aloud.
`;
    writeFileSync(file, SAMPLE_TEXT.replace(/^text\n(?: .*\n)+\nshow .*\n/m, prose));
    await page.locator('h2', { hasText: 'Seen <img src=x onerror=alert(1)>' }).waitFor();
    assert.match((await page.locator('.prose').first().textContent()) ?? '', /over D: eleventh\./);
    assert.deepEqual(
      await page.locator('.prose a').evaluateAll((links) => links.map((link) => link.getAttribute('href'))),
      ['https://example.org'],
    );
    assert.equal(await page.locator('.blocks img, .blocks script').count(), 0);
    const order = await page.locator('.prose, .necks').evaluateAll((parts) => parts.map((part) => part.className));
    assert.deepEqual(order, ['prose', 'necks', 'prose note']);
    assert.deepEqual(asked, []);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await assertAccessible(page);
      await assertLegible(page);
      for (const width of [1200, 420]) {
        await page.setViewportSize({ width, height: 900 });
        await page.screenshot({ path: join(SHOTS, `page-prose-${colorScheme}-${width}.png`), fullPage: true });
      }
    }
  });
  test('says so when the program has ended', async () => {
    await open();
    await watching.end();
    await page.locator('[role=status]', { hasText: 'has ended' }).waitFor();
    assert.equal(await page.locator('[data-bar]').count(), 8);
    await page.screenshot({ path: join(SHOTS, 'page-asleep.png') });
  });
});
