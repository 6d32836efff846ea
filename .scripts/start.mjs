// What `npm start` does: builds, shows a sample with its findings and tab, and serves its live preview until Ctrl-C.
import { spawn } from 'node:child_process';

const SAMPLE = 'samples/harbour-lamps.lesson';
const once = process.argv.includes('--once') ? ['--once'] : [];

/** Runs a program of ours with this terminal as its own, and gives its status. */
function run(...args) {
  const child = spawn(process.execPath, args, { stdio: 'inherit' });
  // Ctrl-C reaches both from the terminal; whoever ends this program alone ends the other with it.
  const pass = (signal) => child.kill(signal);
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, pass);
  return new Promise((resolve) => {
    child.once('exit', (status) => {
      for (const signal of ['SIGINT', 'SIGTERM']) process.off(signal, pass);
      resolve(status ?? 1);
    });
  });
}

process.exitCode = (await run('.scripts/build.mjs')) || (await run('dist/stringcourse.cjs', 'watch', SAMPLE, ...once));
