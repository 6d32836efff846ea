/** Writes a claim that is true here: of the chord at the cursor, of its section, or of the lesson. */
import type { Analysis } from '../../analyze.ts';
import { trueClaimsAt, type TrueClaim } from '../../truth/claims/index.ts';
import type { Edit } from '../../util/finding.ts';
import { covers } from '../../util/span.ts';
import { wholeOf, type Place } from '../place.ts';
import type { Action, Actions } from './action.ts';

const KIND = 'refactor.rewrite.claim';
/** A choice, and no list: completion behind `claim` offers all. */
const MOST_OFFERED = 4;

export const trueClaims: Actions = {
  kind: KIND,
  at: ({ analysis, place }) => {
    const made = claimed(analysis);
    return truthsAt(analysis, place)
      .filter(({ text }) => !made.has(text))
      .slice(0, MOST_OFFERED)
      .map(({ text }): Action => {
        const title = `Claim what is true here: ${text}`;
        return { id: `claim ${text}`, kind: KIND, title, carryOut: () => ({ edits: [claimEdit(analysis, text)] }) };
      });
  },
};

function truthsAt({ lesson, score }: Analysis, { offset, chord, form }: Place): readonly TrueClaim[] {
  const address = chord?.played[0];
  if (address) {
    const bar = lesson.sections[address.section].plan.bars[address.bar];
    const truths = trueClaimsAt(lesson, score, address.section, bar.number);
    const own = `bar ${bar.number} chord ${address.chord + 1} `;
    return bar.chords.length > 1 ? truths.filter(({ text }) => text.includes(own)) : truths;
  }
  if (form?.keyword === 'section') {
    const section = lesson.sections.findIndex(({ whole }) => covers(whole, offset));
    return section < 0 ? [] : trueClaimsAt(lesson, score, section);
  }
  return form?.keyword === 'claim' ? trueClaimsAt(lesson, score, undefined) : [];
}

/** What the lesson claims already, a blank between the words. */
const claimed = ({ lesson, text }: Analysis): ReadonlySet<string> =>
  new Set(lesson.claims.map(({ span }) => text.slice(span.start, span.end).trim().split(/\s+/).join(' ')));

/** Below the last claim, or below the last section. */
function claimEdit({ document, lines, text }: Analysis, words: string): Edit {
  const last = (keyword: string): (typeof document.statements)[number] | undefined =>
    document.statements.filter(({ tree }) => tree.keyword === keyword).pop();
  const claim = last('claim');
  const above = claim ?? last('section');
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const line = lines.lineAt(above ? wholeOf(above).end : text.length);
  const end = lines.offsetAt({ line, character: lines.line(line).length });
  return { span: { start: end, end }, text: `${newline}${claim ? '' : newline}claim ${words}` };
}
