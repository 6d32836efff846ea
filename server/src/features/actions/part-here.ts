/** The part of this text that a place is about: where it is written, or where it is called for. */
import type { Definition, PartKind } from '../../lesson/lesson.ts';
import { covers } from '../../util/span.ts';
import type { Place } from '../place.ts';

/** Undefined for parts of other files, which are changed there. */
export function partHere<Part extends Definition>(
  { offset, name }: Place,
  kind: PartKind,
  parts: readonly Part[],
): Part | undefined {
  const own = parts.filter((part) => part.kind === kind && !part.from && !part.broken);
  const called = name?.kind === kind ? own.find((part) => part.name === name.name) : undefined;
  return called ?? own.find(({ whole }) => covers(whole, offset));
}
