/** Files renamed and moved: what lessons have to say instead. */
import assert from 'node:assert/strict';
import { carriedPaths, movedBy } from '../../server/src/features/file-renames.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { dedented } from '../support/check-features.ts';

const ROOT = 'file:///lessons/';

/** The lesson at `path`, as it must be written once the files have their new names. */
function after(path: string, lesson: string, renamed: Readonly<Record<string, string>>): string {
  const text = dedented(lesson);
  const moved = movedBy(Object.entries(renamed).map(([from, to]) => ({ from: ROOT + from, to: ROOT + to })));
  const edits = carriedPaths({ document: readDocument(text), root: ROOT, path }, moved);
  return [...edits].reverse().reduce((whole, { span, text: words }) => {
    return whole.slice(0, span.start) + words + whole.slice(span.end);
  }, text);
}

const LESSON = `
  lesson "Monday" ; with "parts.lesson" in a comment
    needs "../first/open.lesson", "sunday.lesson"
  use "../parts.lesson"
  use lamp, row from "../shared/more.lesson" ; shapes
  text
    See "../parts.lesson".
`;

describe('a renaming of files', () => {
  it('is carried into every line that speaks of them, and into nothing else', () => {
    assert.equal(
      after('week/monday.lesson', LESSON, {
        'parts.lesson': 'shapes.lesson',
        'week/sunday.lesson': 'first/sunday.lesson',
        'other.lesson': 'another.lesson',
      }),
      dedented(`
        lesson "Monday" ; with "parts.lesson" in a comment
          needs "../first/open.lesson", "../first/sunday.lesson"
        use "../shapes.lesson"
        use lamp, row from "../shared/more.lesson" ; shapes
        text
          See "../parts.lesson".
      `),
    );
  });

  it('is carried into the days of a course', () => {
    assert.equal(
      after(
        'course.lesson',
        `
          course "A week"
            starts 2030-01-07
            day 1 "week/monday.lesson"
            day 2 "week/tuesday.lesson"
        `,
        { 'week/tuesday.lesson': 'week/evening/tuesday.lesson' },
      ),
      dedented(`
        course "A week"
          starts 2030-01-07
          day 1 "week/monday.lesson"
          day 2 "week/evening/tuesday.lesson"
      `),
    );
  });

  it('of a lesson itself makes its own paths lead on to where they led', () => {
    assert.equal(
      after('week/monday.lesson', LESSON, { 'week/monday.lesson': 'monday.lesson' }),
      dedented(`
        lesson "Monday" ; with "parts.lesson" in a comment
          needs "first/open.lesson", "week/sunday.lesson"
        use "parts.lesson"
        use lamp, row from "shared/more.lesson" ; shapes
        text
          See "../parts.lesson".
      `),
    );
  });

  it('of a folder takes all that is in it along, and leaves alone what moves together', () => {
    assert.equal(
      after('week/monday.lesson', LESSON, { week: 'spring/week', shared: 'spring/shared' }),
      dedented(`
        lesson "Monday" ; with "parts.lesson" in a comment
          needs "../../first/open.lesson", "sunday.lesson"
        use "../../parts.lesson"
        use lamp, row from "../shared/more.lesson" ; shapes
        text
          See "../parts.lesson".
      `),
    );
    assert.equal(after('a.lesson', 'use "weekly.lesson"\n', { week: 'month' }), 'use "weekly.lesson"\n');
  });

  it('of two files that change places gives each the other’s name', () => {
    const both = { 'a.lesson': 'b.lesson', 'b.lesson': 'a.lesson' };
    assert.equal(after('c.lesson', 'use "a.lesson"\nuse "b.lesson"\n', both), 'use "b.lesson"\nuse "a.lesson"\n');
    assert.equal(after('a.lesson', 'use "b.lesson"\n', both), 'use "a.lesson"\n');
  });

  it('there and back changes nothing', () => {
    const there = after('week/monday.lesson', LESSON, { week: 'a/b' });
    assert.equal(after('a/b/monday.lesson', there, { 'a/b': 'week' }), dedented(LESSON));
  });

  it('keeps to the way in which a path was written', () => {
    assert.equal(after('a.lesson', 'use "./b.lesson"\n', { 'b.lesson': 'c/b.lesson' }), 'use "./c/b.lesson"\n');
    assert.equal(after('a.lesson', 'use "x/../b.lesson"\n', { 'c.lesson': 'd.lesson' }), 'use "x/../b.lesson"\n');
    assert.equal(after('a.lesson', 'use "b.lesson"\n', { 'b.lesson': 'the "b".lesson' }), 'use "the \\"b\\".lesson"\n');
  });

  it('leaves alone what leads out of the root, or is no path', () => {
    const broken = 'use "../out.lesson"\nuse "/b.lesson"\nuse\nuse "\n';
    assert.equal(after('a.lesson', broken, { 'b.lesson': 'c.lesson' }), broken);
  });

  it('knows no way to another kind of place', () => {
    const moved = movedBy([{ from: `${ROOT}b.lesson`, to: 'remote://there/b.lesson' }]);
    assert.deepEqual(
      carriedPaths({ document: readDocument('use "b.lesson"\n'), root: ROOT, path: 'a.lesson' }, moved),
      [],
    );
  });
});
