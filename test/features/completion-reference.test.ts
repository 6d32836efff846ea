/** Behind every word of every example of the language, what comes next is offered, or it is the author's own to say. */
import assert from 'node:assert/strict';
import { Session } from '../../server/src/analyze.ts';
import { completionsAt, type Completion } from '../../server/src/features/completion.ts';
import { match, slotsOf } from '../../server/src/syntax/patterns.ts';
import type { SlotKind } from '../../server/src/syntax/slots.ts';
import { statements, type LineForm, type StatementForm } from '../../server/src/syntax/statements.ts';
import { isGroup, type Leaf, type Part } from '../../server/src/syntax/tree.ts';
import { cutWords } from '../../server/src/syntax/words.ts';
import { analyzeBeside, statementWith, textWith } from '../support/example-lesson.ts';

/** Titles, paths, days of a calendar, syllables and notes: nobody but the author knows them. */
const FREE: ReadonlySet<SlotKind> = new Set(['title', 'path', 'date', 'syllable']);
const GIVES_A_NAME: ReadonlySet<string> = new Set([
  'shape',
  'progression',
  'cell',
  'contour',
  'melody',
  'tab',
  'section',
  'variant',
]);

const isFree = (form: StatementForm, line: LineForm | undefined, label: string, kind: SlotKind): boolean =>
  FREE.has(kind) ||
  (kind === 'name' && !line && GIVES_A_NAME.has(form.keyword)) ||
  // Parts of another file are known once its path is written, which stands behind them.
  form.keyword === 'use' ||
  // A fingering is for the author to know, and so are the strings of a tuning of their own.
  label === 'fingers';

const leavesOf = (parts: readonly Part[]): readonly Leaf[] =>
  parts.flatMap((part) => (isGroup(part) ? leavesOf(part.parts) : [part]));

const session = new Session();

function offered(text: string): readonly Completion[] {
  return completionsAt(analyzeBeside(text, session), text.length)?.items ?? [];
}

/** `before` is the lesson up to the line. */
function check(form: StatementForm, line: LineForm | undefined, before: string, example: string): void {
  const indent = /^\s*/.exec(example)![0];
  const { words } = cutWords(example, 0);
  const pattern = line?.pattern ?? form.head;
  const from = (line ? line.keyword : form.keyword) === undefined ? 0 : 1;
  const leaves = leavesOf(match(pattern, words, from).parts);
  const kinds = new Map(slotsOf(pattern).map(({ label, kind }) => [label, kind]));
  words.forEach(({ kind: wordKind, text, start }, i) => {
    const leaf = leaves.find((one) => one.start === start);
    const kind = i < from ? undefined : kinds.get(leaf?.label ?? '');
    if (kind && isFree(form, line, leaf!.label, kind)) return;
    if (wordKind !== 'word' || text === ')') return;
    // Signs are typed faster than they are chosen, and a triplet is music.
    if (!kind && (!/^[\p{L}.-]+$/u.test(text) || text === 'triplet(')) return;
    const items = offered(before + (start === indent.length && i === 0 ? indent : example.slice(0, start)));
    const said = `${example.slice(0, start)}<|>${example.slice(start)}`;
    const labels = items.map(({ label }) => label);
    if (!kind)
      assert.ok(
        labels.some((label) => `${label} `.startsWith(`${text} `)),
        `${said}: ${labels.join(', ')}`,
      );
    else {
      const others = items.filter((item) => item.kind !== 'keyword');
      assert.ok(others.length > 0, `${said}: ${kind} in ${labels.join(', ')}`);
      if (kind === 'name') assert.ok(others.some((item) => item.kind === 'name') || form.keyword === 'claim', said);
      if (kind === 'chord') assert.ok(others.some((item) => item.kind === 'chord') || form.keyword === 'claim', said);
    }
  });
}

describe('completion behind every word of the reference', function () {
  this.timeout(60_000);
  for (const form of statements) {
    it(form.keyword, () => {
      const [head] = form.example.split('\n');
      const before = textWith(form.example).slice(0, -form.example.length - 1);
      check(form, undefined, before, head);
      for (const line of form.body) {
        const whole = textWith(statementWith(form, line, line.example));
        const at = whole.lastIndexOf(`\n  ${line.example}\n`) + 1;
        assert.ok(at > 0, line.example);
        check(form, line, whole.slice(0, at), `  ${line.example}`);
      }
    });
  }
});
