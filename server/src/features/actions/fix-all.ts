/** Mends at once all that was surely meant otherwise: slips of spelling and layout, and nothing that is a choice. */
import type { Analysis } from '../../analyze.ts';
import { ruleNamed } from '../../rules/findings.ts';
import { applyEdits } from '../../util/edits.ts';
import type { Edit, Finding, Fix } from '../../util/finding.ts';
import type { Actions } from './action.ts';
import { editsBetween } from './layout.ts';

const KIND = 'source.fixAll.stringcourse';
/** A word that is mended may show the next slip of its line. */
const MOST_ROUNDS = 5;

export const fixAll: Actions = {
  kind: KIND,
  at: ({ analysis }) => {
    if (!analysis.ownFindings.some(isSure)) return [];
    const title = 'Mend all slips of spelling and layout';
    return [{ id: 'fix-all', kind: KIND, title, carryOut: () => ({ edits: mended(analysis) }) }];
  },
};

const isSure = ({ code, fixes }: Finding): boolean => fixes.length === 1 && (ruleNamed(code)?.sure ?? false);

function mended(analysis: Analysis): readonly Edit[] {
  let now = analysis;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const edits = apart(now.ownFindings.filter(isSure).map(({ fixes }) => fixes[0]));
    if (edits.length === 0) break;
    now = now.rewritten(applyEdits(now.text, edits));
  }
  return editsBetween(analysis.text, now.text);
}

/** The edits of those that share no place with one before; what is left over has its turn in the next round. */
function apart(fixes: readonly Fix[]): readonly Edit[] {
  const taken: Edit[] = [];
  for (const { edits } of fixes) {
    const free = edits.every(({ span }) =>
      taken.every((one) => span.end < one.span.start || one.span.end < span.start),
    );
    if (free) taken.push(...edits);
  }
  return taken;
}
