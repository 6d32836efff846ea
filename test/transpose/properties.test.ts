/** What must hold of every lesson in every key. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { Problems, Source } from '../../server/src/lesson/reader.ts';
import { readSettings } from '../../server/src/lesson/settings.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { keyOf, type Key } from '../../server/src/theory/key.ts';
import { parseNoteName } from '../../server/src/theory/note.ts';
import { transposition, type LossKind } from '../../server/src/transpose/transpose.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { generateLesson } from '../support/generate-lesson.ts';

const seeds = fc.integer({ min: 0, max: 0x7fff_ffff });
const TONICS = ['C', 'C#', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B', 'Cb'];
const tonics = fc.constantFrom(...TONICS);

interface Moved {
  readonly text: string;
  readonly losses: readonly LossKind[];
}

const SETTINGS = ['tuning', 'capo', 'no', 'frets', 'scale-length', 'hand', 'key', 'meter', 'tempo', 'swing'];

/** The settings alone: what a lesson means as a whole is not asked here. */
function settingsOf(text: string) {
  const { report } = new Problems();
  const sources = readDocument(text).statements.map((placed) => new Source(placed, report));
  return readSettings(
    sources.filter(({ tree }) => SETTINGS.includes(tree.keyword ?? '')),
    undefined,
  ).settings;
}

function moved(text: string, to: Key): Moved {
  const { key, instrument } = settingsOf(text);
  const { edits, losses } = transposition(readDocument(text), key, to, instrument);
  return { text: applyEdits(text, edits), losses: losses.map(({ kind }) => kind) };
}

/** Fret lists in one spelling: with hyphens or without they are the same frets. */
const withoutHyphens = (text: string): string =>
  text.replace(/\b(?:[x\d]{1,2}-){2,}[x\d]{1,2}\b/g, (list) =>
    list.split('-').every((fret) => fret.length === 1) ? list.replaceAll('-', '') : list,
  );

/** What cannot be found again on the way back. */
const LOST: readonly LossKind[] = ['neck', 'spelling', 'fingers'];

describe('a lesson in another key', function () {
  this.timeout(120_000);

  it('is the same text again on the way back, where nothing was said to be lost', () => {
    let returned = 0;
    fc.assert(
      fc.property(seeds, tonics, (seed, tonic) => {
        const text = formatText(generateLesson(seed));
        const { key } = settingsOf(text);
        const there = moved(text, keyOf(parseNoteName(tonic)!, key.mode)!);
        const back = moved(there.text, key);
        if ([...there.losses, ...back.losses].some((kind) => LOST.includes(kind))) return;
        returned++;
        assert.equal(withoutHyphens(formatText(back.text)), withoutHyphens(text));
      }),
      { numRuns: 400 },
    );
    assert.ok(returned > 250, `${returned}`);
  });
});
