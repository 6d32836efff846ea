/** Places that are written in together: a name that no other file can speak of, at the place where it is given. */
import type { Analysis } from '../analyze.ts';
import type { Span } from '../util/span.ts';
import { namedAt, occurrencesIn } from './occurrences.ts';
import { definitionsOf } from './place.ts';

/** What a name may be, for editors that end the writing together where it becomes something else. */
export const NAME_PATTERN = '[A-Za-z\\u00c0-\\uffff][A-Za-z0-9\\u00c0-\\uffff-]*';

/** Sections and variants are never shared: a part’s name may stand in files that are not open, and is renamed instead. */
const OF_THIS_FILE: readonly string[] = ['section', 'variant'];

/**
 * The places of the name that is given at the offset, that one among them. Undefined anywhere else, above all where a name is only
 * used: who writes there wants another one, not the same under another name.
 */
export function linkedAt(analysis: Analysis, offset: number): readonly Span[] | undefined {
  const found = namedAt(analysis, offset);
  if (!found || !OF_THIS_FILE.includes(found.named.kind)) return undefined;
  const { kind, name } = found.named;
  const places = occurrencesIn(analysis, found.named);
  const isGiven = places.some(({ span, gives }) => gives && span.start === found.span.start);
  // Of two with one name nobody knows whose the uses are.
  const namesakes = definitionsOf(analysis).filter((one) => one.kind === kind && one.name === name);
  return isGiven && places.length > 1 && namesakes.length === 1 ? places.map(({ span }) => span) : undefined;
}
