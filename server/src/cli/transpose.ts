/** `stringcourse transpose`: a lesson in another key, and what its open strings win and lose by it. */
import { parseArgs } from 'node:util';
import { analyze, Session, type Analysis } from '../analyze.ts';
import { keyWords } from '../draw/facts.ts';
import { printable } from '../draw/printable.ts';
import { plainOf } from '../features/page.ts';
import { colourPage, compareColours } from '../features/transpose-table.ts';
import type { Key } from '../theory/key.ts';
import { formatKey } from '../theory/key.ts';
import { byCapo } from '../transpose/by-capo.ts';
import { targetKey } from '../transpose/target-key.ts';
import { transposition, type Transposition } from '../transpose/transpose.ts';
import { applyEdits } from '../util/edits.ts';
import { locationOf, readForRewriting, shownName, STANDARD_INPUT, writeBack, writeOutput } from './files.ts';
import { complain, say } from './terminal.ts';
import { WrongUse } from './wrong-use.ts';

export const TRANSPOSE_HELP = `stringcourse transpose FILE --to KEY [--capo] [--table | --out FILE | --write] [--force]

Writes the lesson in another key to standard output; what could not be taken along is told on standard error.
Keys, chords, grips, pins, melodies, tabs and what claims say of them move; numerals, shape rules and prose do not.
FILE may be - for standard input.

  --to KEY     the key to write it in: a tonic (A, Bb), or with its mode ("A major"), which must be the lesson's own
  --capo       let it sound in that key by the capo alone: nothing else changes, and open strings keep their colours
  --table      instead of the lesson, which colours its open strings win and lose, and which findings come and go
  --out FILE   write the lesson there, and the table to standard output
  --force      overwrite --out even where this program did not write it
  --write      write the lesson back into FILE, and the table to standard output

Ends with status 0, or with 2 on wrong use or where no capo can do it.
`;

/** The exit status. */
export function transpose(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      to: { type: 'string' },
      capo: { type: 'boolean', default: false },
      table: { type: 'boolean', default: false },
      out: { type: 'string' },
      write: { type: 'boolean', default: false },
      force: { type: 'boolean', default: false },
    },
  });
  if (positionals.length !== 1) throw new WrongUse('transpose takes one lesson: stringcourse transpose FILE --to A');
  if (values.to === undefined) throw new WrongUse('transpose must be told the key: --to A or --to "A major".');
  const [path] = positionals;
  const toFile = values.out !== undefined && values.out !== '-';
  if (Number(values.table) + Number(values.out !== undefined) + Number(values.write) > 1)
    throw new WrongUse('--table, --out and --write do not go together: choose one.');
  if (values.write && path === STANDARD_INPUT)
    throw new WrongUse('--write needs a file: standard input cannot be written back.');

  const session = new Session();
  const before = analyze(readForRewriting(path), session, locationOf(path));
  const { key, instrument } = before.lesson.settings;
  const to = readTarget(values.to, key);
  const moved = (values.capo ? byCapo : transposition)(before.document, key, to, instrument);
  const impossible = values.capo && moved.edits.length === 0 && moved.losses.some(({ kind }) => kind === 'capo');
  tellLosses(moved, before, shownName(path));
  if (impossible) return 2;
  const text = applyEdits(before.text, moved.edits);
  if (values.write) {
    if (text !== before.text) writeBack(path, text);
  } else if (toFile) writeOutput(values.out!, text, values.force);
  else if (!values.table) say(text);
  if (!values.table && !values.write && !toFile) return 0;
  const after = analyze(text, session, locationOf(path));
  say(`${headOf(before, after)}\n\n${plainOf(colourPage(compareColours(before, after)))}\n`);
  return 0;
}

function readTarget(text: string, lessonKey: Key): Key {
  const to = targetKey(text, lessonKey);
  if (to === 'no-key') throw new WrongUse(`--to takes a key such as A or "Bb ${lessonKey.mode}", not "${text}".`);
  if (to !== 'other-mode') return to;
  throw new WrongUse(
    `The lesson is in ${formatKey(lessonKey)} and keeps its mode: --to takes a tonic alone, such as A.`,
  );
}

function tellLosses({ losses }: Transposition, { lines }: Analysis, name: string): void {
  for (const { span, message } of losses) {
    const { line, character } = lines.positionAt(span.start);
    complain(`${name}:${line + 1}:${character + 1}: ${message}`);
  }
}

/** `From G major to A major.`; with a capo also what sounds. */
function headOf(before: Analysis, after: Analysis): string {
  const words = ({ lesson: { settings } }: Analysis): string => keyWords(settings.key, settings.instrument);
  return printable(`From ${words(before)} to ${words(after)}.`);
}
