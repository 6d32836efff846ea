/** Renaming there and back changes nothing, whatever the lesson. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { analyze, Session } from '../../server/src/analyze.ts';
import { namedAt, occurrencesIn } from '../../server/src/features/occurrences.ts';
import { definitionsOf } from '../../server/src/features/place.ts';
import type { Edit } from '../../server/src/util/finding.ts';

const session = new Session();

const applied = (text: string, edits: readonly Edit[]): string =>
  [...edits]
    .reverse()
    .reduce((all, { span, text: words }) => all.slice(0, span.start) + words + all.slice(span.end), text);

/** What could not be read or found; the findings that follow from the music are the same where this is. */
const problemsOf = (text: string): readonly string[] => analyze(text, session).lesson.problems.map(({ kind }) => kind);

/** The text with the name at an offset changed, and where the name stands then. */
function renamed(text: string, offset: number, name: string): string {
  const analysis = analyze(text, session);
  const found = namedAt(analysis, offset);
  assert.ok(found, `there is a name at ${offset}`);
  return applied(
    text,
    occurrencesIn(analysis, found.named).map(({ span }) => ({ span, text: name })),
  );
}

describe('renaming', () => {
  for (const file of readdirSync('samples').filter((name) => name.endsWith('.lesson'))) {
    it(`there and back changes nothing in ${file}, and loses no meaning on the way`, () => {
      const text = readFileSync(`samples/${file}`, 'utf8');
      const before = analyze(text, session);
      for (const { kind, name, span } of definitionsOf(before)) {
        if (kind === 'grip') continue;
        const other = renamed(text, span.start, 'zebra');
        assert.deepEqual(problemsOf(other), problemsOf(text), `${kind} ${name}`);
        assert.equal(renamed(other, other.indexOf('zebra'), name), text, `${kind} ${name}`);
      }
    });
  }
});
