/** Reads lessons from disk and standard input, and writes files without destroying anybody's work. */
import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { LIBRARY_FILE } from '../lesson/library.ts';
import type { Location } from '../lesson/neighbours.ts';
import { WrongUse } from './wrong-use.ts';

export const STANDARD_INPUT = '-';
const ENDING = '.lesson';

/** Far above the longest lesson that is read; what is larger is none. In bytes. */
const LARGEST_FILE = 8_000_000;
const MOST_FILES = 100_000;
/** Standard input may also be a long list of shapes. In bytes. */
const LARGEST_INPUT = 100_000_000;
const NOT_NOW_MS = 5;

/** A name for a file in messages. */
export const shownName = (path: string): string => (path === STANDARD_INPUT ? 'standard input' : path);

/** The text of a lesson; `-` reads standard input. Whatever is no UTF-8 is read with signs of replacement. */
export const readText = (path: string): string => readBytes(path).toString('utf8');

/** The text of a lesson that is to be written anew; refuses what is no UTF-8, since signs of replacement would be kept. */
export function readForRewriting(path: string): string {
  const bytes = readBytes(path);
  if (!isUtf8(bytes)) throw new WrongUse(`${shownName(path)} is no UTF-8 text; it is left as it is.`);
  return bytes.toString('utf8');
}

function readBytes(path: string): Buffer {
  try {
    if (path === STANDARD_INPUT) return readStandardInput();
    const { size } = statSync(path);
    if (size > LARGEST_FILE) throw new WrongUse(`${path} is too large for a lesson (${size} bytes).`);
    return readFileSync(path);
  } catch (problem) {
    throw told(problem, path);
  }
}

/** Waits for whoever writes into the pipe, also where the pipe says "not now" instead of waiting itself. */
function readStandardInput(): Buffer {
  const chunks: Buffer[] = [];
  const chunk = Buffer.alloc(65_536);
  let length = 0;
  for (;;) {
    try {
      const read = readSync(0, chunk);
      if (read === 0) break;
      chunks.push(Buffer.from(chunk.subarray(0, read)));
      length += read;
    } catch (problem) {
      const { code } = problem as NodeJS.ErrnoException;
      if (code === 'EOF') break;
      if (code !== 'EAGAIN') throw problem;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, NOT_NOW_MS);
    }
    if (length > LARGEST_INPUT) throw new WrongUse('Standard input is too large.');
  }
  return Buffer.concat(chunks);
}

/**
 * Where a lesson stands among the files beside it: below the nearest folder upwards that holds a library, else below the folder
 * at hand, else in its own folder. Standard input stands in the folder at hand.
 */
export function locationOf(path: string): Location {
  const file = resolve(path === STANDARD_INPUT ? 'standard-input.lesson' : path);
  const here = process.cwd();
  const root = libraryAbove(dirname(file)) ?? (isBelow(file, here) ? here : dirname(file));
  return {
    path: relative(root, file).split(sep).join('/'),
    files: { read: (other) => neighbour(join(root, ...other.split('/'))) },
  };
}

const isBelow = (file: string, folder: string): boolean => {
  const way = relative(folder, file);
  return !way.startsWith('..') && !isAbsolute(way);
};

function libraryAbove(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (statSync(join(at, LIBRARY_FILE), { throwIfNoEntry: false })?.isFile()) return at;
    if (dirname(at) === at) return undefined;
  }
}

/** Null for what is not there, is no file or may not be read: the lesson that speaks of it is told so. */
function neighbour(path: string): string | null {
  try {
    const entry = statSync(path);
    return entry.isFile() && entry.size <= LARGEST_FILE ? readFileSync(path, 'utf8') : null;
  } catch {
    return null;
  }
}

function told(problem: unknown, path: string): unknown {
  const name = shownName(path);
  switch ((problem as NodeJS.ErrnoException).code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return new WrongUse(`There is no file ${name}.`);
    case 'EISDIR':
      return new WrongUse(`${name} is a folder, where a file is wanted.`);
    case 'EACCES':
    case 'EPERM':
      return new WrongUse(`${name} may not be read or written by this user.`);
    default:
      return problem instanceof WrongUse || !(problem instanceof Error)
        ? problem
        : new WrongUse(`${name}: ${problem.message}`);
  }
}

