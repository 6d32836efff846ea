/** What may be claimed: sentences that are true of the lesson as it stands, with the figures in them worked out. */
import type { Analysis } from '../analyze.ts';
import type { Word } from '../syntax/words.ts';
import { trueClaims } from '../truth/claims/index.ts';
import type { Offer } from './completion-offers.ts';
import { statementAt, wholeOf } from './place.ts';

/** The word behind which a section's name may follow. */
const IN = 'in';

/**
 * What is left of each true sentence behind the words that are typed already; undefined where nothing at all is true yet, and
 * the table of statements must do.
 */
export function claimOffers(analysis: Analysis, offset: number, typed: readonly Word[]): readonly Offer[] | undefined {
  const { lesson, score } = spokenOf(analysis, offset);
  const truths = trueClaims(lesson, score);
  if (truths.length === 0) return undefined;
  const words = typed.map(({ text }) => text);
  const begins = words.map((word) => `${word} `).join('');
  // The name of an only section is left out until somebody begins to write it.
  const namesSections = lesson.sections.length > 1 || words.some((word) => word === IN || isSection(lesson, word));
  return truths
    .filter(({ text, named }) => text.startsWith(begins) && (named === undefined || namesSections))
    .map(({ text, detail }) => ({ label: text.slice(begins.length), kind: 'value', detail }));
}

/** The lesson, or what the variant makes of it that the claim stands in: the cursor may stand behind its last word. */
function spokenOf(analysis: Analysis, offset: number): Pick<Analysis, 'lesson' | 'score'> {
  const statement = statementAt(analysis, offset);
  if (statement?.tree.keyword !== 'variant') return analysis;
  const { start } = wholeOf(statement);
  return analysis.variants.find(({ definition }) => definition.whole.start === start) ?? analysis;
}

const isSection = ({ sections }: Analysis['lesson'], word: string): boolean =>
  sections.some(({ name }) => name === word);
