// Writes the setting for the weight of findings into package.json, from the rules: run by `npm run docs`.
import { build } from 'esbuild';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const source = `
  import { rules } from './server/src/rules/findings.ts';
  import { SEVERITY_SETTING, severitySchema } from './server/src/rules/setting.ts';
  export const name = SEVERITY_SETTING;
  export const schema = severitySchema(rules);
`;

const folder = mkdtempSync(join(tmpdir(), 'stringcourse-'));
try {
  const outfile = join(folder, 'setting.mjs');
  const stdin = { contents: source, resolveDir: process.cwd(), loader: 'ts' };
  await build({ stdin, outfile, bundle: true, format: 'esm', platform: 'node', target: 'node20', logLevel: 'warning' });
  const { name, schema } = await import(pathToFileURL(outfile).href);
  const manifest = JSON.parse(readFileSync('package.json', 'utf8'));
  manifest.contributes.configuration.properties[name] = schema;
  writeFileSync('package.json', `${JSON.stringify(manifest, null, 2)}\n`);
} finally {
  rmSync(folder, { recursive: true });
}
