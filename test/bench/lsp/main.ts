/**
 * Measures the language server from outside, beside a floor that computes nothing: `npm run bench:lsp`. Only the ratio of
 * the two counts, for they met the same machine; nothing fails by a timing.
 * `--lines 100,1000` are the lengths of the text, `--edits 40` the keystrokes and questions of each kind, `--starts 5` how
 * often each server is started.
 */
import { parseArgs } from 'node:util';
import { measure, type Measurement, type Sample } from './measure.ts';
import { floor, stringcourse } from './subject.ts';

const { values } = parseArgs({
  options: {
    lines: { type: 'string', default: '100,1000' },
    edits: { type: 'string', default: '40' },
    starts: { type: 'string', default: '5' },
  },
});

/** A sample counts where little of it was lost to other work; but for fewer than this they all count, marked by `~`. */
const FEWEST = 5;

const isQuiet = ({ took, waited }: Sample): boolean => waited <= Math.max(0.15, took / 10);

function part(samples: readonly Sample[], share: number): string {
  const quiet = samples.filter(isQuiet);
  const used = (quiet.length >= FEWEST ? quiet : samples).map(({ took }) => took).sort((a, b) => a - b);
  const value = used[Math.min(used.length - 1, Math.floor(used.length * share))];
  return `${quiet.length >= FEWEST ? '' : '~'}${value.toFixed(value < 10 ? 2 : 0)}`;
}

const numberOf = (text: string): number => Number(text.replace('~', ''));

for (const lines of values.lines.split(',').map(Number)) {
  const run = (subject: typeof floor): Promise<Measurement> =>
    measure(subject, lines, Number(values.edits), Number(values.starts));
  const lowest = await run(floor);
  const ours = await run(stringcourse);
  console.log(`\n${lines} lines, in ms`);
  console.log(`${''.padEnd(26)}${['median', '95 %', 'floor', 'ratio'].map((word) => word.padStart(9)).join('')}`);
  for (const [what, samples] of ours.samples) {
    const median = part(samples, 0.5);
    const least = part(lowest.samples.get(what) ?? samples, 0.5);
    const ratio = (numberOf(median) / numberOf(least)).toFixed(1);
    console.log(what.padEnd(26) + [median, part(samples, 0.95), least, ratio].map((cell) => cell.padStart(9)).join(''));
  }
  const memory = [ours, lowest].map((one) => (one.memory === undefined ? '?' : one.memory.toFixed(0)));
  console.log(
    `memory ${memory[0]} MiB, floor ${memory[1]}; findings published in a burst: ${ours.publicationsInBurst}`,
  );
}
