/**
 * What a keystroke costs: from the edit to new findings and a new preview, in open lessons of several kinds. Prints medians and,
 * since a busy machine lengthens them, the work of the processor too; nothing fails by a timing. `npm run bench`.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { analyze, Session } from '../../server/src/analyze.ts';
import { previewOf } from '../../server/src/features/preview.ts';
import { lineDocuments } from '../../server/src/lsp/documents.ts';
import { evening, KINDS, ROOTS, sungLesson, tabLesson, toldEvening } from './lessons.ts';

const WIDTH = 800;
const EDITS = 60;
const WARM_UP = 60;
const STARTS = 9;
const SERVER = 'dist/stringcourse-server.cjs';

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];
const highest = (values: readonly number[]): number => Math.max(...values);
const milliseconds = (value: number): string => `${value.toFixed(2).padStart(8)} ms`;

interface Keystroke {
  readonly name: string;
  /** The line that the edit is in, and how it then reads; hardly ever is a text written twice. */
  edit(lines: readonly string[], number: number): { readonly line: number; readonly text: string };
}

const lineStarting = (lines: readonly string[], start: string, part: number): number =>
  lines.findIndex((line) => line.startsWith(`${start}-${part}`));

/** One of them, as if by chance and yet the same each time. */
const oneOf = <T>(all: readonly T[], number: number): T => all[(Math.imul(number + 1, 0x9e3779b1) >>> 12) % all.length];

const COMMENT: Keystroke = {
  name: 'comment',
  edit: (lines, number) => ({ line: 0, text: `${lines[0]}${number % 10}` }),
};

const IN_PARTS: readonly Keystroke[] = [
  COMMENT,
  {
    name: 'progression',
    edit: (lines, number) => {
      const line = lineStarting(lines, 'progression row', number % 6) + 1 + (number % 4);
      const bars = lines[line].trim().split(' | ');
      bars[number % 3] = ROOTS[number % ROOTS.length] + KINDS[(number >> 1) % KINDS.length];
      return { line, text: `  ${bars.join(' | ')}` };
    },
  },
  {
    name: 'cell',
    edit: (lines, number) => {
      const line = lineStarting(lines, 'cell hand', number % 6) + 2;
      const plucks = lines[line].trim().split(' ');
      plucks[oneOf([0, 1, 2, 3, 4, 5, 6], number)] = oneOf(
        ['p4', 'i3', 'm2', 'a1', 'p3', 'i2', 'm1', 'a2'],
        number * 5,
      );
      return { line, text: `  ${plucks.join(' ')}` };
    },
  },
  {
    name: 'contour',
    edit: (lines, number) => {
      const line = lineStarting(lines, 'contour line', number % 6) + 2;
      const steps = lines[line].split(': ')[1].split(' ');
      steps[oneOf([0, 1, 2, 3], number)] = oneOf(['0', '+1', '-1', '+2', '-2', '3', '5', 'R'], number * 5);
      return { line, text: `  from 5: ${steps.join(' ')}` };
    },
  },
];

/** The same for lessons of one section. */
const IN_NOTES: readonly Keystroke[] = [
  COMMENT,
  {
    name: 'a note',
    edit: (lines, number) => {
      const rows = lines.flatMap((line, at) => (/^ {2}(1 \||\d \d \d \d \|)/.test(line) ? [at] : []));
      const line = oneOf(rows, number);
      // What stands before the first bar line of a tab is the string.
      const from = lines[line].startsWith('  1 |') ? 5 : 0;
      const places = [...lines[line].matchAll(/\d/g)].map((match) => match.index).filter((at) => at > from);
      const place = oneOf(places, number * 3);
      const next = (Number(lines[line][place]) + 1 + (number % 3)) % 5;
      return { line, text: `${lines[line].slice(0, place)}${next}${lines[line].slice(place + 1)}` };
    },
  },
];

/** Waits are no work: in milliseconds that the processor worked for this program. */
const worked = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

