/** A server in a process of its own, spoken to over its standard streams; messages are timed as they go and come. */
import { spawn, type ChildProcess } from 'node:child_process';

export interface Answer {
  readonly result: unknown;
  /** When the whole of it had come, before it was read. In ms, on the clock of `performance`. */
  readonly at: number;
  readonly bytes: number;
}

export interface Publication {
  readonly version: number | undefined;
  readonly count: number;
  readonly at: number;
  readonly bytes: number;
}

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

const LONGEST_WAIT = 60_000;

export class ServerProcess {
  readonly startedAt = performance.now();
  publications = 0;
  private readonly child: ChildProcess;
  private readonly open = new Map<number, { done: (answer: Answer) => void; fail: (why: Error) => void }>();
  private waiting: { fits: (publication: Publication) => boolean; done: (publication: Publication) => void }[] = [];
  private chunks: Buffer[] = [];
  private held = 0;
  private needed = -1;
  private lastId = 0;
  private said = '';

  constructor(command: readonly string[], folder: string) {
    this.child = spawn(process.execPath, [...command], { cwd: folder, stdio: ['pipe', 'pipe', 'pipe'] });
    this.child.stdout?.on('data', (chunk: Buffer) => this.take(chunk));
    this.child.stderr?.on('data', (chunk: Buffer) => (this.said += chunk));
    this.child.once('exit', (code) => {
      for (const { fail } of this.open.values())
        fail(new Error(`The server ended (${code}): ${this.said.slice(-500)}`));
    });
  }

  get pid(): number {
    return this.child.pid ?? 0;
  }

  request(method: string, params: unknown): Promise<Answer> {
    const id = ++this.lastId;
    return withinTime(method, (done, fail) => {
      this.open.set(id, { done, fail });
      this.send({ jsonrpc: '2.0', id, method, params });
    });
  }

  notify(method: string, params: unknown): void {
    this.send({ jsonrpc: '2.0', method, params });
  }

  /** The next published findings that fit. */
  published(fits: (publication: Publication) => boolean): Promise<Publication> {
    return withinTime('findings', (done) => this.waiting.push({ fits, done }));
  }

  async end(): Promise<void> {
    const ended = new Promise((done) => this.child.once('exit', done));
    await this.request('shutdown', undefined);
    this.notify('exit', undefined);
    await Promise.race([ended, new Promise((done) => setTimeout(done, 2000).unref())]);
    this.child.kill('SIGKILL');
  }

  private send(message: object): void {
    const body = JSON.stringify(message);
    this.child.stdin?.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  private take(chunk: Buffer): void {
    this.chunks.push(chunk);
    this.held += chunk.length;
    for (;;) {
      if (this.needed < 0 && !this.readHead()) return;
      if (this.held < this.needed) return;
      const at = performance.now();
      const whole = Buffer.concat(this.chunks);
      const bytes = this.needed;
      this.keep(whole.subarray(bytes));
      this.needed = -1;
      this.read(JSON.parse(whole.toString('utf8', 0, bytes)) as Message, at, bytes);
    }
  }

  private readHead(): boolean {
    const held = Buffer.concat(this.chunks);
    const end = held.indexOf('\r\n\r\n');
    if (end < 0) return false;
    this.needed = Number(/content-length: *(\d+)/i.exec(held.toString('latin1', 0, end))?.[1]);
    this.keep(held.subarray(end + 4));
    return true;
  }

  private keep(rest: Buffer): void {
    this.chunks = [rest];
    this.held = rest.length;
  }

  private read(message: Message, at: number, bytes: number): void {
    if (message.method === 'textDocument/publishDiagnostics') {
      const { version, diagnostics } = message.params as { version?: number; diagnostics: readonly unknown[] };
      this.publications++;
      this.hand({ version, count: diagnostics.length, at, bytes });
    } else if (message.method !== undefined && message.id !== undefined) {
      this.send({ jsonrpc: '2.0', id: message.id, result: null });
    } else if (message.id !== undefined) {
      const asked = this.open.get(message.id);
      this.open.delete(message.id);
      if (message.error) asked?.fail(new Error(message.error.message));
      else asked?.done({ result: message.result, at, bytes });
    }
  }

  private hand(publication: Publication): void {
    const { waiting } = this;
    this.waiting = waiting.filter(({ fits }) => !fits(publication));
    for (const { fits, done } of waiting) if (fits(publication)) done(publication);
  }
}

function withinTime<T>(
  what: string,
  start: (done: (value: T) => void, fail: (why: Error) => void) => void,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`No ${what} within ${LONGEST_WAIT} ms`)), LONGEST_WAIT);
    start(
      (value) => {
        clearTimeout(timer);
        resolve(value);
      },
      (why) => {
        clearTimeout(timer);
        reject(why);
      },
    );
  });
}
