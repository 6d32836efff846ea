/** A real editor for the tests: the server half of a workbench, and a real browser that shows it. */
import { execFileSync, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import {
  chromium,
  type Browser,
  type BrowserContext,
  type FrameLocator,
  type Locator,
  type Page,
} from 'playwright-core';

export const SHOTS = 'test/editor/shots';
const ROOT = resolve('.');
const EXTENSION_ADDRESS = '/__extension';

export interface WorkbenchOptions {
  /** Copied, so that a test may change what it likes. */
  readonly folder: string;
  /** `installed`: the packed extension in the Node host; `worker`: in the browser's host; `tested`: with `testModule` in it. */
  readonly extension: 'installed' | 'worker' | 'tested';
  readonly testModule?: string;
  readonly log: string;
  readonly beforeOpening?: (page: Page) => Promise<void>;
  /** Settles when a file of an extension that runs in the browser may be handed over, by its path. */
  readonly hold?: (path: string) => Promise<void>;
}

export interface Workbench {
  readonly page: Page;
  /** The copy of the folder. */
  readonly folder: string;
  readonly stop: () => Promise<void>;
}

/** Quiet, offline, without questions, and with nothing in the way of the text. */
const SETTINGS = {
  'workbench.startupEditor': 'none',
  'workbench.enableExperiments': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'security.workspace.trust.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'git.enabled': false,
  'typescript.tsc.autoDetect': 'off',
  'npm.autoDetect': 'off',
  'files.autoSave': 'off',
  'window.commandCenter': false,
  'chat.disableAIFeatures': true,
  'editor.hover.delay': 50,
  'editor.minimap.enabled': false,
  'editor.stickyScroll.enabled': false,
};

/** Without addresses of its own the editor would ask a gallery on the net. */
const NO_GALLERY = JSON.stringify({
  serviceUrl: '',
  itemUrl: '',
  resourceUrlTemplate: '',
  controlUrl: '',
  recommendationsUrl: '',
});

export const BROWSER_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const launchBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: '/usr/bin/chromium', args: BROWSER_FLAGS });

export async function startWorkbench(options: WorkbenchOptions): Promise<Workbench> {
  const editor = editorFolder();
  const home = mkdtempSync(join(tmpdir(), 'stringcourse-editor-'));
  const folder = join(home, 'lessons');
  const extensions = join(home, 'extensions');
  cpSync(options.folder, folder, { recursive: true });
  mkdirSync(join(home, 'data/data/User'), { recursive: true });
  mkdirSync(extensions);
  mkdirSync(SHOTS, { recursive: true });
  writeFileSync(join(home, 'data/data/User/settings.json'), JSON.stringify(SETTINGS));
  const env = environment(home);
  const program = [
    join(editor, 'out/server-main.js'),
    `--server-data-dir=${join(home, 'data')}`,
    `--extensions-dir=${extensions}`,
    '--telemetry-level=off',
  ];
  if (options.extension === 'installed') {
    const install = [...program, '--install-extension', resolve('dist/stringcourse.vsix'), '--force'];
    execFileSync(process.execPath, install, { env, stdio: ['ignore', 'pipe', 'pipe'] });
  }
  const port = await freePort();
  const log = openSync(join(SHOTS, options.log), 'w');
  const alone = ['--without-connection-token', '--accept-server-license-terms', '--disable-workspace-trust'];
  const server = spawn(process.execPath, [...program, '--host=127.0.0.1', `--port=${port}`, ...alone], {
    env,
    stdio: ['ignore', log, log],
    detached: true,
  });
  const ended = new Promise<void>((done) => server.once('exit', () => done()));
  let browser: Browser | undefined;
  const stop = async (): Promise<void> => {
    await browser?.close().catch(() => {});
    // By its group, for its own helpers must end with it.
    endGroup(server.pid, 'SIGTERM');
    await Promise.race([ended, sleep(5000, undefined, { ref: false })]);
    endGroup(server.pid, 'SIGKILL');
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    await answers(port, () => server.exitCode !== null);
    browser = await launchBrowser();
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    // At once instead of after a time-out: nothing outside is there for a test.
    await context.route(
      (url) => /^https?:$/.test(url.protocol) && url.hostname !== '127.0.0.1',
      (route) => route.abort(),
    );
    if (options.extension !== 'installed') await develop(context, port, options);
    const page = await context.newPage();
    // The machine may have other work; a wait that is met costs nothing.
    page.setDefaultTimeout(30_000);
    await options.beforeOpening?.(page);
    await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(folder)}`, { timeout: 90_000 });
    await page.locator('.monaco-workbench .part.editor').waitFor({ timeout: 60_000 });
    return { page, folder, stop };
  } catch (failure) {
    await stop();
    throw failure;
  }
}

const editorFolder = (): string =>
  execFileSync('test/editor/install-editor.sh', { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] })
    .trim()
    .split('\n')
    .pop() as string;

/** A home of its own, so that no state lasts from one run to the next, and no trace of an editor that we run in. */
function environment(home: string): NodeJS.ProcessEnv {
  const own = Object.entries(process.env).filter(([name]) => !name.startsWith('VSCODE_'));
  return {
    ...Object.fromEntries(own),
    HOME: home,
    TMPDIR: home,
    XDG_RUNTIME_DIR: home,
    EXTENSIONS_GALLERY: NO_GALLERY,
  };
}

function endGroup(pid: number | undefined, signal: NodeJS.Signals): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, signal);
  } catch {
    // It has ended by itself.
  }
}

export const freePort = (): Promise<number> =>
  new Promise((done) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => done(port));
    });
  });

async function answers(port: number, hasEnded: () => boolean): Promise<void> {
  for (let tries = 0; tries < 300; tries++) {
    const ready = await fetch(`http://127.0.0.1:${port}/version`).then(
      (response) => response.ok,
      () => false,
    );
    if (ready) return;
    if (hasEnded()) break;
    await sleep(100);
  }
  throw new Error('The editor did not start: its log is in test/editor/shots.');
}

