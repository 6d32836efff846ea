import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { FIRST_LESSON } from '../../client/src/first-lesson.ts';
import { serverSettings } from '../support/server-settings.ts';
import { sourcesIn } from '../support/sources.ts';

interface Manifest {
  readonly activationEvents: readonly string[];
  readonly contributes: {
    readonly commands: readonly { readonly command: string }[];
    readonly configuration: { readonly properties: Readonly<Record<string, unknown>> };
  };
}

const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as Manifest;
const client = sourcesIn('client/src').map(({ text }) => text);

/** All that the form finds in the client's sources, sorted, each once. */
const inCode = (form: RegExp): readonly string[] =>
  [...new Set(client.flatMap((text) => [...text.matchAll(form)].map((found) => found[1])))].sort();

/** Read by the library that the client is built on, by the id of the client. */
const BY_THE_LIBRARY: readonly string[] = ['stringcourse.trace.server'];

const configuration = JSON.parse(readFileSync('syntaxes/language-configuration.json', 'utf8')) as {
  readonly wordPattern: string;
  readonly onEnterRules: readonly {
    readonly beforeText: string;
    readonly afterText?: string;
    readonly action: { readonly indent: string; readonly appendText?: string };
  }[];
};

describe('the editor’s side', () => {
  it('registers the commands that package.json names, and no others', () => {
    const named = manifest.contributes.commands.map(({ command }) => command).sort();
    assert.deepEqual(inCode(/registerCommand\(\s*'([^']+)'/g), named);
  });
  it('reads the settings that package.json names, and no others', () => {
    const named = Object.keys(manifest.contributes.configuration.properties).sort();
    const read = inCode(/\.get<[^>]+>\(\s*'([^']+)'/g).map((name) => `stringcourse.${name}`);
    assert.deepEqual([...read, ...serverSettings().keys(), ...BY_THE_LIBRARY].sort(), named);
  });
  it('is woken by the kind of panel that it restores', () => {
    const [panel] = inCode(/const PANEL = '([^']+)'/g);
    assert.deepEqual(manifest.activationEvents, [`onWebviewPanel:${panel}`]);
  });
  it('indents behind each statement that has a body, and behind no other', () => {
    const before = new RegExp(configuration.onEnterRules.find(({ action }) => action.indent === 'indent')!.beforeText);
    const indented = statements.map(({ keyword }) => keyword).filter((keyword) => before.test(`${keyword} and more`));
    const withBody = statements.filter(({ body, prose }) => prose || body.length > 0).map(({ keyword }) => keyword);
    assert.deepEqual(indented, withBody);
    assert.ok(!before.test(`  ${withBody[0]}`), 'only in the first column');
  });
  it('goes on with the next string behind a row that ends with a bar line, and with a comment that is cut in two', () => {
    const appended = (before: string, after: string): string | undefined =>
      configuration.onEnterRules.find(
        (rule) => new RegExp(rule.beforeText).test(before) && new RegExp(rule.afterText ?? '').test(after),
      )?.action.appendText;
    assert.equal(appended('  1 | 0 - 3 |', ''), '2 | ');
    assert.equal(appended('  5 | - - - | -', ''), undefined, 'the row goes on');
    assert.equal(appended('  6 | 3 - - |', ''), undefined, 'the last string');
    assert.equal(appended('  1 | 0 - |', ' 3 - |'), undefined, 'a row cut in two');
    assert.equal(appended('; Third and root', ' on three strings.'), '; ');
    assert.equal(appended('; Third and root.', ''), undefined);
  });
  it('takes a name with hyphens, a chord and a sign for one word each', () => {
    const words = (line: string): readonly string[] => line.match(new RegExp(configuration.wordPattern, 'g')) ?? [];
    assert.deepEqual(words('  F#m7b5 as thumb-five | x-7-9-9-0-0, "low-tide"'), [
      'F#m7b5',
      'as',
      'thumb-five',
      'x-7-9-9-0-0',
      'low-tide',
    ]);
  });
  it('begins a new lesson with one that has no finding', () => {
    assert.deepEqual(analyze(FIRST_LESSON).findings, []);
  });
});
