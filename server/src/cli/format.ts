/** `stringcourse format`: lessons in their one canonical layout. */
import { parseArgs } from 'node:util';
import { formatText } from '../syntax/format.ts';
import { lessonsAt, readForRewriting, shownName, STANDARD_INPUT, writeBack } from './files.ts';
import { complain, say } from './terminal.ts';
import { WrongUse } from './wrong-use.ts';
import { printable } from '../draw/printable.ts';

export const FORMAT_HELP = `stringcourse format [PATHS] [--check]

Lays lessons out in one way: words evenly spaced, bars and tabs lined up. Prose and comments stay as they are.
A folder stands for every lesson below it; - reads standard input and writes standard output.

  --check    only tell which lessons would change; status 1 where there is one

A lesson is put in its place when it is written whole, so that nothing is lost on a full disk.
`;

/** The exit status. */
export function format(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { check: { type: 'boolean', default: false } },
  });
  let changed = false;
  let refused = false;
  for (const path of lessonsAt(positionals)) {
    try {
      changed = formatOne(path, values.check) || changed;
    } catch (problem) {
      // One file that cannot be read or written must not keep the others as they are.
      if (!(problem instanceof WrongUse)) throw problem;
      complain(problem.message);
      refused = true;
    }
  }
  if (refused) return 2;
  return values.check && changed ? 1 : 0;
}

/** Whether the lesson is not yet laid out. */
function formatOne(path: string, check: boolean): boolean {
  const text = readForRewriting(path);
  const formatted = formatText(text);
  const changes = formatted !== text;
  if (path === STANDARD_INPUT && !check) say(formatted);
  else if (changes) {
    if (!check) writeBack(path, formatted);
    say(`${check ? 'would change' : 'changed'} ${printable(shownName(path))}\n`);
  }
  return changes;
}
