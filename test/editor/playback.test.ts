/** Playback in a real browser: silent before a gesture, marks that move with what is heard, and a clean end. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, beforeEach, describe, test } from 'node:test';
import type { Browser, Page } from 'playwright-core';
import { assertAccessible, assertLegible } from './legibility.ts';
import { SAMPLE_FILE } from './sample.ts';
import { eventually } from './user-steps.ts';
import { Watching } from './watching.ts';
import { launchBrowser, SHOTS } from './workbench.ts';

const SAMPLE_TEXT = readFileSync(SAMPLE_FILE, 'utf8');

/** What an opened way to the loudspeaker says of itself. */
interface Heard {
  readonly state: string;
  readonly seconds: number;
  /** The loudest sample that is on its way to the loudspeaker. */
  readonly loudest: number;
}

/** Counts what the page opens, and listens in on it. */
function listenIn(): void {
  const opened: { context: AudioContext; ear: AnalyserNode }[] = [];
  const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode) => AudioNode;
  AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode) {
    const known = opened.find(({ context }) => context.destination === to);
    if (known) connect.call(this, known.ear);
    return connect.call(this, to);
  } as typeof AudioNode.prototype.connect;
  const Plain = window.AudioContext;
  window.AudioContext = class extends Plain {
    constructor(options?: AudioContextOptions) {
      super(options);
      opened.push({ context: this, ear: new AnalyserNode(this, { fftSize: 32768 }) });
    }
  };
  Object.assign(window, {
    heardNow: () =>
      opened.map(({ context, ear }) => {
        const samples = new Float32Array(ear.fftSize);
        ear.getFloatTimeDomainData(samples);
        const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
        return { state: context.state, seconds: context.currentTime, loudest };
      }),
  });
}

