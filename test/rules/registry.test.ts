/** No rule without a file, no file without a rule, no problem without words, and a page of the reference that is up to date. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { CARE } from '../../server/src/util/care.ts';
import { analyze } from '../../server/src/analyze.ts';
import { rules } from '../../server/src/rules/findings.ts';
import { rulesPage } from '../../server/src/rules/page.ts';
import * as registry from '../../server/src/rules/registry.ts';

const FOLDER = 'server/src/rules';
const NO_RULES = ['rule.ts', 'registry.ts', 'findings.ts', 'page.ts', 'setting.ts'];
const LONGEST_RULE = 150;

const filesIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith('.ts'));
const ruleFiles = filesIn(FOLDER).filter((name) => !NO_RULES.includes(name));

describe('the registry', () => {
  it('has one rule for each file, under its name', () => {
    assert.deepEqual(Object.keys(registry), ruleFiles.map((name) => name.replace('.ts', '')).sort());
  });

  it('is sorted, a line each', () => {
    const keys = [
      ...readFileSync(`${FOLDER}/registry.ts`, 'utf8').matchAll(
        /^export \{ rule as '([a-z-]+)' \} from '\.\/\1\.ts';$/gm,
      ),
    ];
    assert.deepEqual(
      keys.map((key) => key[1]),
      Object.keys(registry).sort(),
    );
  });

  it('has no rule of more than 150 lines', () => {
    for (const name of ruleFiles) {
      const lines = readFileSync(`${FOLDER}/${name}`, 'utf8').split('\n').length - 1;
      assert.ok(lines < LONGEST_RULE, `${name} has ${lines} lines`);
    }
  });
});

describe('problems', () => {
  const sources = [
    'server/src/syntax/document.ts',
    'server/src/syntax/statement-parser.ts',
    ...filesIn('server/src/lesson').map((name) => `server/src/lesson/${name}`),
  ];
  // Kinds are two words or more; what stands behind a comma or a bracket is a label of the tree.
  const reported = /(?:report\(\s*|kind: |kind = .*\? |kind = .* : )'([a-z]+(?:-[a-z]+)+)'/g;
  const kinds = sources.flatMap((name) =>
    [...readFileSync(name, 'utf8').matchAll(reported)].map((match) => [match[1], name] as const),
  );

  it('of every kind that syntax and lesson report are put into words', () => {
    assert.ok(kinds.length > 30, `found only ${kinds.length} kinds`);
    const worded = rules.filter((rule) => 'problem' in rule).map((rule) => rule.code);
    for (const [kind, name] of kinds) assert.ok(worded.includes(kind), `${name} reports ${kind}, which no rule words`);
  });
});

describe('RULES.md', () => {
  it('is what `npm run docs` writes now', () => {
    const page = rulesPage(rules, (text, location) => analyze(text, undefined, location).findings);
    assert.equal(readFileSync('server/RULES.md', 'utf8'), page, 'run `npm run docs`');
  });

  it('carries the caution wherever a rule speaks of the hand', () => {
    const page = rulesPage(rules, () => []);
    assert.equal(page.split(CARE).length - 1, rules.filter((rule) => rule.care).length);
  });
});
