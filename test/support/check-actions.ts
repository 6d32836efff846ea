/** Actions as text: a lesson with `<|>` for the cursor goes in, what an editor would list or write comes out. */
import assert from 'node:assert/strict';
import { analyze, Session, type Analysis } from '../../server/src/analyze.ts';
import type { Action } from '../../server/src/features/actions/action.ts';
import { actionsAt, carriedOut } from '../../server/src/features/actions/registry.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { cursorIn, dedented } from './check-features.ts';

/** The actions of one id, or all whose id begins so. */
export function actionsIn(marked: string, id = ''): readonly Action[] {
  const { analysis, offset } = cursorIn(marked);
  return actionsAt(analysis, { start: offset, end: offset }).filter((one) => one.id.startsWith(id));
}

/** The titles, those that cannot be done with the reason behind ` -- `. */
export const actionLines = (marked: string, id = ''): readonly string[] =>
  actionsIn(marked, id).map(({ title, disabled }) => (disabled === undefined ? title : `${title} -- ${disabled}`));

/** The text after the only action of that id; the cursor is taken out. */
export function afterAction(marked: string, id: string): string {
  const { analysis, offset, text } = cursorIn(marked);
  return doneAt(analysis, text, offset, id);
}

export function doneAt(analysis: Analysis, text: string, offset: number, id: string): string {
  const listed = actionsAt(analysis, { start: offset, end: offset }).filter((one) => one.id.startsWith(id));
  const exact = listed.filter((one) => one.id === id);
  const found = exact.length > 0 ? exact : listed;
  assert.equal(found.length, 1, `one action ${id}: ${found.map((one) => one.id).join(', ') || 'none'}`);
  assert.equal(found[0].disabled, undefined);
  return applyEdits(text, carriedOut(analysis, found[0]).edits);
}

/** Only the lines that the action changes or adds, as they are after it. */
export function checkAction(marked: string, id: string, changed: string): void {
  const before = dedented(marked).replace('<|>', '').split('\n');
  const after = afterAction(marked, id).split('\n');
  const left = [...before];
  const shown = after.filter((line) => {
    const at = left.indexOf(line);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  assert.equal(dedented(shown.join('\n')).trimEnd(), dedented(changed).trimEnd());
}

/** The errors of a text, less those that a change of the music may bring by right. */
export function errorsOf(text: string, session = new Session()): readonly string[] {
  return analyze(text, session)
    .findings.filter(({ severity, code }) => severity === 'error' && code !== 'false-claim')
    .map(({ code, message }) => `${code}: ${message}`);
}
