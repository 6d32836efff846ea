// Writes server/REFERENCE.md from the table of statements: run by `npm run docs`.
import { build } from 'esbuild';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = mkdtempSync(join(tmpdir(), 'stringcourse-'));
try {
  const outfile = join(folder, 'page.mjs');
  const stdin = {
    contents: `export { referencePage } from './server/src/syntax/reference.ts';`,
    resolveDir: process.cwd(),
    loader: 'ts',
  };
  await build({ stdin, outfile, bundle: true, format: 'esm', platform: 'node', target: 'node20', logLevel: 'warning' });
  const { referencePage } = await import(pathToFileURL(outfile).href);
  writeFileSync('server/REFERENCE.md', referencePage());
} finally {
  rmSync(folder, { recursive: true });
}
