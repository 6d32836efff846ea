/** `stringcourse check`: what the engine finds in lessons, for people or for programs. */
import { parseArgs } from 'node:util';
import { analyze, Session } from '../analyze.ts';
import { findingsWords } from '../draw/facts.ts';
import { findingJson } from '../export/json.ts';
import type { Finding } from '../util/finding.ts';
import { lessonsAt, locationOf, readText, shownName } from './files.ts';
import { findingText } from './finding-text.ts';
import { complain, paintFor, say } from './terminal.ts';
import { oneOf, WrongUse } from './wrong-use.ts';

export const CHECK_HELP = `stringcourse check [PATHS] [--format text|json]

Reads lessons and tells what cannot be played, what is wrong and what could be better.
A folder stands for every lesson below it, - for standard input; without PATHS, the folder at hand.

  --format text   findings with their line and a caret (the default)
  --format json   {"version": 1, "files": [{"path", "findings": [{code, severity, message, range}]}]}

Ends with status 0 where there is no error, 1 where there is one, 2 on wrong use.
`;

/** The exit status. */
export function check(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { format: { type: 'string', default: 'text' } },
  });
  const format = oneOf(values.format, '--format', ['text', 'json']);
  const paint = paintFor(process.stdout);
  const session = new Session();
  const paths = lessonsAt(positionals);
  const all: Finding[] = [];
  const files: unknown[] = [];
  let missing = false;
  for (const path of paths) {
    let text: string;
    try {
      text = readText(path);
    } catch (problem) {
      // One file that cannot be read must not hide what is found in the others.
      if (!(problem instanceof WrongUse)) throw problem;
      complain(problem.message);
      missing = true;
      continue;
    }
    const analysis = analyze(text, session, locationOf(path));
    const { findings, lines } = analysis;
    all.push(...findings);
    if (format === 'json') files.push({ path, findings: findings.map((finding) => findingJson(finding, lines)) });
    else for (const finding of findings) say(`${findingText(finding, shownName(path), analysis, paint)}\n`);
  }
  if (format === 'json') say(`${JSON.stringify({ version: 1, files }, null, 2)}\n`);
  else if (paths.length === 0) say('No lessons here: a lesson is a file whose name ends in .lesson.\n');
  else say(`${paths.length === 1 ? 'One lesson' : `${paths.length} lessons`}: ${findingsWords(all)}.\n`);
  if (missing) return 2;
  return all.some((finding) => finding.severity === 'error') ? 1 : 0;
}
