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
  at: ({ analysis, place }) =>
    choice(analysis, place).map((text): Action => {
      const title = `Claim what is true here: ${text}`;
      return { id: `claim ${text}`, kind: KIND, title, carryOut: () => ({ edits: [claimEdit(analysis, text)] }) };
    }),
};

/** An editor asks again with every move of the cursor. */
const known = new WeakMap<Analysis, Map<string, readonly string[]>>();

/** A few true sentences that the lesson does not claim yet. */
function choice(analysis: Analysis, place: Place): readonly string[] {
  const { lesson, score } = analysis;
  const { offset, form } = place;
  const address = place.chord?.played[0];
  const section = address?.section ?? lesson.sections.findIndex(({ whole }) => covers(whole, offset));
  const bar = address && lesson.sections[section].plan.bars[address.bar];
  if (!bar && form?.keyword !== 'claim' && (form?.keyword !== 'section' || section < 0)) return [];
  const mark = `${section} ${address?.bar} ${address?.chord}`;
  let truthsHere = known.get(analysis);
  if (!truthsHere) known.set(analysis, (truthsHere = new Map()));
  let found = truthsHere.get(mark);
  if (!found) {
    const own = bar && bar.chords.length > 1 ? `bar ${bar.number} chord ${address.chord + 1} ` : '';
    const truths = trueClaimsAt(lesson, score, section < 0 ? undefined : section, bar?.number);
    truthsHere.set(mark, (found = someOf(truths, own, claimed(analysis))));
  }
  return found;
}

function someOf(truths: Iterable<TrueClaim>, within: string, made: ReadonlySet<string>): readonly string[] {
  const found: string[] = [];
  for (const { text } of truths) {
    if (!text.includes(within) || made.has(text)) continue;
    found.push(text);
    if (found.length >= MOST_OFFERED) break;
  }
  return found;
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