/** Files as given; for a folder every lesson below it, in the order of their names. Without paths, the folder at hand. */
export function lessonsAt(paths: readonly string[]): readonly string[] {
  const found: string[] = [];
  for (const path of paths.length === 0 ? ['.'] : paths) {
    if (path === STANDARD_INPUT) found.push(path);
    // What is not there is told when it is read, so that it does not hide what is found in the others.
    else if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) collect(path, found);
    else found.push(path);
  }
  return [...new Set(found)];
}

/** Folders whose names begin with a dot and those of packages hold no lessons; links to folders are not followed. */
function collect(folder: string, found: string[]): void {
  const names = readdirSync(folder).sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  for (const name of names) {
    if (name.startsWith('.') || name === 'node_modules') continue;
    const path = folder === '.' ? name : join(folder, name);
    const entry = lstatSync(path, { throwIfNoEntry: false });
    if (entry?.isDirectory()) collect(path, found);
    else if (name.endsWith(ENDING) && statSync(path, { throwIfNoEntry: false })?.isFile()) found.push(path);
    if (found.length > MOST_FILES) throw new WrongUse(`There are more than ${MOST_FILES} lessons below ${folder}.`);
  }
}

/** Beside the files it names: fingerprints of what this program wrote there, so that nothing else is ever overwritten. */
const MANIFEST = '.stringcourse-written.json';

type Manifest = Record<string, string>;

const fingerprint = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');

function readManifest(folder: string): Manifest {
  try {
    const read: unknown = JSON.parse(readFileSync(join(folder, MANIFEST), 'utf8'));
    if (typeof read !== 'object' || read === null) return {};
    return Object.fromEntries(Object.entries(read).filter((entry) => typeof entry[1] === 'string')) as Manifest;
  } catch {
    // A manifest that is missing or spoilt knows of nothing, so that nothing is overwritten.
    return {};
  }
}

/** Refuses where a file is there that this program did not write, or that was changed since; `force` overrules. */
export function writeOutput(path: string, content: string | Uint8Array, force: boolean): void {
  const folder = dirname(path);
  const name = basename(path);
  const manifest = readManifest(folder);
  const there = readIfThere(path);
  if (there !== undefined && !force && manifest[name] !== fingerprint(there)) {
    const why = manifest[name] === undefined ? 'was not written by this program' : 'was changed since it was written';
    throw new WrongUse(`${path} ${why}; --force overwrites it.`);
  }
  try {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path, content);
    manifest[name] = fingerprint(content);
    const sorted = Object.fromEntries(Object.entries(manifest).sort(([a], [b]) => (a < b ? -1 : 1)));
    writeFileSync(join(folder, MANIFEST), `${JSON.stringify(sorted, null, 2)}\n`);
  } catch (problem) {
    throw told(problem, path);
  }
}

function readIfThere(path: string): Buffer | undefined {
  try {
    return readFileSync(path);
  } catch (problem) {
    if ((problem as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw told(problem, path);
  }
}

/**
 * Overwrites a lesson that was read before: what `format` and `transpose` do. It is written beside it and then put in its place,
 * so that no full disk and no power cut leaves half a lesson; a link stays a link, and who may read it may still.
 */
export function writeBack(path: string, content: string): void {
  let beside: string | undefined;
  try {
    const target = realpathSync(path);
    accessSync(target, constants.W_OK);
    const { mode } = statSync(target);
    beside = `${target}.${process.pid}.new`;
    const file = openSync(beside, 'wx', mode);
    try {
      // What the user's mask took away when the file was made.
      fchmodSync(file, mode);
      writeFileSync(file, content);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, target);
  } catch (problem) {
    if (beside !== undefined && (problem as NodeJS.ErrnoException).code !== 'EEXIST') rmSync(beside, { force: true });
    throw told(problem, path);
  }
}
