import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { codeOf, sourcesIn } from '../support/sources.ts';

const program = sourcesIn('server/src', 'client');
const tests = sourcesIn('test');
/** Tests open with what they test; what stands beside them opens like any other source. */
const opening = [...program, ...tests.filter(({ path }) => !path.endsWith('.test.ts'))];

const LONGEST = 500;
const LONGEST_RULE = 150;
const LONGEST_FEATURE = 300;
/** The table of statements is one table, and stays in one piece. */
const LONG_ON_PURPOSE: readonly string[] = ['server/src/syntax/statements.ts'];

const lengthOf = (text: string): number => text.trimEnd().split('\n').length;

const longerThan = (most: number, chosen: typeof program): readonly string[] =>
  chosen
    .filter(({ path, text }) => lengthOf(text) >= most && !LONG_ON_PURPOSE.includes(path))
    .map(({ path, text }) => `${path}: ${lengthOf(text)} lines`);

describe('every source', () => {
  it('opens with a sentence on what it is for', () => {
    const silent = opening.filter(({ text }) => {
      const said = /^(?:#!.*\n)?\/\*\*([\s\S]*?)\*\//.exec(text)?.[1].replace(/\n \*/g, ' ').trim();
      return said === undefined || !/^[A-Z`].*\s.*\s.*[.:]$/s.test(said);
    });
    assert.deepEqual(
      silent.map(({ path }) => path),
      [],
    );
  });
  it('is short: a rule, a feature, and anything', () => {
    const rules = program.filter(({ path }) => path.startsWith('server/src/rules/'));
    const features = program.filter(({ path }) => path.startsWith('server/src/features/'));
    assert.deepEqual(longerThan(LONGEST_RULE, rules), []);
    assert.deepEqual(longerThan(LONGEST_FEATURE, features), []);
    assert.deepEqual(longerThan(LONGEST, [...program, ...tests]), []);
  });
  it('has a name in small letters with hyphens', () => {
    const others = [...program, ...tests].filter(({ path }) => !/^([a-z0-9]+(-[a-z0-9]+)*[/.])+ts$/.test(path));
    assert.deepEqual(
      others.map(({ path }) => path),
      [],
    );
  });
  it('leaves nothing for later', () => {
    const marks = [...program, ...tests].filter(({ text }) => /\b(?:TO[D]O|FIX[M]E|XX[X]|HA[C]K)\b/.test(text));
    assert.deepEqual(
      marks.map(({ path }) => path),
      [],
    );
  });
  it('passes no type for another', () => {
    const forced = program.filter(
      (source) => /@ts-(?:ignore|nocheck|expect-error)/.test(source.text) || /\bas any\b|: any\b/.test(codeOf(source)),
    );
    assert.deepEqual(
      forced.map(({ path }) => path),
      [],
    );
  });
});

describe('the top level', () => {
  const AGREED = (
    'client server syntaxes samples test package.json package-lock.json tsconfig.json ' +
    'README.md DEVELOPERS.md CHANGELOG.md LICENSE'
  ).split(' ');
  it('holds what was agreed, and dot files', () => {
    const ignored = readFileSync('.gitignore', 'utf8').split('\n').filter(Boolean);
    const isIgnored = (name: string): boolean =>
      ignored.some(
        (line) => line === name || line === `${name}/` || (line.startsWith('*') && name.endsWith(line.slice(1))),
      );
    const others = readdirSync('.').filter(
      (name) => !name.startsWith('.') && !AGREED.includes(name) && !isIgnored(name),
    );
    assert.deepEqual(others, []);
  });
  it('has a lock file that names no host', () => {
    assert.ok(!readFileSync('package-lock.json', 'utf8').includes('"resolved"'));
  });
  it('depends on exact versions', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as Record<
      string,
      Record<string, string>
    >;
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(([, version]) => !/^\d/.test(version));
    assert.deepEqual(loose, []);
  });
});

describe('the pages for contributors', () => {
  it('name folders and files that are there', () => {
    const page = readFileSync('DEVELOPERS.md', 'utf8');
    const paths = [...page.matchAll(/`((?:server|client|test|samples|syntaxes|\.ci|\.scripts)(?:\/[\w.-]+)*\/?)`/g)];
    assert.ok(paths.length > 0);
    const missing = paths.map((found) => found[1]).filter((path) => !existsSync(path) && !path.endsWith('/shots'));
    assert.deepEqual([...new Set(missing)], []);
  });
  it('name commands that package.json has', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
    const page = readFileSync('DEVELOPERS.md', 'utf8') + readFileSync('README.md', 'utf8');
    const named = [...page.matchAll(/`?npm run ([a-z:-]+)/g)].map((found) => found[1]);
    assert.deepEqual(
      [...new Set(named)].filter((name) => !(name in scripts)),
      [],
    );
  });
});
