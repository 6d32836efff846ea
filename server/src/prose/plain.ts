/** Writes prose as plain text, for terminals and for files that are read as they are. */
import type { Token } from 'markdown-it';
import type { FilledProse } from './filled.ts';
import { attribute, isLessonPath, readMarkdown, wordsOf, type ReadProse } from './markdown.ts';

export interface TextOptions {
  /** In columns; what cannot be broken may be longer. */
  readonly width: number;
  /** How many columns a text takes. */
  readonly columns: (text: string) => number;
}

/** Less room than this is never given, however deep a list. */
const LEAST_ROOM = 16;
const RULE = '- - -';

/** Lines without blanks at their ends; no line end at the last. */
export function proseText(filled: FilledProse, options: TextOptions): string {
  const read = readMarkdown(filled);
  return new TextWriter(read, options).write(read.tokens);
}

/** Signs that would turn the direction of a terminal's line. */
const TURNING = /[\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

class TextWriter {
  private readonly lines: string[] = [];
  /** What stands before every line: of each open quotation and list item, the innermost last. */
  private readonly before: { first: string; readonly rest: string }[] = [];
  private readonly lists: { next: number | undefined }[] = [];
  private rows: string[][] = [];

  constructor(
    private readonly read: ReadProse,
    private readonly options: TextOptions,
  ) {}

  write(tokens: readonly Token[]): string {
    for (const token of tokens) this.block(token);
    return this.lines.join('\n');
  }

  private block(token: Token): void {
    switch (token.type) {
      case 'inline':
        this.inline(token);
        break;
      case 'paragraph_open':
        if (!token.hidden) this.apart();
        break;
      case 'heading_open':
      case 'table_open':
        this.apart();
        break;
      case 'code_block':
      case 'fence':
        this.apart();
        for (const line of this.filled(token.content).trimEnd().split('\n')) this.line(`    ${line}`);
        break;
      case 'hr':
        this.apart();
        this.line(RULE);
        break;
      case 'blockquote_open':
        this.apart();
        this.before.push({ first: '> ', rest: '> ' });
        break;
      case 'bullet_list_open':
        this.openList(undefined);
        break;
      case 'ordered_list_open':
        this.openList(Number(attribute(token, 'start') || 1));
        break;
      case 'bullet_list_close':
      case 'ordered_list_close':
        this.lists.pop();
        break;
      case 'list_item_open': {
        const list = this.lists[this.lists.length - 1];
        const mark = list?.next === undefined ? '- ' : `${list.next++}. `;
        this.before.push({ first: mark, rest: ' '.repeat(mark.length) });
        break;
      }
      case 'list_item_close':
      case 'blockquote_close':
        this.before.pop();
        break;
      case 'tr_open':
        this.rows.push([]);
        break;
      case 'table_close':
        this.table();
        break;
    }
  }

  private openList(next: number | undefined): void {
    if (this.lists.length === 0) this.apart();
    this.lists.push({ next });
  }

  /** An empty line before what comes, unless nothing stands above it, or it begins a list item. */
  private apart(): void {
    const begins = this.before.some(({ first, rest }) => first !== rest);
    if (begins || this.lines.length === 0 || this.lines[this.lines.length - 1] === '') return;
    this.lines.push(this.prefix('rest').trimEnd());
  }

  private prefix(which: 'first' | 'rest'): string {
    return this.before.map((one) => one[which]).join('');
  }

  private get room(): number {
    return Math.max(LEAST_ROOM, this.options.width - this.options.columns(this.prefix('rest')));
  }

  private line(text: string): void {
    this.lines.push((this.prefix('first') + text).trimEnd());
    // A mark stands before the first line of its item only.
    for (const one of this.before) one.first = one.rest;
  }

  private inline(token: Token): void {
    const words = this.words(token.children ?? []);
    const row = this.rows[this.rows.length - 1];
    if (row) row.push(words.replace(/\s+/g, ' '));
    else for (const paragraph of words.split('\n')) for (const line of this.wrapped(paragraph)) this.line(line);
  }

  private words(tokens: readonly Token[]): string {
    let words = '';
    const links: string[] = [];
    for (const token of tokens) {
      if (token.type === 'softbreak') words += ' ';
      else if (token.type === 'hardbreak') words += '\n';
      else if (token.type === 'image') words += this.filled(wordsOf(token.children ?? []));
      else if (token.type === 'link_open') links.push(attribute(token, 'href'));
      else if (token.type === 'link_close') {
        const address = links.pop() ?? '';
        if (!isLessonPath(address) && !words.endsWith(address)) words += ` (${address})`;
      } else words += this.filled(token.content);
    }
    return words;
  }

  private filled(content: string): string {
    const text = this.read.cut(content).map((cut) => cut.text);
    return text.join('').replace(TURNING, '\ufffd');
  }

  private wrapped(text: string): readonly string[] {
    const { columns } = this.options;
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(/[ \t]+/).filter((one) => one !== '')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (line !== '' && columns(longer) > this.room) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    return [...lines, line];
  }

  private table(): void {
    const { columns } = this.options;
    const count = Math.max(0, ...this.rows.map((row) => row.length));
    const widths = Array.from({ length: count }, (_, i) =>
      Math.max(0, ...this.rows.map((row) => columns(row[i] ?? ''))),
    );
    const { rows } = this;
    this.rows = [];
    for (const row of rows) {
      this.line(row.map((cell, i) => cell + ' '.repeat(Math.max(0, widths[i] - columns(cell)))).join('  '));
    }
  }
}
