import assert from 'node:assert/strict';
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, beforeEach, describe, test } from 'node:test';
import type { Browser, Page } from 'playwright-core';
import { assertAccessible, assertLegible } from './legibility.ts';
import { BARS, SAMPLE_FILE } from './sample.ts';
import { launchBrowser, SHOTS } from './workbench.ts';

const SAMPLE_TEXT = readFileSync(SAMPLE_FILE, 'utf8');

/** The program as a user of any editor runs it, with all that it has said. */
class Watching {
  said = '';
  private readonly program: ChildProcess;

  constructor(file: string) {
    this.program = spawn(process.execPath, ['dist/stringcourse.cjs', 'watch', file], {
      env: { ...process.env, NO_COLOR: '1' },
    });
    for (const stream of [this.program.stdout, this.program.stderr]) stream?.on('data', (data) => (this.said += data));
  }

  address(): Promise<string> {
    return this.saying(/http:\/\/127\.0\.0\.1:\d+\/\S+/);
  }

  async saying(words: RegExp): Promise<string> {
    for (let tries = 0; tries < 100; tries++) {
      const found = words.exec(this.said);
      if (found) return found[0];
      await new Promise((done) => setTimeout(done, 100));
    }
    throw new Error(`The program did not say ${words}, but:\n${this.said}`);
  }

  end(): Promise<void> {
    return new Promise((done) => {
      if (this.program.exitCode !== null) return done();
      this.program.once('exit', () => done());
      this.program.kill('SIGINT');
    });
  }
}

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
    await page.keyboard.press('Tab');
    const focused = (): Promise<string | null> => page.locator(':focus').getAttribute('data-bar');
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
