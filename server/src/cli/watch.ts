/** `stringcourse watch`: findings and tab in the terminal and a live preview in the browser, anew with every save. */
import { basename, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { analyze, Session, variantNamed } from '../analyze.ts';
import type { Analysis } from '../analyze.ts';
import { USUAL_WIDTH } from '../draw/text-tab.ts';
import { playableOf } from '../export/lesson-sound.ts';
import { lessonText } from '../export/text.ts';
import { changeOf } from '../features/chord-change.ts';
import { chordHere } from '../features/preview-chord.ts';
import { addressOf, namesOf } from '../features/preview-places.ts';
import { drawsAlike, updateOf, type Shown as Sent } from '../features/preview-update.ts';
import { PLAIN_VIEW, type FromPage, type LessonSound, type PreviewView } from '../protocol.ts';
import { locationOf, readText, STANDARD_INPUT } from './files.ts';
import { findingText } from './finding-text.ts';
import { follow } from './follow.ts';
import { pageFiles } from './live-page.ts';
import { startLiveServer } from './live-server.ts';
import type { LiveServer, Watcher } from './live-server.ts';
import { shownVariant } from './shown-variant.ts';
import { complain, paintFor, say } from './terminal.ts';
import { WrongUse } from './wrong-use.ts';

export const WATCH_HELP = `stringcourse watch FILE [--variant NAME] [--once]

Shows a lesson's findings and tab, and again whenever it is saved, from any editor. The address that it prints opens
the live preview in a browser on this machine; it holds a secret, so share it with nobody. Ctrl-C ends it.

  --variant    one of the lesson’s variants instead of the lesson
  --once       show everything once, and end
`;

/** How a page looks at the lesson, and what it has been sent, so that only what changed is sent again. */
interface Shown {
  /** In CSS pixels; undefined until the page has said it. */
  width: number | undefined;
  view: PreviewView;
  has: Sent;
}

/** Moves a terminal's cursor to the upper left and wipes what was there. */
const WIPE = '\u001b[2J\u001b[3J\u001b[H';

/** The exit status, once it has been ended. */
export async function watchLesson(args: readonly string[], dist: string): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { once: { type: 'boolean', default: false }, variant: { type: 'string' } },
  });
  const [path] = positionals;
  if (positionals.length !== 1 || path === STANDARD_INPUT)
    throw new WrongUse('watch takes one file: stringcourse watch my.lesson');
  const live = new LiveLesson(path, values.variant);
  const server = await startLiveServer({
    files: pageFiles(dist, basename(path)),
    joined: (watcher) => live.join(watcher),
    left: (watcher) => live.leave(watcher),
    said: (watcher, message) => live.hear(watcher, message),
  });
  if (values.once) live.show(server);
  else {
    const followed = new Map<string, () => void>();
    const again = (): void => {
      if (!live.reread()) return;
      live.show(server);
      followAll();
    };
    /** The lesson, and every file that it speaks of: the parts that it uses may lie anywhere in its library. */
    const followAll = (): void => {
      for (const file of [path, ...live.files]) if (!followed.has(file)) followed.set(file, follow(file, again));
    };
    followAll();
    // What was saved between the first reading and now, nobody tells of.
    live.reread();
    live.show(server);
    await new Promise<void>((resolve) => {
      for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
    });
    for (const stop of followed.values()) stop();
  }
  await server.close();
  return 0;
}

class LiveLesson {
  private text: string;
  private analysis: Analysis;
  private version = 1;
  private readonly session = new Session();
  private readonly watchers = new Map<Watcher, Shown>();
  private readonly uri: string;
  /** What was read of other files, by their places on disk. */
  private read = new Map<string, string | null>();

  constructor(
    private readonly path: string,
    private readonly variant: string | undefined,
  ) {
    this.text = readText(path);
    this.analysis = shownVariant(this.analyse(), variant);
    this.uri = pathToFileURL(resolve(path)).href;
  }

  /** True where the lesson has changed. A file that is gone for a moment, or has not been written yet, changes nothing. */
  reread(): boolean {
    let text: string;
    try {
      text = readText(this.path);
    } catch (problem) {
      if (problem instanceof WrongUse) return false;
      throw problem;
    }
    const { files } = locationOf(this.path);
    if (text === this.text && [...this.read].every(([path, known]) => files.read(path) === known)) return false;
    this.text = text;
    const whole = this.analyse();
    // While the variant’s name is being written anew, the lesson is shown.
    this.analysis = (this.variant === undefined ? undefined : variantNamed(whole, this.variant)) ?? whole;
    this.version++;
    for (const watcher of this.watchers.keys()) this.send(watcher);
    return true;
  }

