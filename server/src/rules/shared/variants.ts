/** What is found in a lesson's variants and not in the lesson itself, told so that it is clear which variant is meant. */
import type { Finding, Severity } from '../../util/finding.ts';
import type { Span } from '../../util/span.ts';
import type { VariantDefinition } from '../../lesson/variants.ts';
import { formatKey } from '../../theory/key.ts';
import type { Variant } from '../rule.ts';
import { listed, quoted } from './words.ts';

/** A variant with all that was found in it as if it were the lesson. */
export interface JudgedVariant extends Variant {
  readonly findings: readonly Finding[];
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, hint: 2, information: 3 };

/**
 * What is wrong with the variant's own words is said at them as it is. What is wrong elsewhere is said there, once for all
 * variants that have it, unless the lesson has the same wrong at the same place and at least as gravely.
 */
export function variantFindings(own: readonly Finding[], variants: readonly JudgedVariant[]): readonly Finding[] {
  const said = new Map<string, number>();
  for (const finding of own) {
    const mark = markOf(finding);
    said.set(mark, Math.min(RANK[finding.severity], said.get(mark) ?? Infinity));
  }
  const inside: Finding[] = [];
  const elsewhere = new Map<string, { readonly finding: Finding; readonly variants: JudgedVariant[] }>();
  for (const variant of variants) {
    for (const finding of variant.findings) {
      if ((said.get(markOf(finding)) ?? Infinity) <= RANK[finding.severity]) continue;
      if (holds(variant.definition.whole, finding.span)) {
        inside.push(finding);
        continue;
      }
      const mark = `${markOf(finding)} ${finding.severity} ${finding.message}`;
      const same = elsewhere.get(mark);
      if (same) same.variants.push(variant);
      else elsewhere.set(mark, { finding, variants: [variant] });
    }
  }
  return [...inside, ...[...elsewhere.values()].map((one) => named(one.finding, one.variants))];
}

const markOf = ({ code, span }: Finding): string => `${code} ${span.start} ${span.end}`;

const holds = (outer: Span, inner: Span): boolean => outer.start <= inner.start && inner.end <= outer.end;

/** Where a variant is written, and how what is claimed of the lesson is read there. */
function whereOf({ name, key }: VariantDefinition, { code }: Finding): string {
  const here = `Variant ${quoted(name)} is written here`;
  if (code !== 'false-claim') return `${here}.`;
  const moved = key ? `, in ${formatKey(key)}, and the claim moves along` : '';
  return `${here}${moved}; a claim of its own about the same thing takes this one’s place.`;
}

/** Without fixes: they would mend the variant at the cost of the lesson. */
function named(finding: Finding, variants: readonly JudgedVariant[]): Finding {
  const names = listed(variants.map(({ definition }) => quoted(definition.name)));
  return {
    ...finding,
    message: `In variant${variants.length === 1 ? '' : 's'} ${names}: ${finding.message}`,
    related: [
      ...finding.related,
      ...variants.map(({ definition }) => ({ span: definition.span, message: whereOf(definition, finding) })),
    ],
    fixes: [],
  };
}
