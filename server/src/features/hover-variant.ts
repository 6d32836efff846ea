/** What a hover says of a variant: what it changes, and how hard the lesson is before and after. */
import type { Analysis, VariantAnalysis } from '../analyze.ts';
import { factsOf, findingsWords, type Fact } from '../draw/facts.ts';
import { counted } from '../rules/shared/words.ts';
import { covers } from '../util/span.ts';
import { line, strong, table, type Block } from './page.ts';

/** The variant in whose statement the offset lies, as a lesson of its own. */
export const variantAt = ({ variants }: Analysis, offset: number): VariantAnalysis | undefined =>
  variants.find(({ definition }) => covers(definition.whole, offset));

const WORDS: Readonly<Record<Fact['kind'], string>> = {
  key: 'key',
  meter: 'meter',
  tempo: 'tempo',
  swing: 'swing',
  tuning: 'tuning',
  capo: 'capo',
  level: 'level',
  hand: 'hand',
  difficulty: 'difficulty',
  findings: 'findings',
};

export function variantPage(analysis: Analysis, variant: VariantAnalysis): Block[] {
  const { definition } = variant;
  const title = definition.title === undefined ? [] : [': ', strong(definition.title)];
  const before = factWords(analysis);
  const after = factWords(variant);
  const rows = (Object.keys(WORDS) as Fact['kind'][]).flatMap((kind) => {
    const [was, is] = [before.get(kind) ?? 'none', after.get(kind) ?? 'none'];
    // The same difficulty is worth knowing too.
    return was === is && kind !== 'difficulty' ? [] : [[WORDS[kind], was, is]];
  });
  for (const { kind, instead, name } of definition.replaces) rows.push([kind, instead, name]);
  if (definition.practises) rows.push(['practice', stepsOf(analysis), stepsOf(variant)]);
  return [
    line(strong(definition.name), ', a variant', ...title, '.'),
    ...(rows.length > 0 ? [table(['', 'lesson', 'variant'], rows)] : []),
    line(`In it: ${findingsWords(variant.findings)}.`),
  ];
}

const stepsOf = ({ lesson }: Analysis): string => counted(lesson.practice.length, 'step');

/** Findings are told for themselves: the lesson's list holds those of its variants too. */
function factWords({ lesson, score }: Analysis): ReadonlyMap<Fact['kind'], string> {
  const facts = factsOf(lesson, score, []).filter(({ kind }) => kind !== 'findings');
  // `level 3` stands beside the word `level` here.
  return new Map(facts.map(({ kind, text }) => [kind, text.replace(`${WORDS[kind]} `, '')]));
}
