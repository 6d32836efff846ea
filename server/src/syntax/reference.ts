/** The reference of the language as one page, from the table of statements. Knows nothing of any editor. */
import { lineSignatures, signaturesOf } from './signature.ts';
import { slotKinds, type SlotForm, type SlotKind } from './slots.ts';
import { slotsOf } from './patterns.ts';
import { LANGUAGE_NOTES, STATEMENT_NOTES } from './statement-notes.ts';
import { statements, type LineForm, type StatementForm } from './statements.ts';

/** The whole page, as Markdown. */
export function referencePage(): string {
  const contents = statements.map(({ keyword }) => `[${keyword}](#${keyword})`).join(' · ');
  return `${[
    '# The language of lessons',
    'This page is written by `npm run docs` from the table that the language is read by. Every example of it is tried out by a test.',
    ...LANGUAGE_NOTES,
    `Statements: ${contents}`,
    ...statements.flatMap(statementPart),
  ].join('\n\n')}\n`;
}

function statementPart(form: StatementForm): readonly string[] {
  return [
    `## ${form.keyword}`,
    form.says,
    fenced('', signaturesOf(form)),
    ...(STATEMENT_NOTES[form.keyword] ?? []),
    ...(form.body.length > 0 ? ['Lines of its body:', form.body.map(linePart).join('\n')] : []),
    ...standsFor(form),
    'Example:',
    fenced('lesson', form.example.split('\n')),
  ];
}

const linePart = (line: LineForm): string =>
  `- ${lineSignatures(line).map(code).join(' or ')}: ${line.says} ${code(line.example)}`;

/** What the words in capitals stand for, those of one kind together. */
function standsFor({ head, body }: StatementForm): readonly string[] {
  const labels = new Map<SlotKind, Set<string>>();
  for (const { label, kind } of [head, ...body.map(({ pattern }) => pattern)].flatMap(slotsOf)) {
    labels.set(kind, (labels.get(kind) ?? new Set()).add(label.toUpperCase()));
  }
  const said = [...labels].map(([kind, words]) => {
    const { says, example }: SlotForm = slotKinds[kind];
    return `${[...words].join(', ')}: ${says}, ${code(example)}`;
  });
  return said.length === 0 ? [] : [`Here stands for ${said.join('; ')}.`];
}

/** A code span may hold back quotes where it has more of them around it. */
const code = (text: string): string => (text.includes('`') ? `\`\` ${text} \`\`` : `\`${text}\``);

const fenced = (language: string, lines: readonly string[]): string => ['```' + language, ...lines, '```'].join('\n');
