/** Compares a text with what the formatter made of it: anything that is said in one and not in the other. */
import { readDocument } from '../../server/src/syntax/document.ts';
import { isGroup, type Part } from '../../server/src/syntax/tree.ts';
import type { Problem } from '../../server/src/util/finding.ts';

/** What the two texts say differently, as pairs of lines; empty where the formatter kept everything. */
export function losses(before: string, after: string): string[] {
  const was = said(before);
  const is = said(after);
  const [slips, left] = [mended(before), mended(after)];
  if (left > slips) return [`${slips} slips that formatting mends -> ${left}`];
  const count = Math.max(was.length, is.length);
  return Array.from({ length: count }, (_, i) => [was[i] ?? '(nothing)', is[i] ?? '(nothing)'])
    .filter(([one, other]) => one !== other)
    .map(([one, other]) => `${one} -> ${other}`);
}

/** Everything that is said in a text, in its order: words by label, prose to the letter, comments, problems. */
function said(text: string): string[] {
  const { statements, problems } = readDocument(text);
  return [
    ...problems.map((problem) => `problem ${problem.kind}`),
    ...statements.flatMap(({ tree }) => [
      // What stands before the first statement is blank, but for its comments.
      ...(tree.keyword ? [`statement ${tree.keyword}`] : tree.head.broken ? [`unread ${letters(tree.text)}`] : []),
      ...(tree.keyword ? [tree.head, ...tree.body] : []).map(
        (line) => `${line.form} ${line.broken} ${shown(line.parts)}`,
      ),
      ...(tree.prose ? [`prose ${tree.text.slice(tree.prose.start, tree.prose.end)}`] : []),
      // Blanks at the end of a comment are nobody's words.
      ...tree.comments.map((comment) => `comment ${comment.alone} ${comment.text.trimEnd()}`),
      ...tree.problems
        .filter((problem) => !isMended(problem))
        .map((problem) => `problem ${problem.kind} ${JSON.stringify(problem.data)}`),
    ]),
  ];
}

/** Slips that formatting may put right: an indent that was lost, a keyword in capitals. */
const isMended = ({ kind, data }: Problem): boolean =>
  kind === 'line-not-indented' || (kind === 'misspelt-word' && data.found.toLowerCase() === data.right.toLowerCase());

const mended = (text: string): number =>
  readDocument(text).statements.reduce((sum, { tree }) => sum + tree.problems.filter(isMended).length, 0);

/** What nobody can read, without the blank lines and comments below it, which are the next statement's as much. */
function letters(text: string): string {
  const lines = text.split(/\r\n|\n|\r/);
  while (lines.length > 0 && /^(?:\s*|;.*)$/.test(lines[lines.length - 1])) lines.pop();
  return lines.join('\n');
}

/**
 * Accidentals and lists of frets in one spelling and a chord's modifiers in one order: the only words that the formatter may
 * change.
 */
function shown(parts: readonly Part[]): string {
  const texts = parts.map((part) =>
    isGroup(part) ? `${part.label}(${shown(part.parts)})` : `${part.label}=${plain(part.text, part.label)}`,
  );
  const modified = parts.length > 1 && parts[0].label === 'chord' && !isGroup(parts[0]);
  return (modified ? [texts[0], ...texts.slice(1).sort()] : texts).join(' ');
}

function plain(text: string, label: string): string {
  if (label === 'title') return text;
  // Only where every fret has one digit does a list mean the same without hyphens.
  if (label === 'frets' || label === 'fingers')
    return /^.(?:-.)+$/.test(text) ? text.toLowerCase().replaceAll('-', '') : text.toLowerCase();
  return text.replaceAll('♯', '#').replaceAll('♭', 'b');
}