describe('playback in a browser', { timeout: 180_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'stringcourse-playback-'));
  const file = join(folder, 'played.lesson');
  let browser: Browser;
  let watching: Watching;
  let page: Page;

  const open = async (text = SAMPLE_TEXT, width = 1100, height = 800): Promise<void> => {
    writeFileSync(file, text);
    await page?.close();
    page = await browser.newPage({ viewport: { width, height } });
    page.setDefaultTimeout(10_000);
    await page.addInitScript(listenIn);
    await page.goto(await watching.address());
    await page.locator('body[data-version]').waitFor();
    const tempo = /^tempo (\d+)/m.exec(text)?.[1] ?? '';
    await page.locator('.fact', { hasText: `= ${tempo}` }).waitFor();
  };
  const heard = (): Promise<readonly Heard[]> =>
    page.evaluate(() => (window as unknown as { heardNow: () => readonly Heard[] }).heardNow());
  const playing = async (): Promise<string> =>
    (await page.locator('.bar.playing').first().getAttribute('data-bar', { timeout: 5000 })) ?? '';
  const play = (): Promise<void> => page.getByRole('button', { name: 'Play', exact: true }).click();
  const stop = (): Promise<void> => page.getByRole('button', { name: 'Stop', exact: true }).click();
  const isSilent = (): Promise<void> =>
    eventually('all is silent', async () => {
      const [now] = await heard();
      assert.equal(now.state, 'suspended');
      assert.equal(await page.locator('.sounding, .playing').count(), 0);
    });

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

  test('opens nothing before the reader has done something', async () => {
    await open();
    await page.waitForTimeout(500);
    assert.deepEqual(await heard(), []);
  });
  test('plays: time goes on, sound is made without clipping, and the marks move', async () => {
    await open(SAMPLE_TEXT.replace('tempo 84', 'tempo 160'));
    await play();
    await page.locator('.sounding').first().waitFor();
    const [first] = await heard();
    const seen = new Set<string>();
    for (let look = 0; look < 30; look++) {
      seen.add(await playing());
      await page.waitForTimeout(100);
    }
    const [second] = await heard();
    assert.equal(second.state, 'running');
    assert.ok(second.seconds > first.seconds + 1, `${first.seconds} and ${second.seconds}`);
    assert.ok(second.loudest > 0.02 && second.loudest < 1, `${second.loudest}`);
    assert.deepEqual([...seen].slice(0, 2), ['verse.1', 'verse.2'], 'bars in the order played');
    // What is marked in the tab stands on different strings: one note a string sounds at most.
    const heights = await page.locator('.sounding').evaluateAll((all) => all.map((one) => one.getAttribute('y')));
    assert.ok(heights.length > 1 && new Set(heights).size === heights.length, `${heights}`);
    await assertLegible(page);
    await assertAccessible(page);
    await page.screenshot({ path: join(SHOTS, 'playback-light.png') });
    await page.emulateMedia({ colorScheme: 'dark' });
    await assertLegible(page);
    await page.screenshot({ path: join(SHOTS, 'playback-dark.png') });
    await stop();
    await isSilent();
  });
  test('marks the strings that ring on, and the open one that is plucked', async () => {
    await open();
    await play();
    // In bar 1 the picking is string 4, then 3 open; string 4 is left ringing.
    await eventually('strings 4 and 3 sound together', async () => {
      const marked = await page.locator('[data-bar="verse.1"] .sounding').allTextContents();
      assert.ok(marked.includes('9') && marked.includes('0'), marked.join(' '));
    });
    await stop();
    await isSilent();
  });
  test('stops and goes on where it was, by the space bar', async () => {
    await open(SAMPLE_TEXT.replace('tempo 84', 'tempo 160'));
    await page.locator('.lesson-title').click();
    await page.keyboard.press('Space');
    await page.locator('.bar.playing[data-bar="verse.2"]').waitFor();
    await page.keyboard.press('Space');
    await isSilent();
    assert.equal(await page.locator('.playing-place').textContent(), 'bar 2');
    await page.keyboard.press('Space');
    assert.equal(await playing(), 'verse.2');
    // A control that has the focus keeps its key.
    await page.getByRole('button', { name: 'metronome' }).focus();
    await page.keyboard.press('Space');
    assert.equal(await page.getByRole('button', { name: 'metronome' }).getAttribute('aria-pressed'), 'true');
    assert.equal(await page.locator('.play').textContent(), 'Pause');
    await page.locator('.lesson-title').click();
    await page.keyboard.press('Escape');
    await isSilent();
    assert.equal(await page.locator('.playing-place').textContent(), '');
  });
  test('goes round a bar, and round those that are chosen with Shift', async () => {
    await open(SAMPLE_TEXT.replace('tempo 84', 'tempo 300'));
    await page.locator('[data-bar="verse.2"]').first().click();
    await page.getByLabel('repeat').selectOption('bar');
    await play();
    await page.locator('.bar.playing').first().waitFor();
    // A bar lasts 0.6 seconds.
    for (let look = 0; look < 12; look++) {
      assert.equal(await playing(), 'verse.2');
      await page.waitForTimeout(150);
    }
    assert.ok((await page.locator('.bar.repeated[data-bar="verse.2"]').count()) > 0);
    await page.locator('[data-bar="verse.3"]').first().focus();
    await page.keyboard.press('Shift+ArrowRight');
    assert.equal(await page.locator('.repeats option:checked').textContent(), 'bars 2 to 4');
    const seen = new Set<string>();
    for (let look = 0; look < 40; look++) {
      seen.add(await playing());
      await page.waitForTimeout(75);
    }
    assert.deepEqual([...seen].sort(), ['verse.2', 'verse.3', 'verse.4']);
    await stop();
    await isSilent();
  });
  test('a step of the practice sets tempo and repeat, and climbs', async () => {
    const practice = 'practice\n  step "Up" from 300 to 340 by 20 in verse bars 1 to 1\n';
    await open(SAMPLE_TEXT.replace(/^practice\n(?: .*\n)+/m, practice).replace('tempo 84', 'tempo 200'));
    await page.getByRole('button', { name: 'Practise Up' }).click();
    const tempo = page.getByLabel('Beats a minute');
    await page.locator('.bar.playing[data-bar="verse.1"]').first().waitFor();
    assert.equal(await tempo.inputValue(), '300');
    assert.equal(await page.locator('.repeats option:checked').textContent(), 'bar 1');
    assert.equal(await page.getByRole('button', { name: 'Practise Up' }).getAttribute('aria-pressed'), 'true');
    // Twice at each tempo, 0.6 seconds at the most.
    await eventually('it has climbed', async () => assert.equal(await tempo.inputValue(), '340'));
    assert.equal(await page.locator('.heard').textContent(), '340 a minute');
    await stop();
    await isSilent();
  });
  test('changes the tempo while it plays, by slider, number and back', async () => {
    await open();
    await play();
    await page.locator('.sounding').first().waitFor();
    const tempo = page.getByLabel('Beats a minute');
    assert.equal(await tempo.inputValue(), '84');
    const percent = page.getByLabel('Tempo, in percent of what is written');
    await percent.fill('50');
    assert.equal(await tempo.inputValue(), '42');
    assert.equal(await percent.getAttribute('aria-valuetext'), '50 percent, 42 beats a minute');
    await tempo.fill('63');
    await tempo.press('Enter');
    assert.equal(await percent.inputValue(), '75');
    await page.getByRole('button', { name: 'as written' }).click();
    assert.equal(await tempo.inputValue(), '84');
    assert.equal(await page.locator('.play').textContent(), 'Pause');
    await stop();
    await isSilent();
  });
  test('counts in before it begins', async () => {
    await open();
    await page.getByRole('button', { name: 'count in' }).click();
    await play();
    await page.locator('.playing-place', { hasText: 'counting in' }).waitFor();
    assert.equal(await page.locator('.sounding').count(), 0);
    await page.locator('.playing-place', { hasText: 'bar 1' }).waitFor();
    await page.locator('.sounding').first().waitFor();
    await stop();
  });
  test('plays what the text has become, from the next bar on', async () => {
    await open(SAMPLE_TEXT.replace('tempo 84', 'tempo 300'));
    await page.locator('[data-bar="verse.2"]').first().click();
    await page.getByLabel('repeat').selectOption('bar');
    await play();
    const marked = (): Promise<string[]> => page.locator('[data-bar="verse.2"] .sounding').allTextContents();
    await eventually('D is played', async () => assert.ok((await marked()).includes('4')));
    writeFileSync(file, SAMPLE_TEXT.replace('tempo 84', 'tempo 300').replace('G | D | Em', 'G | C | Em'));
    await page.locator('[data-bar="verse.2"] .symbol', { hasText: /^C$/ }).first().waitFor();
    // The third of C on string 4 is E at fret 2 or 14.
    await eventually('C is played', async () => assert.ok((await marked()).some((fret) => ['2', '14'].includes(fret))));
    assert.equal(await page.locator('.play').textContent(), 'Pause');
    await stop();
    await isSilent();
  });
  test('lets a voicing be heard that is chosen, and a variant', async () => {
    await open();
    await page.locator('[data-bar="verse.2"]').first().click();
    await page.getByRole('button', { name: 'Voicings' }).click();
    await page.locator('.voicing').first().click();
    await eventually('the chord sounds', async () => assert.ok(((await heard())[0]?.loudest ?? 0) > 0.02));
    assert.equal(await page.locator('.sounding').count(), 0);
    await page.getByRole('button', { name: 'Variants' }).click();
    await page.getByRole('button', { name: 'Play Gentler, sounding in B flat' }).click();
    await page.locator('[data-block="panel/variant/gentle"] .sounding').first().waitFor();
    assert.equal(await page.locator('.blocks .sounding, [data-block="panel/variant/"] .sounding').count(), 0);
    assert.equal(await page.getByLabel('Beats a minute').inputValue(), '60');
    await stop();
    await isSilent();
  });
  test('comes back with its volume, metronome and tempo', async () => {
    await open();
    await page.getByRole('button', { name: 'metronome' }).click();
    await page.getByLabel('Volume, in percent').fill('30');
    await page.getByLabel('Beats a minute').fill('42');
    await page.getByLabel('Beats a minute').press('Enter');
    await page.waitForTimeout(200);
    await page.reload();
    await page.locator('body[data-version]').waitFor();
    assert.equal(await page.getByLabel('Volume, in percent').inputValue(), '30');
    assert.equal(await page.getByLabel('Beats a minute').inputValue(), '42');
    assert.equal(await page.getByRole('button', { name: 'metronome' }).getAttribute('aria-pressed'), 'true');
    assert.deepEqual(await heard(), []);
  });
  test('says so where there is nothing to hear, and fits a narrow page', async () => {
    await open('lesson "Empty"\ntempo 84\n', 320, 700);
    await play();
    await page.locator('.player-hint', { hasText: 'nothing to hear' }).waitFor();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(wide <= 0, `${wide} pixels beyond the window`);
    await assertAccessible(page);
    await assertLegible(page);
    await page.screenshot({ path: join(SHOTS, 'playback-narrow.png') });
  });
});
