/** Keywords as they are offered: with the gaps of what belongs behind them, filled from the lesson at hand where it knows better. */
import type { Analysis } from '../analyze.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { lineSnippet, statementSnippet, type Fill } from '../syntax/snippets.ts';
import { PART_KINDS, type LineForm, type StatementForm } from '../syntax/statements.ts';
import type { Completion } from './completion.ts';
import { kindsFor } from './completion-names.ts';
import { definitionsOf } from './place.ts';

/** What may follow these is richer than one example: it is offered word by word instead. */
const WORD_BY_WORD: ReadonlySet<string> = new Set(['claim', 'show']);
const NAMED: ReadonlySet<string> = new Set([...PART_KINDS, 'section', 'variant']);
/** A student begins a step at this part of the tempo, in percent. */
const SLOW = 70;
const MOST_NAMES = 12;

/**
 * `bare` leaves out what belongs behind, where something stands there already. A keyword that one word follows is written alone
 * too: behind its blank the list of such words opens by itself.
 */
export function keywordItem(
  analysis: Analysis,
  form: StatementForm,
  line: LineForm | undefined,
  bare: boolean,
): Completion {
  const { keyword = '', says, example } = line ?? form;
  const plain: Completion = { label: keyword, kind: 'keyword', detail: says, example, insert: keyword, snippet: false };
  if (bare || WORD_BY_WORD.has(keyword)) return plain;
  const fill = fillFrom(analysis);
  const insert = line ? lineSnippet(form, line, fill) : statementSnippet(form, fill);
  if (insert === undefined || !saysMore(insert.slice(keyword.length))) return plain;
  return { ...plain, insert, snippet: true };
}

/** Whether a snippet writes more behind its keyword than one thing to choose. */
const saysMore = (rest: string): boolean => {
  const fixed = rest.replace(/\$\{\d+(?::(?:[^\\}]|\\.)*|\|(?:[^\\|]|\\.)*\|)\}/gs, '');
  return /[^\s,]/.test(fixed) || fixed.includes('\n');
};

function fillFrom(analysis: Analysis): Fill {
  const { lesson } = analysis;
  const { tempo, instrument } = lesson.settings;
  const definitions = definitionsOf(analysis);
  return ({ form, line, label, kind, example }) => {
    if (kind === 'string' && Number(example) > stringCount(instrument)) return [`${stringCount(instrument)}`];
    if (kind === 'tempo' && line?.label === 'step' && label !== 'by')
      return [`${label === 'to' ? tempo.perMinute : Math.round((tempo.perMinute * SLOW) / 100)}`];
    if (kind !== 'name') return undefined;
    const names = (kinds: readonly string[]): readonly string[] => [
      ...new Set(definitions.filter((one) => kinds.includes(one.kind)).map(({ name }) => name)),
    ];
    if (form.keyword === 'form') return lesson.sections.length > 0 ? [names(['section']).join(' ')] : undefined;
    if (!line && NAMED.has(form.keyword) && label === 'name') return [freeName(example, names([form.keyword]))];
    const fitting = names(kindsFor(label, form, line, undefined));
    if (fitting.length > 0) return fitting.slice(0, MOST_NAMES);
    return line ? 'without' : undefined;
  };
}

/** The example's name, or the first number behind it that makes it a new one. */
function freeName(example: string, taken: readonly string[]): string {
  let name = example;
  for (let number = 2; taken.includes(name); number++) name = `${example}-${number}`;
  return name;
}
