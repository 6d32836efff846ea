/** Transposes texts for tests: a lesson in, the lesson in another key out. */
import assert from 'node:assert/strict';
import { Problems, Source } from '../../server/src/lesson/reader.ts';
import type { Settings } from '../../server/src/lesson/lesson.ts';
import { readSettings } from '../../server/src/lesson/settings.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { parseKey, type Key } from '../../server/src/theory/key.ts';
import { byCapo } from '../../server/src/transpose/by-capo.ts';
import { transposition, type Loss, type Transposition } from '../../server/src/transpose/transpose.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { dedented } from './check-features.ts';

const SETTINGS = ['tuning', 'capo', 'no', 'frets', 'scale-length', 'hand', 'key', 'meter', 'tempo', 'swing'];

export interface Transposed {
  readonly text: string;
  readonly losses: readonly Loss[];
}

/** What the lesson states of its instrument and key, without the rest of its meaning. */
export function statedSettings(text: string): Settings {
  const { report } = new Problems();
  const sources = readDocument(text).statements.map((placed) => new Source(placed, report));
  return readSettings(
    sources.filter(({ tree }) => SETTINGS.includes(tree.keyword ?? '')),
    undefined,
  ).settings;
}

/** Fails where edits leave the text, overlap or stand out of order. */
function carriedOut(text: string, { edits, losses }: Transposition): Transposed {
  let before = 0;
  for (const { span } of edits) {
    assert.ok(before <= span.start && span.start <= span.end && span.end <= text.length, JSON.stringify(span));
    before = span.end;
  }
  return { text: applyEdits(text, edits), losses };
}

export function transposed(text: string, to: Key | string): Transposed {
  const { key, instrument } = statedSettings(text);
  const target = typeof to === 'string' ? parseKey(to)! : to;
  return carriedOut(text, transposition(readDocument(text), key, target, instrument));
}

export function capoed(text: string, to: Key | string): Transposed {
  const { key, instrument } = statedSettings(text);
  const target = typeof to === 'string' ? parseKey(to)! : to;
  return carriedOut(text, byCapo(readDocument(text), key, target, instrument));
}

/** The lesson in that key, as text, with what was lost below it: `kind: the words it is about`. */
export function checkTransposed(lesson: string, to: string, expected: string, way = transposed): void {
  const text = dedented(lesson);
  const { text: moved, losses } = way(text, to);
  const told = losses.map(({ kind, span }) => `${kind}: ${text.slice(span.start, span.end).trim()}\n`);
  assert.equal(moved + told.join(''), dedented(expected));
}
