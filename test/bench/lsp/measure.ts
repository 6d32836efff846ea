/** Opens a text in a server and measures what an editor would feel: start, keystrokes, questions, a burst of typing. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { peakMemory, waited } from './machine.ts';
import { ServerProcess, type Publication } from './server-process.ts';
import type { Place, Subject } from './subject.ts';

/** One time in ms, and how much of it went by without a processor. */
export interface Sample {
  readonly took: number;
  readonly waited: number;
}

export interface Measurement {
  readonly samples: ReadonlyMap<string, readonly Sample[]>;
  /** In MiB. */
  readonly memory: number | undefined;
  readonly publicationsInBurst: number;
}

const SETTLE = 300;
const BURST = 10;
const BURSTS = 12;

const QUESTIONS: Readonly<Record<string, string>> = {
  hover: 'textDocument/hover',
  completion: 'textDocument/completion',
  outline: 'textDocument/documentSymbol',
};

export async function measure(subject: Subject, lines: number, edits: number, starts: number): Promise<Measurement> {
  const samples = new Map<string, Sample[]>();
  const add = (what: string, took: number, lost: number): void => {
    const list = samples.get(what) ?? [];
    samples.set(what, [...list, { took, waited: lost }]);
  };
  for (let start = 0; start < starts; start++) {
    const session = await Session.open(subject, lines);
    add('start to first findings', session.firstFindings, session.lost);
    await session.close();
  }
  const session = await Session.open(subject, lines);
  try {
    await sleep(SETTLE);
    const timed = async (what: string, act: () => Promise<number>): Promise<void> => {
      const before = waited(session.pid);
      add(what, await act(), waited(session.pid) - before);
    };
    for (let edit = 0; edit < Math.max(4, edits / 10); edit++) await session.keystroke();
    for (let edit = 0; edit < edits; edit++) await timed('keystroke to findings', () => session.keystroke());
    for (const [what, method] of Object.entries(QUESTIONS))
      for (let ask = 0; ask < edits; ask++) await timed(what, () => session.ask(method));
    for (let edit = 0; edit < edits; edit++) await timed('keystroke to completion', () => session.askWhileTyping());
    let publications = 0;
    for (let burst = 0; burst < BURSTS; burst++) {
      const before = session.publications;
      await timed(`${BURST} keys to last findings`, () => session.burst());
      publications += session.publications - before;
    }
    return { samples, memory: peakMemory(session.pid), publicationsInBurst: publications / BURSTS };
  } finally {
    await session.close();
  }
}

class Session {
  firstFindings = 0;
  lost = 0;
  private version = 1;
  private count = 0;
  private isBroken = false;

  private constructor(
    private readonly subject: Subject,
    private readonly server: ServerProcess,
    private readonly folder: string,
    private readonly uri: string,
    private readonly place: Place,
  ) {}

  static async open(subject: Subject, lines: number): Promise<Session> {
    const folder = mkdtempSync(join(tmpdir(), 'stringcourse-bench-'));
    const file = join(folder, `text${subject.ending}`);
    const text = subject.text(lines);
    writeFileSync(file, text);
    const before = waited(0);
    const server = new ServerProcess(subject.command, folder);
    const session = new Session(subject, server, folder, pathToFileURL(file).href, subject.place(text));
    await server.request('initialize', {
      processId: process.pid,
      rootUri: pathToFileURL(folder).href,
      capabilities: ABLE,
    });
    server.notify('initialized', {});
    const first = server.published(() => true);
    const textDocument = { uri: session.uri, languageId: subject.languageId, version: 1, text };
    server.notify('textDocument/didOpen', { textDocument });
    const { at, count } = await first;
    session.firstFindings = at - server.startedAt;
    session.lost = waited(server.pid) - before;
    session.count = count;
    return session;
  }

  get pid(): number {
    return this.server.pid;
  }

  get publications(): number {
    return this.server.publications;
  }

  /** Writes the letter, or takes it away again, until the findings say so. In ms. */
  async keystroke(): Promise<number> {
    const findings = this.awaited();
    const from = this.toggle();
    return (await findings).at - from;
  }

  async ask(method: string): Promise<number> {
    const from = performance.now();
    const { at } = await this.server.request(method, { textDocument: { uri: this.uri }, position: this.place });
    return at - from;
  }

  /** What an editor does on every key: the change and the question at once. */
  async askWhileTyping(): Promise<number> {
    const findings = this.awaited();
    const from = this.toggle();
    const asked = this.ask('textDocument/completion').then(() => performance.now());
    await findings;
    return (await asked) - from;
  }

  /** Keys without a pause; from the last of them to its findings. */
  async burst(): Promise<number> {
    for (let key = 0; key < BURST - 1; key++) this.change(this.place.character + key, 0, ' ');
    const findings = this.awaited();
    const from = this.toggle();
    const { at } = await findings;
    const cleared = this.awaited();
    this.change(this.place.character + (this.isBroken ? 1 : 0), BURST - 1, '');
    if (this.isBroken) this.toggle();
    await cleared;
    return at - from;
  }

  async close(): Promise<void> {
    await this.server.end();
    rmSync(this.folder, { recursive: true, force: true });
  }

  private toggle(): number {
    const { letter } = this.subject;
    const from = this.isBroken
      ? this.change(this.place.character, letter.length, '')
      : this.change(this.place.character, 0, letter);
    this.isBroken = !this.isBroken;
    return from;
  }

  /** The time at which it went out. */
  private change(character: number, removed: number, text: string): number {
    const { line } = this.place;
    const range = { start: { line, character }, end: { line, character: character + removed } };
    this.version++;
    const from = performance.now();
    this.server.notify('textDocument/didChange', {
      textDocument: { uri: this.uri, version: this.version },
      contentChanges: [{ range, text }],
    });
    return from;
  }

  /** Findings of the version that comes last, which must be others than before where the letter makes a difference. */
  private awaited(): Promise<Publication> {
    return this.server.published(({ version, count }) => {
      if (version !== undefined && version !== this.version) return false;
      return !this.subject.changesFindings || (count !== this.count) === this.isBroken;
    });
  }
}

const ABLE = {
  general: { positionEncodings: ['utf-16'] },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] }, contextSupport: true },
  },
};
