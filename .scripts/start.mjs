// What `npm start` does: builds, shows a sample with its findings and tab, and serves its live preview until Ctrl-C.
import { spawnSync } from 'node:child_process';

const SAMPLE = 'samples/harbour-lamps.lesson';
const once = process.argv.includes('--once') ? ['--once'] : [];

/** Runs a program of ours with this terminal as its own; ends with its status where it fails. */
function run(...args) {
  const { status, signal } = spawnSync(process.execPath, args, { stdio: 'inherit' });
  if (signal === 'SIGINT') process.exit(0);
  if (status !== 0) process.exit(status ?? 1);
}

run('.scripts/build.mjs');
// The program gets Ctrl-C from the terminal as this one does, closes its server and ends; then so does this one.
process.on('SIGINT', () => {});
run('dist/stringcourse.cjs', 'watch', SAMPLE, ...once);
