/**
 * What a keystroke costs: from the edit to new findings and a new preview, in an open lesson of about 200 lines. Prints medians;
 * nothing fails by a timing. `npm run bench`.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { analyze, Session } from '../../server/src/analyze.ts';
import { previewOf } from '../../server/src/features/preview.ts';
import { lineDocuments } from '../../server/src/lsp/documents.ts';

const WIDTH = 800;
const EDITS = 60;
const WARM_UP = 60;
const STARTS = 9;
const SERVER = 'dist/stringcourse-server.cjs';

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];
const highest = (values: readonly number[]): number => Math.max(...values);
const milliseconds = (value: number): string => `${value.toFixed(2).padStart(8)} ms`;

const ROOTS = ['C', 'D', 'E', 'F', 'G', 'A', 'B', 'Bb', 'Eb', 'F#'];
const KINDS = ['', 'm', '7', 'm7', 'maj7', 'sus4', 'add9', '6'];

/** Six sections, each with its own progression, cell and contour, over shapes of three and four strings. */
function lesson(): string {
  const lines = [
    '; A lesson of about two hundred lines.',
    'lesson "A long evening"',
    '  level 3',
    '',
    'key G major',
    'meter 4/4',
  ];
  lines.push('tempo 84', '', 'shape lamp', '  strings 4 2 1', '  tones 3 R 5', '  open 3', '  frets 1 to 12', '');
  lines.push('shape bell', '  strings 4 3 2 1', '  frets 0 to 9', '  reach 3', '');
  for (let part = 0; part < 6; part++) {
    lines.push(`; Part ${part + 1}.`, `progression row-${part}`);
    for (let row = 0; row < 4; row++) {
      const chord = (bar: number): string => {
        const number = part * 16 + row * 4 + bar;
        return ROOTS[(number * 3) % 6] + KINDS[(number * 7) % 4];
      };
      lines.push(`  ${[0, 1, 2, 3].map(chord).join(' | ')}`);
    }
    lines.push('', `cell hand-${part}`, '  each 1/8', `  p4 i3 m2 i3 a1 i3 m2 ${['i3', 'p4', 'm2'][part % 3]}`, '');
    lines.push(`contour line-${part} on 1`, '  each 1/4', `  from 5: 0 -1 0 ${part % 2 ? '+1' : '-1'}`, '');
    lines.push(
      `section part-${part} "Part ${part + 1}"`,
      `  progression row-${part}`,
      `  shape ${part % 2 ? 'lamp' : 'bell'}`,
    );
    lines.push(
      `  cell hand-${part}`,
      `  contour line-${part}`,
      '',
      'text',
      `  ## Part ${part + 1}`,
      '  Let the open string ring.',
      '',
    );
  }
  return `${lines.join('\n')}\n`;
}

interface Keystroke {
  readonly name: string;
  /** The line that the edit is in, and the line after it; no text is written twice. */
  edit(lines: readonly string[], number: number): { readonly line: number; readonly text: string };
}

const lineStarting = (lines: readonly string[], start: string, part: number): number =>
  lines.findIndex((line) => line.startsWith(`${start}-${part}`));

const KEYSTROKES: readonly Keystroke[] = [
  {
    name: 'comment',
    edit: (lines, number) => ({ line: 0, text: `${lines[0]}${number % 10}` }),
  },
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
      plucks[number % 7] = ['p4', 'i3', 'm2', 'a1', 'p3', 'i2', 'm1', 'a2'][(number * 5) % 8];
      return { line, text: `  ${plucks.join(' ')}` };
    },
  },
  {
    name: 'contour',
    edit: (lines, number) => {
      const line = lineStarting(lines, 'contour line', number % 6) + 2;
      const steps = lines[line].split(': ')[1].split(' ');
      steps[number % 4] = ['0', '+1', '-1', '+2', '-2', '3', '5', 'R'][(number * 5) % 8];
      return { line, text: `  from 5: ${steps.join(' ')}` };
    },
  },
];

function measure(text: string): void {
  console.log(
    `\nFrom the edit to findings and preview, ${text.split('\n').length} lines, median and highest of ${EDITS} edits`,
  );
  for (const { name, edit } of KEYSTROKES) {
    const session = new Session();
    let lines = text.split('\n');
    const compute = (whole: string): void => {
      const analysis = analyze(whole, session);
      previewOf(analysis, WIDTH);
      if (analysis.findings.length > 400) throw new Error('the lesson of the benchmark is broken');
    };
    compute(text);
    const times: number[] = [];
    // An editor that has been open for a minute has warmed its code up.
    for (let number = -WARM_UP; number < EDITS; number++) {
      const { line, text: written } = edit(lines, number + WARM_UP);
      lines = lines.map((one, index) => (index === line ? written : one));
      const whole = lines.join('\n');
      const start = performance.now();
      compute(whole);
      if (number >= 0) times.push(performance.now() - start);
    }
    console.log(`  ${name.padEnd(22)}${milliseconds(median(times))}${milliseconds(highest(times))}`);
  }
  const cold = Array.from({ length: 5 }, () => {
    const start = performance.now();
    const analysis = analyze(text);
    previewOf(analysis, WIDTH);
    return performance.now() - start;
  });
  console.log(`  ${'opened anew'.padEnd(22)}${milliseconds(median(cold))}${milliseconds(highest(cold))}`);
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

measure(lesson());
await measureStart();
