import assert from 'node:assert/strict';
import { readFileSync, existsSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { completionsAt } from '../../server/src/features/completion.ts';
import { statements, type StatementForm } from '../../server/src/syntax/statements.ts';
import { textmateGrammar } from '../../server/src/syntax/textmate.ts';
import { serverSettings } from '../support/server-settings.ts';
import { sourcesIn } from '../support/sources.ts';

interface Manifest {
  readonly scripts: Readonly<Record<string, string>>;
  readonly contributes: {
    readonly languages: readonly { readonly id: string; readonly extensions: readonly string[] }[];
    readonly grammars: readonly { readonly language: string; readonly scopeName: string; readonly path: string }[];
    readonly commands: readonly { readonly command: string; readonly title: string }[];
    readonly configuration: {
      readonly properties: Readonly<Record<string, { readonly default: unknown; readonly scope: string }>>;
    };
  };
}

const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as Manifest;
const client = sourcesIn('client/src')
  .map(({ text }) => text)
  .join('\n');
const inServer = serverSettings();

describe('package.json and code', () => {
  it('have the same commands', () => {
    const registered = [...client.matchAll(/registerCommand\(\s*'([^']+)'/g)].map((found) => found[1]);
    assert.deepEqual(registered.sort(), manifest.contributes.commands.map((one) => one.command).sort());
  });
  it('have the same settings', () => {
    const read = [...client.matchAll(/\.get(?:<[^>]*>)?\(\s*'([^']+)'/g)].map((found) => `stringcourse.${found[1]}`);
    // The language client reads this one by itself, under the name that it was given.
    const settings = [...read, ...inServer.keys(), 'stringcourse.trace.server'].sort();
    assert.deepEqual(settings, Object.keys(manifest.contributes.configuration.properties).sort());
  });
  it('have the same defaults of what the server reads, for each folder', () => {
    for (const [name, value] of inServer) {
      const { default: stated, scope } = manifest.contributes.configuration.properties[name];
      assert.deepEqual([stated, scope], [value, 'resource'], name);
    }
  });
  it('mean the same language by the same names', () => {
    const { languages, grammars } = manifest.contributes;
    const grammar = textmateGrammar();
    assert.deepEqual(
      languages.map((one) => one.extensions),
      [grammar.fileTypes.map((ending) => `.${ending}`)],
    );
    assert.deepEqual(
      grammars.map(({ language, scopeName }) => [language, scopeName]),
      [[languages[0].id, grammar.scopeName]],
    );
    for (const { path } of grammars) assert.ok(existsSync(path), path);
  });
});

/** What is offered as a keyword at the end of a text. */
function keywordsAt(text: string): readonly string[] {
  const offered = completionsAt(analyze(text), text.length)?.items ?? [];
  return offered.filter((item) => item.kind === 'keyword').map((item) => item.label);
}

/** The keywords of a statement's body lines. */
const linesOf = (form: StatementForm): readonly string[] => form.body.flatMap((line) => line.keyword ?? []);

describe('completion and table of statements', () => {
  it('offers every statement in the first column and no other', () => {
    assert.deepEqual([...keywordsAt('')].sort(), statements.map((form) => form.keyword).sort());
  });
  for (const form of statements) {
    const lines = linesOf(form);
    if (lines.length === 0) continue;
    it(`offers every line of ${form.keyword} in its body and none of another`, () => {
      const offered = new Set(keywordsAt(`${form.example.split('\n')[0]}\n  `));
      assert.deepEqual(
        lines.filter((line) => !offered.has(line)),
        [],
      );
      const others = new Set(statements.flatMap(linesOf).filter((line) => !lines.includes(line)));
      assert.deepEqual(
        [...offered].filter((line) => others.has(line)),
        [],
      );
    });
  }
});
