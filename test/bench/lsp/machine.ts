/** What the machine says of a process, where it has /proc: memory, computing time, and time spent waiting for a processor. */
import { readFileSync } from 'node:fs';

/** Peak resident memory in MiB. */
export function peakMemory(pid: number): number | undefined {
  const kibibytes = /VmHWM:\s+(\d+)/.exec(read(`/proc/${pid}/status`))?.[1];
  return kibibytes === undefined ? undefined : Number(kibibytes) / 1024;
}

/** How long this process and the server stood ready without a processor, in ms: what other work on the machine costs. */
export function waited(pid: number): number {
  const nanoseconds = [pid, process.pid].map((each) => Number(read(`/proc/${each}/schedstat`).split(' ')[1] ?? 0));
  return nanoseconds.reduce((sum, each) => sum + each, 0) / 1e6;
}

function read(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}
