/** Semantic tokens as the protocol packs them, five numbers a token, and what changed between two such rows. */
import type { SemanticTokensEdit, SemanticTokensLegend } from 'vscode-languageserver';
import { TOKEN_MODIFIERS, type SemanticToken } from '../features/semantic-tokens.ts';
import { TOKEN_TYPES } from '../features/semantic-words.ts';
import type { LineMap } from '../util/line-map.ts';
import { columnTo, type Encoding } from './positions.ts';

export const LEGEND: SemanticTokensLegend = { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] };

/** Numbers that tell of one token: lines and columns since the one before, length, type, modifiers. */
const PER_TOKEN = 5;

/** `tokens` are in the order of the text, each within one line. */
export function packed(tokens: readonly SemanticToken[], lines: LineMap, encoding: Encoding): number[] {
  const data: number[] = [];
  let line = 0;
  let [lineBefore, columnBefore] = [0, 0];
  for (const { start, end, type, modifier } of tokens) {
    while (line + 1 < lines.lineCount && lines.starts[line + 1] <= start) line++;
    const [column, columnBehind] = columnsOf(lines, line, start, end, encoding);
    const since = line === lineBefore ? column - columnBefore : column;
    const modifiers = modifier ? 1 << TOKEN_MODIFIERS.indexOf(modifier) : 0;
    data.push(line - lineBefore, since, columnBehind - column, TOKEN_TYPES.indexOf(type), modifiers);
    [lineBefore, columnBefore] = [line, column];
  }
  return data;
}

function columnsOf(lines: LineMap, line: number, start: number, end: number, encoding: Encoding): [number, number] {
  const [from, to] = [start - lines.starts[line], end - lines.starts[line]];
  if (encoding === 'utf-16') return [from, to];
  const text = lines.line(line);
  return [columnTo(text, from, encoding), columnTo(text, to, encoding)];
}

/** What makes `before` into `after`: the tokens between their common beginning and their common end. None where they are equal. */
export function editsBetween(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  if (start === before.length && start === after.length) return [];
  start -= start % PER_TOKEN;
  let end = 0;
  while (end < shorter - start && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  end -= end % PER_TOKEN;
  const data = after.slice(start, after.length - end);
  return [{ start, deleteCount: before.length - end - start, ...(data.length > 0 && { data }) }];
}

/** A lesson’s tokens as they were last sent, and the id under which the client knows them. */
interface Sent {
  readonly id: string;
  readonly data: readonly number[];
}

/** What was sent last of each lesson that is open, so that the next time only the difference is. */
export class SentTokens {
  private readonly sent = new Map<string, Sent>();
  private count = 0;

  /** Notes what is sent now. `isOpen` tells of which lessons it is still worth keeping. */
  keep(uri: string, data: readonly number[], isOpen: (uri: string) => boolean): string {
    for (const other of this.sent.keys()) if (!isOpen(other)) this.sent.delete(other);
    const id = `${++this.count}`;
    this.sent.set(uri, { id, data });
    return id;
  }

  /** What the client has under that id; undefined where it is not the last that it was sent. */
  known(uri: string, id: string): readonly number[] | undefined {
    const last = this.sent.get(uri);
    return last?.id === id ? last.data : undefined;
  }
}
