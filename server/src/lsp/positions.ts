/** Columns of a line in the encoding that the client counts in, to UTF-16 units, in which we count, and back. */

export type Encoding = 'utf-8' | 'utf-16' | 'utf-32';

/** The client's first choice that we know; without any, what every client knows. */
export function chooseEncoding(offered: readonly string[] | undefined): Encoding {
  const known = offered?.find((one): one is Encoding => one === 'utf-8' || one === 'utf-16' || one === 'utf-32');
  return known ?? 'utf-16';
}

/** UTF-16 units before the client's column. Columns beyond the line are drawn in to its end, those inside a sign to its start. */
export function columnFrom(line: string, column: number, encoding: Encoding): number {
  if (!(column > 0)) return 0;
  if (encoding === 'utf-16') return Math.min(Math.floor(column), line.length);
  let counted = 0;
  let at = 0;
  while (at < line.length) {
    const width = widthAt(line, at, encoding);
    if (counted + width > column) break;
    counted += width;
    at += unitsAt(line, at);
  }
  return at;
}

/** The client's column for a place in UTF-16 units; places beyond the line are drawn in to its end. */
export function columnTo(line: string, units: number, encoding: Encoding): number {
  const end = Math.max(0, Math.min(units, line.length));
  if (encoding === 'utf-16') return end;
  let counted = 0;
  for (let at = 0; at < end; at += unitsAt(line, at)) counted += widthAt(line, at, encoding);
  return counted;
}

const unitsAt = (line: string, at: number): number => (line.codePointAt(at)! > 0xffff ? 2 : 1);

/** A half of a surrogate pair by itself is written as the replacement sign, of three bytes. */
function widthAt(line: string, at: number, encoding: Encoding): number {
  if (encoding === 'utf-32') return 1;
  const point = line.codePointAt(at)!;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}
