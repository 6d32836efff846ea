/** A short page of words, tables and figures, as a hover shows it: made once, written as Markdown or as plain text. */

export interface Piece {
  readonly text: string;
  readonly as?: 'strong' | 'code';
}

export type Words = string | Piece;

export type Block =
  | { readonly kind: 'line'; readonly pieces: readonly Piece[] }
  | { readonly kind: 'table'; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] }
  /** Lines that keep their columns: a diagram, an example of the language. */
  | { readonly kind: 'figure'; readonly text: string };

export const strong = (text: string): Piece => ({ text, as: 'strong' });
export const code = (text: string): Piece => ({ text, as: 'code' });
export const line = (...words: readonly Words[]): Block => ({
  kind: 'line',
  pieces: words.map((one) => (typeof one === 'string' ? { text: one } : one)),
});
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): Block => ({
  kind: 'table',
  head,
  rows,
});
export const figure = (text: string): Block => ({ kind: 'figure', text });

/** All text is escaped, ours and the lesson's: nothing in it becomes a link, an image, markup or a second column. */
export const markdownOf = (blocks: readonly Block[]): string => blocks.map(markdownBlock).join('\n\n');

/** The same for clients that show text as it is. */
export const plainOf = (blocks: readonly Block[]): string => blocks.map(plainBlock).join('\n\n');

function markdownBlock(block: Block): string {
  switch (block.kind) {
    case 'line':
      return escapedStart(block.pieces.map(markdownPiece).join(''));
    case 'figure': {
      const fence = longerFence(block.text, '```');
      return `${fence}\n${withoutControls(block.text, true)}\n${fence}`;
    }
    case 'table': {
      const row = (cells: readonly string[]): string => `| ${cells.map(escaped).join(' | ')} |`;
      return [row(block.head), `|${' --- |'.repeat(block.head.length)}`, ...block.rows.map(row)].join('\n');
    }
  }
}

function markdownPiece({ text, as }: Piece): string {
  if (text === '') return '';
  if (as === 'strong') return `**${escaped(text)}**`;
  if (as !== 'code') return escaped(text);
  const inner = withoutControls(text);
  const fence = longerFence(inner, '`');
  const room = inner.startsWith('`') || inner.endsWith('`') ? ' ' : '';
  return fence + room + inner + room + fence;
}

/** A fence that the text cannot close. */
function longerFence(text: string, fence: string): string {
  let longest = 0;
  for (const [run] of text.matchAll(/`+/g)) longest = Math.max(longest, run.length);
  return '`'.repeat(Math.max(fence.length, longest + 1));
}

/** Signs that Markdown reads anywhere in a line; and what would become a link by itself: `http://`, `www.`, `a@b`. */
const escaped = (text: string): string =>
  withoutControls(text)
    .replace(/[\\`*_[\]<>&|~@]/g, '\\$&')
    .replace(/:(?=\/)/g, '\\:')
    .replace(/\b(www|mailto|xmpp)(?=[.:])/gi, '$1\\');

/** Signs that Markdown reads at the start of a line only: headings, lists, rules. */
const escapedStart = (markdown: string): string => markdown.replace(/^(\s*)(\d*)(?=[#+\-=.)])/, '$1$2\\');

/** Line ends and what no reader sees, among it the signs that turn the direction of writing. */
// oxlint-disable-next-line no-control-regex -- control characters are what is looked for
const UNSEEN = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g;

const withoutControls = (text: string, keepsLines = false): string =>
  (keepsLines ? text : text.replace(/\n/g, ' ')).replace(UNSEEN, ' ');

function plainBlock(block: Block): string {
  switch (block.kind) {
    case 'line':
      return withoutControls(block.pieces.map((piece) => piece.text).join(''));
    case 'figure':
      return withoutControls(block.text, true);
    case 'table': {
      const rows = [block.head, ...block.rows].map((row) => row.map((cell) => withoutControls(cell)));
      const widths = block.head.map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
      return rows
        .map((row) =>
          row
            .map((cell, i) => cell.padEnd(widths[i]))
            .join('  ')
            .trimEnd(),
        )
        .join('\n');
    }
  }
}
