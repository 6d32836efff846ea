/** Links to other files: the words that lead to one, the file, and what is said of it. */
import assert from 'node:assert/strict';
import { analyze, Session } from '../../server/src/analyze.ts';
import { linksOf } from '../../server/src/features/document-links.ts';

const FILES: Readonly<Record<string, string | null>> = {
  'parts/shapes.lesson': 'shape lamp\n  strings 4 2 1\nshape bell\n  strings 3 2 1\n',
  'week/first.lesson': 'lesson "First triads"\n  level 2\n',
  'week/second.lesson': 'lesson "Second"\n',
  'week/gone.lesson': null,
};

/** `words -> file: what is said of it` for each link of a lesson in the folder `week`. */
const links = (text: string, path: string | null = 'week/today.lesson'): readonly string[] => {
  const location = path === null ? undefined : { path, files: { read: (one: string) => FILES[one] } };
  return linksOf(analyze(text, new Session(), location)).map(
    ({ span, to, says }) => `${text.slice(span.start, span.end)} -> ${to}: ${says}`,
  );
};

describe('links', () => {
  it('lead from use, needs and the days of a course to their files, in the order of the text', () => {
    assert.deepEqual(
      links(
        [
          'lesson "Today"',
          '  needs "first.lesson", "second.lesson"',
          'use lamp from "../parts/shapes.lesson"',
          'course "A week"',
          '  day 1 "first.lesson"',
          '  day 2 "./second.lesson"',
        ].join('\n'),
      ),
      [
        'first.lesson -> week/first.lesson: First triads, level 2',
        'second.lesson -> week/second.lesson: Second',
        '../parts/shapes.lesson -> parts/shapes.lesson: lamp, bell',
        'first.lesson -> week/first.lesson: First triads, level 2',
        './second.lesson -> week/second.lesson: Second',
      ],
    );
  });

  it('do not lead to what is missing, has not come yet, or lies outside', () => {
    assert.deepEqual(links('use "gone.lesson"\nuse "unfetched.lesson"\nuse "../../other.lesson"\nuse 3\n'), []);
    assert.deepEqual(links('use "first.lesson"\n', null), []);
  });

  it('end with the line where a quote is not closed', () => {
    assert.deepEqual(links('use "first.lesson\n'), ['first.lesson -> week/first.lesson: ']);
  });
});
