// Writes server/RULES.md from the rules: run by `npm run docs`.
import { build } from 'esbuild';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const source = `
  import { analyze } from './server/src/analyze.ts';
  import { rules } from './server/src/rules/findings.ts';
  import { rulesPage } from './server/src/rules/page.ts';
  export const page = rulesPage(rules, (text, location) => analyze(text, undefined, location).findings);
`;

const folder = mkdtempSync(join(tmpdir(), 'stringcourse-'));
try {
  const outfile = join(folder, 'page.mjs');
  const stdin = { contents: source, resolveDir: process.cwd(), loader: 'ts' };
  await build({ stdin, outfile, bundle: true, format: 'esm', platform: 'node', target: 'node20', logLevel: 'warning' });
  const { page } = await import(pathToFileURL(outfile).href);
  writeFileSync('server/RULES.md', page);
} finally {
  rmSync(folder, { recursive: true });
}
