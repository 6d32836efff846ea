/** `stringcourse format`: lessons in their one canonical layout. */
import { parseArgs } from 'node:util';
import { formatText } from '../syntax/format.ts';
import { lessonsAt, readText, shownName, STANDARD_INPUT, writeBack } from './files.ts';
import { say } from './terminal.ts';
import { printable } from '../draw/printable.ts';

export const FORMAT_HELP = `stringcourse format [PATHS] [--check]

Lays lessons out in one way: words evenly spaced, bars and tabs lined up. Prose and comments stay as they are.
A folder stands for every lesson below it; - reads standard input and writes standard output.

  --check    only tell which lessons would change; status 1 where there is one
`;

/** The exit status. */
export function format(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { check: { type: 'boolean', default: false } },
  });
  let changed = 0;
  const paths = lessonsAt(positionals);
  for (const path of paths) {
    const text = readText(path);
    const formatted = formatText(text);
    if (path === STANDARD_INPUT && !values.check) say(formatted);
    if (formatted === text) continue;
    changed++;
    if (path === STANDARD_INPUT && !values.check) continue;
    if (!values.check) writeBack(path, formatted);
    say(`${values.check ? 'would change' : 'changed'} ${printable(shownName(path))}\n`);
  }
  return values.check && changed > 0 ? 1 : 0;
}
