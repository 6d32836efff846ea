/** Shows what the syntax read in a text as lines a teacher could check: each line's form, its words by label, its problems. */
import { readDocument } from '../../server/src/syntax/document.ts';
import { isGroup, type Line, type Part } from '../../server/src/syntax/tree.ts';
import { LineMap } from '../../server/src/util/line-map.ts';

/** `chord(chord=G at(fret=8)) |`: the words of a line that fill slots, in their order. */
export function showParts(parts: readonly Part[]): string {
  return parts
    .map((part) => {
      if (isGroup(part)) return `${part.label}(${showParts(part.parts)})`;
      if (part.label === 'bar-line') return '|';
      return part.label === part.text ? part.text : `${part.label}=${part.text}`;
    })
    .join(' ');
}

const showLine = (line: Line): string =>
  [line.form, showParts(line.parts), line.broken ? '(broken)' : ''].filter((one) => one !== '').join(' ');

/** Every statement by its keyword, its body lines under it by their form; then `prose:` and `comment:` lines. */
export function outline(text: string): string {
  const lines: string[] = [];
  for (const { tree } of readDocument(text).statements) {
    if (tree.keyword !== undefined) lines.push(showLine({ ...tree.head, form: tree.keyword }));
    else if (tree.head.broken) lines.push('(unread)');
    for (const line of tree.body) lines.push(`  ${showLine(line)}`);
    if (tree.prose) lines.push(`  prose: ${JSON.stringify(tree.text.slice(tree.prose.start, tree.prose.end))}`);
    for (const comment of tree.comments) lines.push(`  comment: ${comment.text}${comment.alone ? '' : ' (trailing)'}`);
  }
  return lines.join('\n');
}

/** `2:3 misspelt-word "tempoo" (right: tempo)` for every problem, in the order of the text; places count from 1. */
export function problemsOf(text: string): string[] {
  const map = new LineMap(text);
  const { statements, problems } = readDocument(text);
  const placed = [
    ...problems.map((problem) => ({ problem, start: 0 })),
    ...statements.flatMap(({ tree, start }) => tree.problems.map((problem) => ({ problem, start }))),
  ];
  return placed
    .map(({ problem, start }) => ({
      ...problem,
      from: problem.span.start + start,
      to: problem.span.end + start,
    }))
    .sort((a, b) => a.from - b.from)
    .map(({ kind, from, to, data }) => {
      const { line, character } = map.positionAt(from);
      const said = Object.entries(data)
        .filter(([name, value]) => value !== '' && name !== 'found' && name !== 'expected')
        .map(([name, value]) => `${name}: ${value}`)
        .join(', ');
      return `${line + 1}:${character + 1} ${kind} ${JSON.stringify(text.slice(from, to))}${said ? ` (${said})` : ''}`;
    });
}

/** Takes the common indent off a text written between backquotes, and its first empty line. */
export function lesson(parts: TemplateStringsArray, ...values: readonly unknown[]): string {
  const text = String.raw({ raw: parts.raw }, ...values).replace(/^\n/, '');
  const indents = text.split('\n').filter((line) => line.trim() !== '');
  const indent = Math.min(...indents.map((line) => line.length - line.trimStart().length));
  return text
    .split('\n')
    .map((line) => line.slice(indent))
    .join('\n')
    .trimEnd()
    .concat('\n');
}
