/** A claim that does not hold, with what is true instead. */
import type { Claim } from '../lesson/claims.ts';
import type { ClaimedPlace, Untrue } from '../truth/claims/index.ts';
import type { Edit } from '../util/finding.ts';
import type { Context, Found, Rule } from './rule.ts';
import { barsNamed } from './shared/chords.ts';
import { judgedClaims } from './shared/claims.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'false-claim',
  severity: 'error',
  topic: 'claims',
  title: 'A claim that does not hold',
  why: 'A claim is what a lesson promises its student, and it is checked against every bar as it is played: a chord that was changed, another shape or a faster tempo shows here first. The finding says what is true instead, and the fix makes the claim say so; where the claim is what you want, change the music.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3

progression quay
  G | Em

section verse
  progression quay
  shape lamp

claim bar 2 is Em
`,
  good: `shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3

progression quay
  G | Em

section verse
  progression quay
  shape lamp

claim bar 2 is Em/G
`,
  check: (context) =>
    judgedClaims(context).flatMap(({ claim, judgement }) =>
      judgement.holds === false ? findingFor(claim, judgement, context) : [],
    ),
};

function findingFor(claim: Claim, untrue: Untrue, { lesson, text }: Context): Found {
  const { truth, bar, others, repair } = untrue;
  const message = `Not so: ${truth}${alsoIn(others, bar, lesson)}.`;
  const related = bar ? placeOf(bar, lesson).map((span) => ({ span, message: 'It breaks the claim.' })) : [];
  const edits = repair ? editsFor(claim, repair) : [];
  if (edits.length === 0) return { span: claim.span, message, related };
  const title = `Write ${quoted(`claim ${mended(text, claim, edits)}`)}`;
  return { span: claim.span, message, related, fixes: [{ title, edits }] };
}

/** ` (bars 5 and 8 break it too)`. */
function alsoIn(others: readonly ClaimedPlace[], first: ClaimedPlace | undefined, lesson: Context['lesson']): string {
  if (others.length === 0) return '';
  const here = others.every(({ section }) => section === first?.section);
  const bars = others.map((one) => one.bar);
  const where = here ? barsNamed(bars) : counted(others.length, 'other bar');
  const many = here && lesson.sections.length > 1 && bars.length > 1 ? ' there' : '';
  return ` (${where}${many} ${others.length === 1 ? 'breaks' : 'break'} it too)`;
}

/** Where the bar, or the chord of it, stands in the section's progression. */
function placeOf({ section, bar, chord }: ClaimedPlace, { sections }: Context['lesson']): readonly Found['span'][] {
  const { plan, places } = sections[section];
  const place = places[plan.bars.findIndex(({ number }) => number === bar)];
  const span = chord === undefined ? undefined : place?.chords[chord - 1]?.span;
  return span ? [span] : place ? [place.span] : [];
}

const editsFor = ({ words }: Claim, repair: NonNullable<Untrue['repair']>): readonly Edit[] =>
  Object.entries(repair)
    .flatMap(([word, text]) => (words[word] ? { span: words[word], text } : []))
    .sort((a, b) => a.span.start - b.span.start);

/** The claim as the fix leaves it. */
function mended(text: string, { span }: Claim, edits: readonly Edit[]): string {
  let words = '';
  let at = span.start;
  for (const edit of edits) {
    words += text.slice(at, edit.span.start) + edit.text;
    at = edit.span.end;
  }
  return words + text.slice(at, span.end);
}
