// Bundles what the editor and the terminal run into dist/; with --tests, compiles the tests into out/ instead.
import { build } from 'esbuild';
import { existsSync, readdirSync, rmSync } from 'node:fs';

/** tonal's parts declare no absence of side effects, so that even what nobody calls, a dictionary of chords, would be bundled and run. */
const unusedDropped = {
  name: 'unused-dropped',
  setup(building) {
    building.onResolve({ filter: /^@tonaljs\// }, async ({ path, pluginData, ...rest }) => {
      if (pluginData === 'resolved') return undefined;
      return { ...(await building.resolve(path, { ...rest, pluginData: 'resolved' })), sideEffects: false };
    });
  },
};

const minify = !process.argv.includes('--plain');

/** Every file below a folder whose name ends in `ending`. */
function filesBelow(folder, ending) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((name) => name.endsWith(ending))
    .sort();
}

async function bundle(options, entryPoints) {
  const present = Object.fromEntries(Object.entries(entryPoints).filter(([, file]) => existsSync(file)));
  if (Object.keys(present).length === 0) return;
  await build({
    bundle: true,
    minify,
    logLevel: 'warning',
    external: ['vscode'],
    entryPoints: present,
    outdir: 'dist',
    plugins: [unusedDropped],
    ...options,
  });
}

if (process.argv.includes('--tests')) {
  // Packages stay outside, modules are shared between test files, and source maps lead a failure back to the TypeScript line.
  rmSync('out', { recursive: true, force: true });
  await build({
    entryPoints: filesBelow('test', '.ts'),
    outbase: '.',
    outdir: 'out',
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    packages: 'external',
    external: ['vscode'],
    sourcemap: true,
    logLevel: 'warning',
  });
} else {
  rmSync('dist', { recursive: true, force: true });
  const node = {
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    outExtension: { '.js': '.cjs' },
    mainFields: ['module', 'main'],
  };
  // The audio thread's program travels inside the page's script, so that the page fetches nothing.
  const sound = await build({
    entryPoints: ['client/media/sound-processor.ts'],
    bundle: true,
    minify,
    write: false,
    logLevel: 'warning',
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
  });
  const define = { SOUND_PROCESSOR: JSON.stringify(sound.outputFiles[0].text) };
  const browser = { platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'] };
  await Promise.all([
    bundle(node, {
      extension: 'client/src/extension.ts',
      'stringcourse-server': 'server/src/lsp/node.ts',
      stringcourse: 'server/src/cli/main.ts',
    }),
    bundle({ ...browser, format: 'cjs' }, { browser: 'client/src/browser.ts' }),
    bundle(
      { ...browser, format: 'iife', define },
      { 'server-worker': 'server/src/lsp/browser.ts', preview: 'client/media/preview.ts' },
    ),
  ]);
}