const TYPES: Readonly<Record<string, string>> = {
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
};

/** Runs the extension from this folder. The workbench reads what it develops from an attribute of its page. */
async function develop(context: BrowserContext, port: number, options: WorkbenchOptions): Promise<void> {
  const remote = (path: string): object => ({ scheme: 'vscode-remote', authority: `127.0.0.1:${port}`, path });
  const development =
    options.extension === 'worker'
      ? // An extension at a web address runs in the browser; its address must be the page's own, or its policy forbids it.
        { extensions: [{ scheme: 'http', authority: `127.0.0.1:${port}`, path: EXTENSION_ADDRESS }] }
      : { extensions: [remote(ROOT)], extensionTestsPath: remote(resolve(options.testModule ?? '')) };
  await context.route(
    (url) => url.pathname.startsWith(`${EXTENSION_ADDRESS}/`),
    async (route) => {
      const { pathname } = new URL(route.request().url());
      const path = join(ROOT, decodeURIComponent(pathname).slice(EXTENSION_ADDRESS.length + 1));
      await options.hold?.(pathname);
      const body = await readFile(path).catch(() => undefined);
      const contentType = TYPES[extname(path)] ?? 'application/octet-stream';
      await route.fulfill(body ? { body, contentType } : { status: 404 });
    },
  );
  await context.addInitScript((developmentOptions) => {
    const read = Element.prototype.getAttribute;
    Element.prototype.getAttribute = function getAttribute(name) {
      const value = read.call(this, name);
      if (this.id !== 'vscode-workbench-web-configuration' || name !== 'data-settings' || value === null) return value;
      const configuration = JSON.parse(value);
      return JSON.stringify({
        ...configuration,
        developmentOptions: { ...configuration.developmentOptions, ...developmentOptions },
      });
    };
  }, development);
}

export async function runCommand(page: Page, title: string): Promise<void> {
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-widget input.input');
  await input.waitFor();
  await input.fill(`>${title}`);
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: title }).first().click();
}

export async function chooseTheme(page: Page, name: string): Promise<void> {
  await runCommand(page, 'Preferences: Color Theme');
  const input = page.locator('.quick-input-widget input.input[placeholder*="Theme"]');
  await input.fill(name);
  const theme = page
    .locator('.quick-input-list .monaco-list-row')
    .filter({ has: page.getByText(name, { exact: true }) });
  await theme.first().click();
  await input.waitFor({ state: 'hidden' });
}

/** The document inside the one preview that is open: a panel's page lies in two nested frames. */
export const previewIn = (page: Page): FrameLocator =>
  page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');

export const editorIn = (page: Page, name: string): Locator =>
  page.locator(`.editor-instance .monaco-editor[data-uri$="${name}"]`).first();

/** Puts the cursor at a line and column of the text, from 1, wherever the focus was. */
export async function goTo(page: Page, line: number, column = 1): Promise<void> {
  await runCommand(page, 'View: Focus First Editor Group');
  await page.keyboard.press('Control+g');
  const input = page.locator('.quick-input-widget input.input');
  await input.waitFor();
  await input.fill(`:${line}:${column}`);
  await page.keyboard.press('Enter');
  await input.waitFor({ state: 'hidden' });
}

/** The middle of a word in the line that begins with `line`, in the page; a coloured span may be wider than the word. */
export async function placeOf(editor: Locator, line: string, word: string): Promise<{ x: number; y: number }> {
  const place = await editor.evaluate(
    (element, wanted) => {
      for (const row of element.querySelectorAll<HTMLElement>('.view-line')) {
        // The editor writes blanks as signs that no line is broken at.
        const text = (row.textContent ?? '').replaceAll('\u00a0', ' ').trimEnd();
        const at = text.trimStart().startsWith(wanted.line) ? text.indexOf(wanted.word) : -1;
        if (at < 0) continue;
        let before = 0;
        const walk = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
        for (let node = walk.nextNode() as Text | null; node; node = walk.nextNode() as Text | null) {
          if (at < before + node.data.length) {
            const range = document.createRange();
            range.setStart(node, at - before);
            range.setEnd(node, Math.min(node.data.length, at - before + wanted.word.length));
            const box = range.getBoundingClientRect();
            return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
          }
          before += node.data.length;
        }
      }
      return undefined;
    },
    { line, word },
  );
  if (!place) throw new Error(`“${word}” in “${line}” is not seen in the editor.`);
  return place;
}
