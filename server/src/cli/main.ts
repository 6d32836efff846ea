#!/usr/bin/env node
/** The program `stringcourse`: takes its first word for a command and leaves the rest to it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, CHECK_HELP } from './check.ts';
import { exportLesson, EXPORT_HELP } from './export.ts';
import { format, FORMAT_HELP } from './format.ts';
import { shape, SHAPE_HELP } from './shape.ts';
import { complain, endQuietlyOnClosedPipe, say } from './terminal.ts';
import { transpose, TRANSPOSE_HELP } from './transpose.ts';
import { voicings, VOICINGS_HELP } from './voicings.ts';
import { watchLesson, WATCH_HELP } from './watch.ts';
import { WrongUse } from './wrong-use.ts';
import { nearest } from '../util/nearest.ts';

interface Command {
  readonly says: string;
  readonly help: string;
  readonly run: (args: readonly string[]) => number | Promise<number>;
}

const COMMANDS: Readonly<Record<string, Command>> = {
  check: { says: 'tell what is wrong or could be better in lessons', help: CHECK_HELP, run: check },
  format: { says: 'lay lessons out in one way', help: FORMAT_HELP, run: format },
  export: { says: 'write a lesson as tab, drawing, data or sound', help: EXPORT_HELP, run: exportLesson },
  watch: {
    says: 'show findings, tab and a live preview while you write',
    help: WATCH_HELP,
    run: (args) => watchLesson(args, __dirname),
  },
  transpose: { says: 'take a lesson to another key, by its text or by the capo', help: TRANSPOSE_HELP, run: transpose },
  shape: { says: 'name a shape, and tell how it is held', help: SHAPE_HELP, run: shape },
  voicings: { says: 'find the voicings of a chord, easiest first', help: VOICINGS_HELP, run: voicings },
};

const HELP = `stringcourse: guitar lessons as code.

${Object.entries(COMMANDS)
  .map(([name, { says }]) => `  stringcourse ${name.padEnd(10)}${says}`)
  .join('\n')}

stringcourse COMMAND --help tells more of one; stringcourse --version tells the version.
`;

const FINE = 0;
const WRONG = 2;

async function main(args: readonly string[]): Promise<number> {
  const [word, ...rest] = args;
  if (word === '--version' || word === '-v') {
    say(`${versionOf()}\n`);
    return FINE;
  }
  if (word === '--help' || word === '-h' || word === 'help') {
    const command = rest[0] === undefined ? undefined : COMMANDS[rest[0]];
    say(command?.help ?? HELP);
    return FINE;
  }
  if (word === undefined) {
    process.stderr.write(HELP);
    return WRONG;
  }
  const command = Object.hasOwn(COMMANDS, word) ? COMMANDS[word] : undefined;
  if (!command) {
    const meant = nearest(word, Object.keys(COMMANDS));
    throw new WrongUse(`There is no command "${word}".${meant ? ` Is ${meant} meant?` : ' --help tells them all.'}`);
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    say(command.help);
    return FINE;
  }
  return await command.run(rest);
}

function versionOf(): string {
  const read: unknown = JSON.parse(readFileSync(join(__dirname, '..', 'package.json'), 'utf8'));
  return String((read as { readonly version?: unknown }).version);
}

/** Options that do not exist are told by the library in its own words; the first sentence says enough. */
function wordsFor(problem: unknown): string | undefined {
  if (problem instanceof WrongUse) return problem.message;
  const { code, message } = problem as NodeJS.ErrnoException;
  return code?.startsWith('ERR_PARSE_ARGS') ? `${message.split('. ')[0]}.` : undefined;
}

endQuietlyOnClosedPipe();
main(process.argv.slice(2)).then(
  (status) => {
    process.exitCode = status;
  },
  (problem: unknown) => {
    const words = wordsFor(problem);
    if (words === undefined) throw problem;
    complain(words);
    process.exitCode = WRONG;
  },
);