function measure(title: string, text: string, keystrokes: readonly Keystroke[]): void {
  console.log(`\n${title}, ${text.split('\n').length} lines: median and highest of ${EDITS} edits, mean work`);
  for (const { name, edit } of keystrokes) {
    const session = new Session();
    let lines = text.split('\n');
    const compute = (whole: string): void => {
      const analysis = analyze(whole, session);
      previewOf(analysis, WIDTH);
      if (analysis.findings.length > 400) throw new Error('the lesson of the benchmark is broken');
    };
    compute(text);
    const times: number[] = [];
    let work = 0;
    // An editor that has been open for a minute has warmed its code up.
    for (let number = -WARM_UP; number < EDITS; number++) {
      const { line, text: written } = edit(lines, number + WARM_UP);
      lines = lines.map((one, index) => (index === line ? written : one));
      const whole = lines.join('\n');
      const [start, workBefore] = [performance.now(), worked()];
      compute(whole);
      if (number < 0) continue;
      times.push(performance.now() - start);
      work += worked() - workBefore;
    }
    console.log(
      `  ${name.padEnd(22)}${milliseconds(median(times))}${milliseconds(highest(times))}${milliseconds(work / EDITS)}`,
    );
  }
}

function measureOpening(text: string): void {
  const cold = Array.from({ length: 5 }, () => {
    const start = performance.now();
    const analysis = analyze(text);
    previewOf(analysis, WIDTH);
    return performance.now() - start;
  });
  console.log(`\n  ${'opened anew'.padEnd(22)}${milliseconds(median(cold))}${milliseconds(highest(cold))}`);
  const documents = lineDocuments(() => 'utf-16');
  let document = documents.create('lesson:bench', 'stringcourse', 1, text);
  const floor = Array.from({ length: EDITS }, () => {
    const at = { line: 0, character: 2 };
    const start = performance.now();
    document = documents.update(document, [{ range: { start: at, end: at }, text: 'x' }], 2);
    void document.text.length;
    return performance.now() - start;
  });
  console.log(`  ${'floor: the edit alone'.padEnd(22)}${milliseconds(median(floor))}${milliseconds(highest(floor))}`);
}

/** From the start of a process to its first answer, or to its end. */
function started(args: readonly string[], asks: boolean): Promise<number> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(process.execPath, args, { stdio: ['pipe', 'pipe', 'inherit'] });
    child.on('error', reject);
    if (!asks) {
      child.on('exit', () => resolve(performance.now() - start));
      return;
    }
    child.stdout.once('data', () => {
      resolve(performance.now() - start);
      child.kill();
    });
    const params = { processId: null, rootUri: null, capabilities: {} };
    const message = JSON.stringify({ jsonrpc: '2.0', id: 1, method: 'initialize', params });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(message)}\r\n\r\n${message}`);
  });
}

async function measureStart(): Promise<void> {
  if (!existsSync(SERVER)) {
    console.log(`\nStart: ${SERVER} is not built.`);
    return;
  }
  const bare: number[] = [];
  const server: number[] = [];
  for (let round = 0; round < STARTS; round++) {
    bare.push(await started(['-e', '0'], false));
    server.push(await started([SERVER, '--stdio'], true));
  }
  const ratio = median(server) / median(bare);
  console.log(`\nFrom the start of the process, median of ${STARTS}`);
  console.log(`  ${'bare Node'.padEnd(22)}${milliseconds(median(bare))}`);
  console.log(`  ${'first answer'.padEnd(22)}${milliseconds(median(server))}   ${ratio.toFixed(2)} times bare Node`);
}

measure('An evening of six sections', evening(), IN_PARTS);
measure('The same with 10 claims, 3 variants and 30 facts', toldEvening(), IN_PARTS);
measure('64 bars with a melody written out', sungLesson(64), IN_NOTES);
measure('A tab of 64 bars', tabLesson(64), IN_NOTES);
measureOpening(evening());
await measureStart();
