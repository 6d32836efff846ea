// Begins a rule: `npm run new-rule -- CODE` writes its file with a lesson to mend, and its line in the registry.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

const code = process.argv[2];
const registry = 'server/src/rules/registry.ts';
const file = `server/src/rules/${code}.ts`;

function refuse(why) {
  console.error(why);
  process.exit(2);
}

if (!/^[a-z]+(-[a-z]+)+$/.test(code ?? ''))
  refuse('Name the offence in two words or more: npm run new-rule -- stretch-wide');
if (existsSync(file)) refuse(`${file} exists already.`);

writeFileSync(
  file,
  `/** One sentence on what this finding is about. */
import type { Rule } from './rule.ts';

export const rule: Rule = {
  code: '${code}',
  severity: 'warning',
  topic: 'words',
  title: 'What is wrong, in four words',
  why: 'Why a teacher would care, in a paragraph: what a student would hear or miss.',
  bad: \`lesson "A waltz"

progression quay
  G | C

section verse
  progression quay
\`,
  good: \`lesson "A waltz"

progression quay
  G | C

section verse
  progression quay
\`,
  *check({ lesson }) {
    for (const section of lesson.sections) {
      yield { span: section.span, message: 'What is wrong, why it matters, what to do: one short line.' };
    }
  },
};
`,
);

const [head, ...lines] = readFileSync(registry, 'utf8').trimEnd().split('\n');
lines.push(`export { rule as '${code}' } from './${code}.ts';`);
writeFileSync(registry, `${[head, ...lines.sort()].join('\n')}\n`);

console.log(`${file} is begun and registered. Next:
- write its check over Lesson and Score, or replace it by \`problem\` if syntax or lesson report the kind themselves;
- write the two lessons: bad has this finding and no other, good has none, and a fix makes the first clean;
- run \`npm run docs\`, which renews server/RULES.md, and \`npm test\`.`);
