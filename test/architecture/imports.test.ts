import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { posix } from 'node:path';
import { codeOf, importsOf, sourcesIn, type Source } from '../support/sources.ts';

interface Layer {
  /** The other layers that it may import. */
  readonly layers: readonly string[];
  /** Packages, with the files that may import them where not all may. */
  readonly packages?: readonly { readonly name: RegExp; readonly only?: RegExp }[];
}

const PLAYED = ['util', 'theory', 'fretboard', 'hand', 'lesson', 'realise'];
const MUSIC = [...PLAYED, 'truth'];
const CORE = [...MUSIC, 'syntax', 'transpose', 'rules'];
const SHOWN = [...CORE, 'analyze', 'draw', 'prose', 'protocol'];

/** Who may import whom: the whole of the house in one table. */
const house: Readonly<Record<string, Layer>> = {
  util: { layers: [] },
  protocol: { layers: [] },
  theory: { layers: ['util'], packages: [{ name: /^tonal$/, only: /\/theory\/tonal\.ts$/ }] },
  fretboard: { layers: ['util', 'theory'] },
  hand: { layers: ['util', 'fretboard'] },
  sound: { layers: ['util'] },
  syntax: { layers: ['util'] },
  lesson: { layers: ['util', 'theory', 'fretboard', 'syntax'] },
  realise: { layers: ['util', 'theory', 'fretboard', 'hand', 'lesson'] },
  truth: { layers: PLAYED },
  transpose: { layers: ['util', 'theory', 'fretboard', 'syntax', 'lesson'] },
  rules: { layers: MUSIC },
  draw: { layers: MUSIC },
  prose: { layers: MUSIC, packages: [{ name: /^markdown-it$/ }] },
  export: { layers: [...MUSIC, 'draw', 'prose', 'sound'], packages: [{ name: /^midi-file$/ }] },
  analyze: { layers: CORE },
  features: { layers: SHOWN },
  lsp: {
    layers: [...SHOWN, 'features', 'export', 'sound'],
    packages: [{ name: /^vscode-languageserver/ }, { name: /^node:/, only: /\/lsp\/node\.ts$/ }],
  },
  cli: { layers: [...SHOWN, 'features', 'export', 'sound'], packages: [{ name: /^node:/ }] },
  client: { layers: ['protocol'], packages: [{ name: /^vscode(-languageclient(\/.*)?)?$/ }] },
  media: { layers: ['protocol', 'sound'] },
};

/** The layer of a source, by its path; undefined for what belongs to none. */
function layerOf(path: string): string | undefined {
  if (path.startsWith('client/media/')) return 'media';
  if (path.startsWith('client/src/')) return 'client';
  return /^server\/src\/([a-z]+)(?:\/|\.ts$)/.exec(path)?.[1];
}

/** What a source imports and must not, as `from -> to`. */
function trespasses(source: Source): readonly string[] {
  const own = layerOf(source.path);
  const layer = own === undefined ? undefined : house[own];
  if (!layer) return [`${source.path} belongs to no layer`];
  return importsOf(source).flatMap(({ from }) => {
    if (!from.startsWith('.')) {
      const known = layer.packages?.some(({ name, only }) => name.test(from) && (!only || only.test(source.path)));
      return known ? [] : [`${source.path} -> ${from}`];
    }
    const to = posix.join(posix.dirname(source.path), from);
    if (!existsSync(to)) return [`${source.path} -> ${from}, which is not there`];
    const other = layerOf(to);
    return other === own || (other !== undefined && layer.layers.includes(other)) ? [] : [`${source.path} -> ${to}`];
  });
}

const sources = sourcesIn('server/src', 'client');
const core = sources.filter(({ path }) => path.startsWith('server/src/') && !/^server\/src\/(lsp|cli)\//.test(path));

describe('layers', () => {
  it('import only what stands below them', () => assert.deepEqual(sources.flatMap(trespasses), []));
  it('are all layers of the table', () => {
    const found = new Set(sources.map(({ path }) => layerOf(path)));
    assert.deepEqual(
      [...found].filter((layer) => layer === undefined || !(layer in house)),
      [],
    );
    for (const { layers } of Object.values(house)) for (const layer of layers) assert.ok(layer in house, layer);
  });
  it('never meet in a circle', () => {
    const above = (layer: string, path: readonly string[]): void => {
      assert.ok(!path.includes(layer), [...path, layer].join(' -> '));
      for (const below of house[layer].layers) above(below, [...path, layer]);
    };
    for (const layer of Object.keys(house)) above(layer, []);
  });
  it('import with the ending of the file', () => {
    const bare = sources.flatMap((source) =>
      importsOf(source)
        .filter(({ from }) => from.startsWith('.') && !/\.(ts|json)$/.test(from))
        .map(({ from }) => `${source.path} -> ${from}`),
    );
    assert.deepEqual(bare, []);
  });
});

/** Clock, chance, console, machine and locale: each would make the same text mean something else elsewhere. */
const OUTSIDE: readonly RegExp[] = [
  /\bDate\b/,
  /\bMath\.random\b/,
  /\bconsole\b/,
  /\bprocess\b(?!\s*[:=])/,
  /\bperformance\b/,
  /\bset(Timeout|Interval)\b/,
  /\bfetch\b/,
  /\bglobalThis\b/,
  /\bIntl\b/,
  /\btoLocale\w+/,
  /\blocaleCompare\b/,
];

describe('the core', () => {
  it('knows no clock, no chance, no console, no machine and no locale', () => {
    const found = core.flatMap((source) =>
      OUTSIDE.flatMap((form) => {
        const word = form.exec(codeOf(source))?.[0];
        return word ? [`${source.path}: ${word}`] : [];
      }),
    );
    assert.deepEqual(found, []);
  });
});

describe('the scanner of imports', () => {
  const scan = (text: string): readonly string[] => importsOf({ path: 'x.ts', text }).map(({ from }) => from);
  it('finds every form of import', () => {
    assert.deepEqual(scan("import a from 'a';\nimport type { B } from 'b';\nimport 'c';\nexport * from 'd';"), [
      'a',
      'b',
      'd',
      'c',
    ]);
    assert.deepEqual(scan("const x = await import('e');\nexport {\n  f,\n} from 'f';\nrequire('g')"), ['f', 'e', 'g']);
    assert.deepEqual(scan('import { type T, x } from "h";'), ['h']);
  });
  it('finds none in comments, strings, templates and expressions', () => {
    assert.deepEqual(scan("// import 'a'\n/* import 'b' */\nconst s = \"import 'c'\";\nconst r = /import 'd'/;"), []);
    assert.deepEqual(scan("const t = `import 'a' ${x ? `from 'b'` : '}'} import 'c'`;\nimport 'd';"), ['d']);
  });
  it('keeps the code that stands in a template', () => {
    assert.match(codeOf({ path: 'x.ts', text: 'const t = `a ${Date.now()} b`;' }), /Date\.now/);
  });
});
