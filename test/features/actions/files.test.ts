/** Parts that go into a file of their own, and parts that come from one. */
import assert from 'node:assert/strict';
import { analyze, Session, type Analysis } from '../../../server/src/analyze.ts';
import type { Action } from '../../../server/src/features/actions/action.ts';
import { actionsAt, carriedOut } from '../../../server/src/features/actions/registry.ts';
import { applyEdits } from '../../../server/src/util/edits.ts';
import { dedented } from '../../support/check-features.ts';

const PATH = 'week/monday.lesson';

/** A lesson with `<|>` in it among other files, and the actions of one kind there. */
function asked(marked: string, id: string, files: Record<string, string> = {}, path: string | undefined = PATH) {
  const whole = dedented(marked);
  const offset = whole.indexOf('<|>');
  const text = whole.replace('<|>', '');
  const location = path === undefined ? undefined : { path, files: { read: (one: string) => files[one] ?? null } };
  const analysis = analyze(text, new Session(), location);
  const [action] = actionsAt(analysis, { start: offset, end: offset }).filter((one) => one.id === id);
  return { analysis, text, action: action as Action | undefined };
}

/** What is played, string by string. */
const played = ({ score }: Analysis): readonly unknown[] =>
  score.sections.flatMap(({ bars }) => bars.flatMap(({ events }) => events.map(({ string, fret }) => [string, fret])));

const errors = ({ findings }: Analysis): readonly string[] =>
  findings.filter(({ severity }) => severity === 'error').map(({ message }) => message);

const LESSON = `
  lesson "Lamps"

  key G major

  ; Third, root and fifth.
  ; The open third rings.
  shape lamp ; on three strings
    strings 4 2 1
    tones 3 R 5
    open 3

  cell ripple
    each 1/8
    p4 i3 m2 i3 m2 i3 p4 i3

  progression quay
    G as lamp | D with ripple

  section verse
    progression quay
    cell ripple
`;

describe('a file of its own', () => {
  const moved = (marked: string, files: Record<string, string> = {}) => {
    const { analysis, text, action } = asked(marked, 'extract', files);
    assert.ok(action && action.disabled === undefined, action?.disabled);
    const { edits, newFile } = carriedOut(analysis, action, `${action.makesFile}.lesson`);
    const after = applyEdits(text, edits);
    const all = { ...files, [`week/${action.makesFile}.lesson`]: newFile! };
    const then = analyze(after, new Session(), { path: PATH, files: { read: (one) => all[one] ?? null } });
    assert.deepEqual(errors(then), []);
    assert.deepEqual(played(then), played(analysis));
    return { after, newFile };
  };

  it('takes a shape with its comments, and the lesson uses it', () => {
    const { after, newFile } = moved(LESSON.replace('shape lamp', 'shape la<|>mp'));
    assert.equal(
      newFile,
      '; Third, root and fifth.\n; The open third rings.\nshape lamp ; on three strings\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n',
    );
    assert.match(after, /key G major\n\nuse lamp from "lamp.lesson"\n\ncell ripple/);
  });
  it('is named below those that are there', () => {
    const files = { 'week/shapes.lesson': 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n' };
    const lesson = dedented(LESSON).replace(/; Third[^]*?open 3\n/, 'use lamp from "shapes.lesson"\n');
    const { after, newFile } = moved(lesson.replace('cell rip', 'cell <|>rip'), files);
    assert.equal(newFile, 'cell ripple\n  each 1/8\n  p4 i3 m2 i3 m2 i3 p4 i3\n');
    assert.match(after, /use lamp from "shapes.lesson"\nuse ripple from "ripple.lesson"\n\nprogression/);
  });
  it('takes along what it brings from elsewhere, and the tuning of frets', () => {
    const files = { 'week/shapes.lesson': 'shape lamp\n  strings 4 2 1\n  tones 3 R 5\n  open 3\n' };
    const { newFile } = moved(
      'use lamp from "shapes.lesson"\n\nprogression <|>quay\n  G as lamp | D as lamp\n\nsection s\n  progression quay\n',
      files,
    );
    assert.equal(newFile, 'use lamp from "shapes.lesson"\n\nprogression quay\n  G as lamp | D as lamp\n');
    const tune = moved('tuning dadgad\n\nmelody <|>tune on 1\n  each 1/4\n  0 2 4 0\n\nsection s\n  melody tune\n');
    assert.equal(tune.newFile, 'tuning dadgad\n\nmelody tune on 1\n  each 1/4\n  0 2 4 0\n');
  });
  it('is refused where it would lose what it speaks of, or the lesson has no folder', () => {
    const why = (marked: string, path?: string): string | undefined =>
      asked(marked, 'extract', {}, path)?.action?.disabled;
    assert.equal(
      why(LESSON.replace('progression quay', 'progression <|>quay'), PATH),
      'It speaks of shape lamp, which would stay here: move that first.',
    );
    const alone = analyze('shape lamp\n  strings 4 2 1\n');
    const [action] = actionsAt(alone, { start: 0, end: 0 }).filter(({ id }) => id === 'extract');
    assert.equal(action.disabled, 'Save the lesson first: the file is made beside it.');
  });
});

describe('a part of another file', () => {
  const PARTS = `; Shapes for the evening.

; Third, root and fifth.
shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3

cell ripple
  each 1/8
  p4 i3 m2 i3 m2 i3 p4 i3

progression quay
  G as lamp | D with ripple
`;
  const files = { 'parts.lesson': PARTS };
  const section = '\n\nsection verse\n  progression quay\n  cell ripple\n';
  const copied = (use: string, rest = section): string => {
    const { analysis, text, action } = asked(`${use}${rest}`, 'inline', files);
    assert.ok(action && action.disabled === undefined, action?.disabled);
    const after = applyEdits(text, carriedOut(analysis, action).edits);
    const then = analyze(after, new Session(), {
      path: PATH,
      files: { read: (one) => (files as Record<string, string>)[one] ?? null },
    });
    assert.deepEqual(errors(then), []);
    assert.deepEqual(played(then), played(analysis));
    return after;
  };
  const part = (name: string): string =>
    PARTS.split('\n\n')
      .find((one) => one.includes(name))!
      .trimEnd();

  it('takes the place of the line that brings it, with what it speaks of', () =>
    assert.equal(
      copied('use quay, ripple from <|>"../parts.lesson"'),
      `${part('shape lamp')}\n\n${part('cell ripple')}\n\n${part('progression quay')}${section}`,
    ));
  it('leaves the others of its line', () =>
    assert.equal(
      copied('use quay, rip<|>ple from "../parts.lesson"'),
      `use quay from "../parts.lesson"\n\n${part('cell ripple')}${section}`,
    ));
  it('of a whole file is what is used of it', () => {
    const { action } = asked(`use<|> "../parts.lesson"${section}`, 'inline', files);
    assert.equal(action?.title, 'Copy cell ripple and progression quay from ../parts.lesson here');
  });
  it('is refused where its names mean something else here', () => {
    const own = '\n\nshape lamp\n  strings 3 2 1\n  spacing close\n';
    const { action } = asked(`use quay<|> from "../parts.lesson"${own}${section}`, 'inline', files);
    assert.equal(action?.disabled, 'It speaks of shape lamp of its own file, and the lesson has another.');
  });
});
