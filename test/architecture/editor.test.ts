import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { SECTION, WEIGHTS } from '../../server/src/lsp/settings.ts';
import { rules } from '../../server/src/rules/findings.ts';
import { SEVERITY_SETTING, severitySchema } from '../../server/src/rules/setting.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { FIRST_LESSON } from '../../client/src/first-lesson.ts';
import { serverSettings } from '../support/server-settings.ts';
import { sourcesIn } from '../support/sources.ts';

interface Manifest {
  readonly activationEvents: readonly string[];
  readonly capabilities: unknown;
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly title: string; readonly category: string }[];
    readonly menus: Readonly<Record<string, readonly { readonly command: string; readonly when?: string }[]>>;
    readonly configuration: { readonly properties: Readonly<Record<string, unknown>> };
    readonly views: Readonly<Record<string, readonly { readonly id: string; readonly visibility?: string }[]>>;
    readonly viewsWelcome: readonly { readonly contents: string }[];
    readonly walkthroughs: readonly {
      readonly steps: readonly { readonly description: string; readonly media: { readonly image: string } }[];
    }[];
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
  it('is not woken by a view before somebody opens that', () => {
    for (const view of Object.values(manifest.contributes.views).flat())
      assert.equal(view.visibility, 'collapsed', view.id);
  });
  it('wakes without waiting for the server', () => {
    const source = (name: string): string => readFileSync(`client/src/${name}.ts`, 'utf8');
    for (const host of ['extension', 'browser'])
      assert.match(source(host), /^export function activate\(.*\): void {$/m);
    assert.match(source('start'), /^export function startClient\(.*\): void {$[^]*^  void server\.start\(\);$/m);
  });
  it('works in workspaces that nobody trusts, and in those that are on no disk', () =>
    assert.deepEqual(manifest.capabilities, { untrustedWorkspaces: { supported: true }, virtualWorkspaces: true }));
  it('asks nothing of the net, of other programs or of who uses it', () => {
    for (const { path, text } of sourcesIn('client/src'))
      assert.doesNotMatch(text, /\bfetch\(|XMLHttpRequest|WebSocket|telemetry|child_process|\bgit\b/i, path);
  });
  it('names its commands under one heading, and offers those about a lesson only where there is one', () => {
    const { commands, menus } = manifest.contributes;
    for (const { command, title, category } of commands) {
      assert.equal(category, 'Stringcourse', command);
      assert.doesNotMatch(title, /stringcourse/i, command);
    }
    const known = commands.map(({ command }) => command);
    for (const [menu, entries] of Object.entries(menus))
      for (const { command } of entries) assert.ok(known.includes(command), `${command} in ${menu}`);
    const about = /registerCommand\(\s*'([^']+)',\s*about\(/g;
    for (const command of inCode(about)) {
      const entry = menus.commandPalette.find((one) => one.command === command);
      assert.match(entry?.when ?? '', /editorLangId == stringcourse/, command);
    }
  });
  it('leads only to commands and pictures that are there', () => {
    const { commands, viewsWelcome, walkthroughs } = manifest.contributes;
    const steps = walkthroughs.flatMap((one) => one.steps);
    const known = commands.map(({ command }) => command);
    const words = [...viewsWelcome.map(({ contents }) => contents), ...steps.map(({ description }) => description)];
    const led = words.flatMap((text) => [...text.matchAll(/\(command:(stringcourse\.\w+)/g)].map((found) => found[1]));
    assert.ok(led.length > 0);
    for (const command of led) assert.ok(known.includes(command), command);
    for (const { media } of steps) assert.ok(existsSync(media.image), media.image);
  });
  it('is not needed for the programs: each can be run by its name', () => {
    for (const name of ['cli/main', 'lsp/node'])
      assert.ok(readFileSync(`server/src/${name}.ts`, 'utf8').startsWith('#!/usr/bin/env node\n'), name);
  });
  it('offers the weight of every finding; npm run docs writes it', () => {
    const schema = severitySchema(rules);
    assert.deepEqual(manifest.contributes.configuration.properties[SEVERITY_SETTING], schema);
    assert.deepEqual((schema.additionalProperties as { readonly enum: unknown }).enum, WEIGHTS);
    assert.equal(SEVERITY_SETTING, `${SECTION}.severity`);
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
