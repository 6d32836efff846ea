/** What the extension adds around the text: welcome, status bar, commands, export, keys, weights, in either host. */
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { SAMPLE_FILE } from './sample.ts';
import { eventually, stepsIn, THEMES, write } from './user-steps.ts';
import { chooseTheme, goTo, previewIn, runCommand, SHOTS, startWorkbench, type Workbench } from './workbench.ts';

const ROW = '.quick-input-list .monaco-list-row';
const WIDTHS = [1400, 700] as const;
const HEIGHT = 900;

const sampleLine = (words: string): number =>
  readFileSync(SAMPLE_FILE, 'utf8')
    .split('\n')
    .findIndex((line) => line.trim().startsWith(words)) + 1;
const MINUTES = sampleLine('minutes 15');
const TEMPO = sampleLine('tempo 84');
const KEY = sampleLine('key G major');

/** In the browser's host the server's program is kept back until the first lesson is there: nothing may wait for it. */
export function mannersSteps(host: 'installed' | 'worker'): void {
  let workbench: Workbench;
  const folder = mkdtempSync(join(tmpdir(), 'stringcourse-empty-'));
  let release = (): void => {};
  const held = new Promise<void>((done) => (release = done));
  const step = stepsIn(`manners-${host}`, () => workbench?.page);
  const page = (): Page => workbench.page;
  /** Of the lesson, in the editor with the focus. */
  const text = (): Locator => page().locator('.editor-group-container .monaco-editor .view-lines').first();
  const status = (): Locator => page().locator('.statusbar-item[id$="stringcourse.lesson"]');
  const lessonTab = (): Locator => page().locator('.tab', { hasText: 'Untitled-1', hasNotText: 'Preview' });
  const rows = (): Locator => page().locator(ROW);
  const choose = (label: string): Promise<void> => rows().filter({ hasText: label }).first().click();
  /** The window at both widths, in each theme, when `look` has brought about what is to be seen. */
  const pictures = async (name: string, look: (width: number) => Promise<void>): Promise<void> => {
    if (host === 'worker') return;
    for (const [theme, , kind] of THEMES) {
      await chooseTheme(page(), theme);
      await page().locator(`.monaco-workbench.${kind}`).waitFor();
      for (const width of WIDTHS) {
        await page().setViewportSize({ width, height: HEIGHT });
        await look(width);
        await page().waitForTimeout(400);
        const file = `manners-${name}-${theme.toLowerCase().replaceAll(' ', '-')}-${width}.png`;
        await page().screenshot({ path: join(SHOTS, file) });
        await page().keyboard.press('Escape');
      }
      await page().setViewportSize({ width: WIDTHS[0], height: HEIGHT });
    }
  };

  before(async () => {
    writeFileSync(join(folder, 'notes.txt'), 'What to bring to the next evening.\n');
    const hold = async (path: string): Promise<void> => {
      if (path.endsWith('server-worker.js')) await held;
    };
    workbench = await startWorkbench({ folder, extension: host, log: `manners-${host}.log`, hold });
  });
  after(async () => {
    await workbench?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  step('a folder without lessons: one click shows the way', async () => {
    await page().locator('.pane-header', { hasText: 'Guitar Lessons' }).click();
    const welcome = page().locator('.welcome-view-content', { hasText: 'No guitar lesson' });
    await welcome.getByRole('button', { name: 'Open a Sample Lesson' }).waitFor();
    await pictures('welcome', async () => {});
  });
  step('a second opens the list of samples, a third one of them, before there is a server', async () => {
    await page().getByRole('button', { name: 'Open a Sample Lesson' }).click();
    await rows().filter({ hasText: 'Harbour lamps' }).first().waitFor();
    await page().screenshot({ path: join(SHOTS, `manners-${host}-samples.png`) });
    await choose('Harbour lamps');
    await text().filter({ hasText: 'Harbour lamps' }).waitFor();
    await page().locator('.tab', { hasText: 'Preview' }).waitFor();
    if (host === 'worker') assert.equal(await status().count(), 0, 'the server is kept back');
    release();
    await previewIn(page()).locator('body[data-version]').waitFor();
  });
  step('the status bar says how hard and how long it is, and follows', async () => {
    await status().filter({ hasText: 'easy · 15 min' }).waitFor();
    assert.match((await status().getAttribute('aria-label')) ?? '', /Difficulty 1\.8 of 10, easy; 15 minutes; 8 bars/);
    await write(page(), MINUTES, '  minutes 20');
    await status().filter({ hasText: 'easy · 20 min' }).waitFor();
    await pictures('status', async () => {
      await status().hover();
      await page().locator('.monaco-hover:visible', { hasText: 'Difficulty 1.8 of 10' }).waitFor();
    });
  });
  step('the commands are in the palette, those about a lesson only beside one', async () => {
    const offered = async (): Promise<string> => {
      await page().keyboard.press('F1');
      await page().locator('.quick-input-widget input.input').fill('>Stringcourse: ');
      await rows().filter({ hasText: 'Stringcourse: New Lesson' }).first().waitFor();
      const all = (await rows().allTextContents()).join('\n');
      await page().screenshot({ path: join(SHOTS, `manners-${host}-palette.png`) });
      await page().keyboard.press('Escape');
      return all;
    };
    await goTo(page(), 1);
    const always = ['New Lesson from a Sample', 'Open a Sample Lesson', 'Restart Language Server', 'Show Output'];
    const beside = ['Open Preview Beside', 'Export Lesson', 'Transpose Lesson'];
    const here = await offered();
    for (const title of [...always, ...beside])
      assert.ok(here.includes(`Stringcourse: ${title}`), `${title} in ${here}`);
    await page().locator('.explorer-folders-view .monaco-list-row', { hasText: 'notes.txt' }).click();
    await page().locator('.tab.active', { hasText: 'notes.txt' }).waitFor();
    const elsewhere = await offered();
    for (const title of always) assert.ok(elsewhere.includes(title), `${title} in ${elsewhere}`);
    for (const title of beside) assert.ok(!elsewhere.includes(title), `${title} in ${elsewhere}`);
    await status().waitFor({ state: 'detached' });
    await lessonTab().click();
    await status().waitFor();
  });
  step('an export is asked for, and is a file beside the others', async () => {
    await goTo(page(), 1);
    await runCommand(page(), 'Stringcourse: Export Lesson');
    await rows().filter({ hasText: 'Tab' }).first().waitFor();
    await page().screenshot({ path: join(SHOTS, `manners-${host}-export.png`) });
    await choose('Plain text');
    await choose('variant gentle');
    const input = page().locator('.quick-input-widget input.input');
    await eventually('the name is proposed', async () =>
      assert.match(await input.inputValue(), /\/lessons\/harbour-lamps-gentle\.txt$/),
    );
    await page().screenshot({ path: join(SHOTS, `manners-${host}-save.png`) });
    await page().keyboard.press('Enter');
    await page().locator('.notification-toast', { hasText: 'Written: harbour-lamps-gentle.txt' }).waitFor();
    const file = join(workbench.folder, 'harbour-lamps-gentle.txt');
    assert.match(readFileSync(file, 'utf8'), /capo 3/);
    await page().screenshot({ path: join(SHOTS, `manners-${host}-written.png`) });
    await page().locator('.notification-toast').getByRole('button', { name: 'Open' }).click();
    await page().locator('.tab.active', { hasText: 'harbour-lamps-gentle.txt' }).waitFor();
    await lessonTab().click();
  });
  step('the sound is a file too', async () => {
    await goTo(page(), 1);
    await runCommand(page(), 'Stringcourse: Export Lesson');
    await choose('WAV');
    await choose('the lesson itself');
    await eventually('the name is proposed', async () =>
      assert.match(await page().locator('.quick-input-widget input.input').inputValue(), /harbour-lamps\.wav$/),
    );
    await page().keyboard.press('Enter');
    await page().locator('.notification-toast', { hasText: 'Written: harbour-lamps.wav' }).waitFor({ timeout: 60_000 });
    const file = readFileSync(join(workbench.folder, 'harbour-lamps.wav'));
    assert.equal(file.toString('latin1', 0, 4), 'RIFF');
    assert.equal(file.readUInt32LE(4), file.length - 8);
    await runCommand(page(), 'Notifications: Clear All Notifications');
  });
  step('another key is chosen by what the open strings win and lose there, and is one step to undo', async () => {
    const list = async (): Promise<void> => {
      await goTo(page(), 1);
      await runCommand(page(), 'Stringcourse: Transpose Lesson');
      await rows()
        .filter({ hasText: /loses .*11 over D/ })
        .first()
        .waitFor();
    };
    await pictures('keys', list);
    await list();
    await page().locator('.quick-input-widget input.input').fill('to A major');
    await choose('Transpose to A major');
    await goTo(page(), KEY);
    await text()
      .filter({ hasText: /key.A.major/ })
      .waitFor();
    await page().keyboard.press('Control+z');
    await text()
      .filter({ hasText: /key.G.major/ })
      .waitFor();
  });
  step('a finding weighs what the settings say', async () => {
    const settings = (severity: object): void => {
      mkdirSync(join(workbench.folder, '.vscode'), { recursive: true });
      writeFileSync(
        join(workbench.folder, '.vscode/settings.json'),
        JSON.stringify({ 'stringcourse.severity': severity }),
      );
    };
    await write(page(), TEMPO, 'tempo 84 bpm');
    await page().locator('.squiggly-warning').first().waitFor();
    settings({ 'needless-word': 'error' });
    await page().locator('.squiggly-error').first().waitFor();
    await runCommand(page(), 'Problems: Focus on Problems View');
    const problem = page().locator('.markers-panel .monaco-list-row', { hasText: 'needless-word' });
    await problem.and(page().locator('[aria-label^="Error"]')).waitFor();
    await page().screenshot({ path: join(SHOTS, `manners-${host}-problem.png`) });
    settings({ 'needless-word': 'off' });
    await problem.waitFor({ state: 'detached' });
    settings({});
    await problem.waitFor();
    await page().keyboard.press('Control+j');
  });
  step('a finding is let be with a comment', async () => {
    await goTo(page(), TEMPO, 10);
    await page().keyboard.press('Control+.');
    const action = page().locator('.action-widget .monaco-list-row', { hasText: 'Allow `needless-word` here' });
    await action.waitFor();
    await page().screenshot({ path: join(SHOTS, `manners-${host}-allow.png`) });
    await page().keyboard.press('ArrowDown');
    await page().keyboard.press('Enter');
    await text()
      .filter({ hasText: /bpm.;.allow.needless-word/ })
      .waitFor();
    await page().locator('.squiggly-warning').first().waitFor({ state: 'detached' });
  });
  step('a lesson is begun from a sample', async () => {
    await runCommand(page(), 'Stringcourse: New Lesson from a Sample');
    await choose('Kite weather');
    await text()
      .filter({ hasText: /Untitled.lesson/ })
      .waitFor();
    await eventually('the status bar tells of the new lesson', async () =>
      assert.match((await status().getAttribute('aria-label')) ?? '', /^Lesson: (?!Difficulty 1\.8 )/),
    );
  });
  step('the walkthrough shows what there is', async () => {
    await runCommand(page(), 'Welcome: Open Walkthrough');
    await choose('A first lesson');
    await page().locator('.gettingStartedContainer', { hasText: 'A first lesson' }).waitFor();
    for (const width of WIDTHS) {
      await page().setViewportSize({ width, height: HEIGHT });
      await page().screenshot({ path: join(SHOTS, `manners-${host}-walkthrough-${width}.png`) });
    }
    await page().setViewportSize({ width: WIDTHS[0], height: HEIGHT });
  });
  step('the log is one command away', async () => {
    await runCommand(page(), 'Stringcourse: Show Output');
    await page().locator('.panel .monaco-select-box, .panel select', { hasText: 'Stringcourse' }).first().waitFor();
    await page().keyboard.press('Control+j');
  });
  step('a folder that has a lesson needs no welcome', async () => {
    const welcome = page().locator('.pane-header', { hasText: 'Guitar Lessons' });
    await welcome.waitFor();
    writeFileSync(join(workbench.folder, 'first.lesson'), 'lesson "First"\n');
    await welcome.waitFor({ state: 'detached' });
    assert.ok(existsSync(join(workbench.folder, 'notes.txt')));
  });
}
