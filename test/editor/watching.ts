/** `stringcourse watch` as a user of any editor runs it, with all that it has said. */
import { spawn, type ChildProcess } from 'node:child_process';

export class Watching {
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
