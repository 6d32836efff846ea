/** Offsets to lines and columns and back, for one text. Lines end at LF, CRLF or a lone CR, as the protocol counts them. */
export interface Position {
  /** From 0. */
  readonly line: number;
  /** From 0, in UTF-16 units. */
  readonly character: number;
}

export class LineMap {
  readonly starts: readonly number[];

  constructor(readonly text: string) {
    const starts = [0];
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (code === 10 || (code === 13 && text.charCodeAt(i + 1) !== 10)) starts.push(i + 1);
    }
    this.starts = starts;
  }

  get lineCount(): number {
    return this.starts.length;
  }

  /** The line, from 0, on which `offset` lies; offsets outside the text are drawn in to its ends. */
  lineAt(offset: number): number {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle] <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  positionAt(offset: number): Position {
    const drawnIn = Math.max(0, Math.min(offset, this.text.length));
    const line = this.lineAt(drawnIn);
    return { line, character: drawnIn - this.starts[line] };
  }

  /** The text of a line without its line end; empty for a line that does not exist. */
  line(line: number): string {
    if (line < 0 || line >= this.starts.length) return '';
    const end = line + 1 < this.starts.length ? this.starts[line + 1] : this.text.length;
    return this.text.slice(this.starts[line], end).replace(/\r?\n$|\r$/, '');
  }

  offsetAt(position: Position): number {
    if (position.line < 0) return 0;
    if (position.line >= this.starts.length) return this.text.length;
    const start = this.starts[position.line];
    return start + Math.max(0, Math.min(position.character, this.line(position.line).length));
  }
}
