/** A text as the array of its lines, so that an edit costs the lines it touches and not the whole text. */
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { columnFrom, type Encoding } from './positions.ts';

interface Place {
  readonly line: number;
  readonly character: number;
}

/** One version of an open text. Never changed: an edit makes the next version. */
export class LineDocument {
  private joined: string | undefined;

  constructor(
    readonly uri: string,
    readonly version: number,
    /** With their ends; the last has none, and may be empty. */
    readonly lines: readonly string[],
  ) {}

  get text(): string {
    return (this.joined ??= this.lines.join(''));
  }
}

/** What the library's own collection of documents asks for; `encoding` is known once the client has introduced itself. */
export function lineDocuments(encoding: () => Encoding): {
  create(uri: string, languageId: string, version: number, content: string): LineDocument;
  update(document: LineDocument, changes: TextDocumentContentChangeEvent[], version: number): LineDocument;
} {
  return {
    create: (uri, _languageId, version, content) => new LineDocument(uri, version, linesOf(content)),
    update: (document, changes, version) => {
      let lines = document.lines;
      for (const change of changes) {
        if ('range' in change && change.range)
          lines = replaced(lines, change.range.start, change.range.end, change.text, encoding());
        else lines = linesOf(change.text);
      }
      return new LineDocument(document.uri, version, lines);
    },
  };
}

/** Cuts at LF, CRLF and lone CR, as the protocol counts lines. */
export function linesOf(text: string): string[] {
  const lines: string[] = [];
  let start = 0;
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    if (unit !== 10 && (unit !== 13 || text.charCodeAt(at + 1) === 10)) continue;
    lines.push(text.slice(start, at + 1));
    start = at + 1;
  }
  lines.push(text.slice(start));
  return lines;
}

/** Places outside the text are drawn in to it, and a range given backwards is read forwards. */
function replaced(lines: readonly string[], one: Place, other: Place, text: string, encoding: Encoding): string[] {
  const [from, to] = [drawnIn(lines, one, encoding), drawnIn(lines, other, encoding)];
  const forwards = from.line < to.line || (from.line === to.line && from.character <= to.character);
  const [start, end] = forwards ? [from, to] : [to, from];
  let first = start.line;
  let written = lines[first].slice(0, start.character) + text + lines[end.line].slice(end.character);
  // A line end that was a lone CR becomes CRLF where an LF now follows it.
  if (first > 0 && written.startsWith('\n') && lines[first - 1].endsWith('\r')) written = lines[--first] + written;
  const cut = linesOf(written);
  // What was cut ends in a line end, and so in an empty piece, unless it holds the last line.
  if (end.line + 1 < lines.length) cut.pop();
  return [...lines.slice(0, first), ...cut, ...lines.slice(end.line + 1)];
}

function drawnIn(lines: readonly string[], { line, character }: Place, encoding: Encoding): Place {
  if (line >= lines.length) return { line: lines.length - 1, character: lines[lines.length - 1].length };
  if (!(line > 0) && !(line === 0)) return { line: 0, character: 0 };
  const words = lines[line].replace(/[\r\n]+$/, '');
  return { line, character: columnFrom(words, character, encoding) };
}
