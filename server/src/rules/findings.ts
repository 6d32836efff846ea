/** Everything there is to say about a lesson: the problems put into words and the checks run, sorted, without doubles, capped. */
import type { VariantDefinition } from '../lesson/variants.ts';
import type { Finding, Problem, Severity } from '../util/finding.ts';
import type { Span } from '../util/span.ts';
import * as registry from './registry.ts';
import type { Context, Findable, Found, Rule, Topic } from './rule.ts';
import { chordsOf } from './shared/chords.ts';
import { variantFindings, type JudgedVariant } from './shared/variants.ts';

/** Beyond this a list of findings is no help any more. */
export const MOST_FINDINGS = 500;
/** So many of the related places of one finding are kept. */
const MOST_RELATED = 12;

/** Every rule, sorted by code. */
export const rules: readonly Rule[] = Object.values(registry).sort((a, b) => (a.code < b.code ? -1 : 1));

const byCode: ReadonlyMap<string, Rule> = new Map(rules.map((rule) => [rule.code, rule]));

/** The rule of that code; undefined where there is none. */
export const ruleNamed = (code: string): Rule | undefined => byCode.get(code);

/** Every finding of a lesson itself, in the order of the text. At most `MOST_FINDINGS`, and then one that says so. */
export const findingsOf = (source: Findable): readonly Finding[] =>
  capped(withoutDoubles([...found(source, ownRules)].sort(inOrder)), source.text);

/** With those of its variants that it does not have itself, and what is to be said of the variants as such; `own` are its own. */
export function findingsWithVariants(
  own: readonly Finding[],
  source: Findable,
  variants: readonly JudgedVariant[],
): readonly Finding[] {
  if (variants.length === 0 || own.length > MOST_FINDINGS) return own;
  const about = checked({ ...source, codes: [], chords: [], variants }, variantRules);
  const all = [...own, ...about, ...variantFindings(own, variants)];
  return capped(withoutDoubles(all.sort(inOrder)), source.text);
}

/** What is found in the lesson that a variant makes, as if it were the lesson; what speaks of the text as a whole is left out. */
export const findingsOfVariant = (source: Findable, { practises }: VariantDefinition): readonly Finding[] =>
  withoutDoubles([...found(source, practises ? [...musicRules, ...practiceRules] : musicRules)].sort(inOrder)).slice(
    0,
    MOST_FINDINGS,
  );

const variantRules = rules.filter((rule) => rule.speaksOf === 'variants');
const ownRules = rules.filter((rule) => rule.speaksOf !== 'variants');
const musicRules = rules.filter((rule) => rule.speaksOf === undefined);
const practiceRules = rules.filter((rule) => rule.speaksOf === 'practice');

function found(source: Findable, asked: readonly Rule[]): readonly Finding[] {
  const { text, lesson } = source;
  const problems = lesson.problems.flatMap((problem) => worded(problem, text));
  const context = { ...source, codes: [...byCode.keys()], chords: chordsOf(source), variants: [] };
  return [...problems.filter((one) => !isAllowed(one, source)), ...checked(context, asked)];
}

function checked(context: Context, asked: readonly Rule[]): readonly Finding[] {
  const all: Finding[] = [];
  const waits = context.lesson.imports.some((one) => one.waits);
  for (const rule of asked) {
    if (!('check' in rule) || (waits && isOfWhatSounds(rule))) continue;
    for (const one of rule.check(context)) all.push(findingOf(rule, one, context.text));
  }
  return all.filter((one) => !isAllowed(one, context));
}

const OF_WHAT_SOUNDS: readonly Topic[] = ['music', 'shapes', 'hands', 'claims'];

/** Without the parts that other files should bring, other shapes and notes would be judged than those that are meant. */
const isOfWhatSounds = ({ code, topic, speaksOf }: Rule): boolean =>
  OF_WHAT_SOUNDS.includes(topic) || (topic === 'playing' && speaksOf === undefined) || code === 'unknown-fact';

/** A problem whose kind no rule words stays unsaid; a test sees to it that there is none. */
function worded({ kind, span, data }: Problem, text: string): readonly Finding[] {
  const rule = ruleNamed(kind);
  if (!rule || !('problem' in rule)) return [];
  const inside = within(span, text);
  const { problem } = rule;
  return [findingOf(rule, { span, message: problem.message(data), fixes: problem.fixes?.(data, inside, text) }, text)];
}

function findingOf(rule: Rule, found: Found, text: string): Finding {
  const related = (found.related ?? []).slice(0, MOST_RELATED);
  return {
    code: rule.code,
    severity: found.severity ?? rule.severity,
    message: found.message,
    span: within(found.span, text),
    related: related.map((one) => ({ ...one, span: within(one.span, text) })),
    fixes: found.fixes ?? [],
  };
}

function within({ start, end }: Span, text: string): Span {
  const first = Math.max(0, Math.min(start, text.length));
  return { start: first, end: Math.max(first, Math.min(end, text.length)) };
}

function isAllowed(finding: Finding, { lesson, lines }: Findable): boolean {
  if (lesson.allowed.length === 0) return false;
  const line = lines.lineAt(finding.span.start);
  return lesson.allowed.some((one) => one.code === finding.code && one.line === line);
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, hint: 2, information: 3 };

function inOrder(a: Finding, b: Finding): number {
  return (
    a.span.start - b.span.start ||
    a.span.end - b.span.end ||
    RANK[a.severity] - RANK[b.severity] ||
    compareWords(a.code, b.code) ||
    compareWords(a.message, b.message)
  );
}

const compareWords = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function withoutDoubles(sorted: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return sorted.filter(({ code, message, span }) => {
    const mark = `${span.start} ${span.end} ${code} ${message}`;
    return !seen.has(mark) && seen.add(mark);
  });
}

function capped(findings: readonly Finding[], text: string): readonly Finding[] {
  if (findings.length <= MOST_FINDINGS) return findings;
  const { span } = findings[MOST_FINDINGS];
  const data = { limit: `${MOST_FINDINGS}`, more: `${findings.length - MOST_FINDINGS}` };
  return [...findings.slice(0, MOST_FINDINGS), ...worded({ kind: 'too-many-findings', span, data }, text)];
}