  /** The files that the lesson speaks of, there or not yet. */
  get files(): readonly string[] {
    const { path } = locationOf(this.path);
    const root = resolve(this.path).slice(0, -path.length);
    return [...this.read.keys()].map((other) => `${root}${other}`);
  }

  private analyse(): Analysis {
    const { path, files } = locationOf(this.path);
    const read = (this.read = new Map<string, string | null>());
    const noted = (other: string): string | null => {
      const text = files.read(other) ?? null;
      read.set(other, text);
      return text;
    };
    const analysis = analyze(this.text, this.session, { path, files: { read: noted } });
    // Reads what it speaks of.
    void analysis.files;
    return analysis;
  }

  show(server: LiveServer): void {
    const { findings } = this.analysis;
    const paint = paintFor(process.stdout);
    const width = process.stdout.columns ? Math.max(USUAL_WIDTH / 2, process.stdout.columns) : USUAL_WIDTH;
    say(
      (process.stdout.isTTY && this.version > 1 ? WIPE : '') +
        findings.map((finding) => `${findingText(finding, this.path, this.analysis, paint)}\n`).join('') +
        `${lessonText(this.analysis, { width, notes: true })}\n` +
        `Live preview: ${paint(server.address, 'bold')}\n`,
    );
  }

  /** Nothing is sent before the page has said how wide it is: what was drawn for another width would only flash. */
  join(watcher: Watcher): void {
    this.watchers.set(watcher, { width: undefined, view: PLAIN_VIEW, has: new Map() });
  }

  leave(watcher: Watcher): void {
    this.watchers.delete(watcher);
  }

  hear(watcher: Watcher, message: FromPage): void {
    if (message.kind === 'reveal') {
      const { startLine, startCharacter } = message.place;
      complain(`${this.path}:${startLine + 1}:${startCharacter + 1}`);
      return;
    }
    const shown = this.watchers.get(watcher);
    if (!shown) return;
    switch (message.kind) {
      case 'ready':
        shown.width = message.width;
        shown.view = message.view ?? PLAIN_VIEW;
        shown.has = new Map();
        break;
      case 'resized':
        if (shown.width === message.width) return;
        shown.width = message.width;
        break;
      case 'view':
        if (!drawsAlike(shown.view, message.view)) shown.has = new Map();
        shown.view = message.view;
        break;
      case 'change':
        watcher.send({ kind: 'said', text: this.toWrite(message) });
        return;
      case 'sound':
        watcher.send({ kind: 'sound', sound: this.sound(message.variant) });
        return;
      case 'keep':
      case 'sounding':
      case 'untouched':
        // Of the editor: the page's own browser keeps it, and there is no text to mark.
        return;
    }
    this.send(watcher);
  }

  /** The page only reads: whoever chose something there is told what to write, and where. */
  private toWrite({ bar, chord, change }: Extract<FromPage, { kind: 'change' }>): string {
    const address = addressOf(this.analysis, bar, chord);
    const here = address && chordHere(this.analysis, address);
    if (!here) return 'The lesson has changed meanwhile: choose again.';
    const { says, edits } = changeOf(this.analysis, here, change);
    if (edits.length === 0) return says;
    const { line } = this.analysis.lines.positionAt(edits[0].span.start);
    return `This page only reads. In line ${line + 1} write: ${says}`;
  }

  private sound(variant: string | undefined): LessonSound | null {
    const played = variant === undefined ? this.analysis : variantNamed(this.analysis, variant);
    if (!played) return null;
    const playable = playableOf(played, namesOf(played.lesson));
    return { version: this.version, ...(variant !== undefined && { variant }), ...playable };
  }

  private send(watcher: Watcher): void {
    const shown = this.watchers.get(watcher);
    if (shown?.width === undefined) return;
    const { uri, version } = this;
    const { update, has } = updateOf(this.analysis, { uri, version, width: shown.width, view: shown.view }, shown.has);
    shown.has = has;
    watcher.send({ kind: 'update', update });
  }
}
