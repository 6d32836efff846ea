/** Prose, and what is shown between it, as the lesson has them. */
import assert from 'node:assert/strict';
import { lessonOf } from '../support/describe-lesson.ts';
import type { Prose } from '../../server/src/lesson/prose.ts';

const MUSIC = 'progression quay\n  G | D | Em | C\nsection verse\n  progression quay\n';

const proseIn = (text: string): Prose =>
  lessonOf(text).passages.find((passage): passage is Prose => passage.kind !== 'show')!;
const markdownOf = (text: string): string => proseIn(text).prose.markdown;
const problemsIn = (text: string): readonly string[] =>
  lessonOf(text).problems.map(({ kind, span }) => `${kind} ${text.slice(span.start, span.end)}`);

/** `show verse 1-2 tab`, `text …`: what a reader meets from top to bottom. */
const passagesOf = (text: string): readonly string[] =>
  lessonOf(text).passages.map((passage) =>
    passage.kind === 'show'
      ? `show ${passage.section ?? '?'} ${passage.first ?? ''}-${passage.last ?? ''} ${passage.view}`
      : `${passage.kind} ${passage.prose.markdown}`,
  );

describe('prose', () => {
  it('stands with what is shown in the order of the text', () => {
    const text = `text\n  One.\nshow verse\n${MUSIC}note\n  Two.\nshow verse bars 2 to 3 as neck\nshow verse bar 4 as tab\n`;
    assert.deepEqual(passagesOf(text), ['text One.', 'show 0 - all', 'note Two.', 'show 0 2-3 neck', 'show 0 4-4 tab']);
  });
  it('loses the common indent and keeps the rest', () => {
    assert.equal(markdownOf('text\n    - one\n      - two\n\n    three\n'), '- one\n  - two\n\nthree');
    assert.equal(markdownOf('text\n\t- one\n\t\t- two\n'), '- one\n\t- two');
    assert.equal(markdownOf('text\r\n  one\r\n  two\r\n'), 'one\ntwo');
  });
  it('takes a comment in the first column for no prose, and any other semicolon for prose', () => {
    assert.equal(markdownOf('text\n  one\n; not this\n  two ; and this\n'), 'one\ntwo ; and this');
  });
  it('keeps a line that lost its indent', () => {
    assert.equal(markdownOf('text\n  one\nsecond line\n  three\n'), 'one\nsecond line\nthree');
  });
  it('may be empty', () => {
    assert.equal(markdownOf('text\n'), '');
    assert.deepEqual(lessonOf('text\n').problems, []);
  });
});

describe('braces in prose', () => {
  it('are facts, with their places in the text and in the prose', () => {
    const text = `${MUSIC}text\n  Über\n  Over { verse.1.chord } and {lesson.key}.\n`;
    const prose = proseIn(text);
    assert.deepEqual(
      prose.facts.map(({ path, span, pathSpan, start, end }) => [
        path,
        text.slice(span.start, span.end),
        text.slice(pathSpan.start, pathSpan.end),
        prose.prose.markdown.slice(start, end),
      ]),
      [
        ['verse.1.chord', '{ verse.1.chord }', 'verse.1.chord', '{ verse.1.chord }'],
        ['lesson.key', '{lesson.key}', 'lesson.key', '{lesson.key}'],
      ],
    );
  });
  it('are plain behind a backslash', () => {
    assert.deepEqual(
      proseIn('text\n  \\{plain} \\\\{lesson.key}\n').facts.map(({ path }) => path),
      ['lesson.key'],
    );
  });
  it('must be closed on their line', () => {
    assert.deepEqual(problemsIn('text\n  one {lesson.key\n  two} {lesson.{key}\n'), [
      'unclosed-brace {',
      'unclosed-brace {',
    ]);
  });
  it('name their section, so that it can be followed and renamed', () => {
    const text = `${MUSIC}text\n  {verse.1.chord}\n`;
    const uses = lessonOf(text).uses.filter(({ kind }) => kind === 'section');
    assert.deepEqual(
      uses.map(({ span, definition }) => [span.start, text.slice(span.start, span.end), definition?.name]),
      [[text.indexOf('{verse') + 1, 'verse', 'verse']],
    );
  });
});

describe('what is shown', () => {
  it('must be there', () => {
    assert.deepEqual(problemsIn(`${MUSIC}show vers\n`), ['unknown-name vers']);
    assert.deepEqual(problemsIn(`${MUSIC}show verse bars 3 to 9\n`), ['bars-outside-section 3 to 9']);
    assert.deepEqual(problemsIn(`${MUSIC}show verse bar 9\n`), ['bars-outside-section 9']);
  });
  it('is as much of it as there is', () => {
    assert.deepEqual(passagesOf(`${MUSIC}show verse bars 3 to 9\nshow verse bars 4 to 2\nshow verse bar 9\n`), [
      'show 0 3-4 all',
    ]);
  });
});
