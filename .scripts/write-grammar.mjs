// Writes syntaxes/stringcourse.tmLanguage.json and syntaxes/snippets.json from the table of statements.
import { build } from 'esbuild';
import { writeFileSync } from 'node:fs';

const { outputFiles } = await build({
  stdin: {
    contents: `export { textmateGrammar } from './textmate.ts'; export { snippetsFile } from './snippets.ts';`,
    resolveDir: 'server/src/syntax',
  },
  bundle: true,
  format: 'esm',
  write: false,
  logLevel: 'warning',
});
const { textmateGrammar, snippetsFile } = await import(
  `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`
);

/** JSON with everything on one line that has room there, so that a changed rule is a changed line. */
function written(value, indent = '') {
  const short = JSON.stringify(value);
  if (typeof value !== 'object' || short.length + indent.length <= 110) return short;
  const inner = `${indent}  `;
  const items = Array.isArray(value)
    ? value.map((item) => inner + written(item, inner))
    : Object.entries(value).map(([key, item]) => `${inner}${JSON.stringify(key)}: ${written(item, inner)}`);
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  return `${open}\n${items.join(',\n')}\n${indent}${close}`;
}

// Through JSON once, so that what is undefined is left out.
const write = (file, value) => writeFileSync(file, `${written(JSON.parse(JSON.stringify(value)))}\n`);
write('syntaxes/stringcourse.tmLanguage.json', textmateGrammar());
write('syntaxes/snippets.json', snippetsFile());
