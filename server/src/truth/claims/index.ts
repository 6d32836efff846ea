/** Whether a claim holds of a lesson as it is played, and if not, what is true instead. One file a predicate stands beside this one. */
import type { Claim, ClaimKind } from '../../lesson/claims.ts';
import type { Lesson } from '../../lesson/lesson.ts';
import type { Score } from '../../realise/score.ts';
import { adds } from './adds.ts';
import { commonTone } from './common-tone.ts';
import { frets } from './frets.ts';
import { is } from './is.ts';
import type { Judgement, Predicate, TrueClaim } from './judgement.ts';
import { melodyNotes } from './melody-notes.ts';
import { melodyStartsOn } from './melody-starts.ts';
import { noBarre } from './no-barre.ts';
import { open } from './open.ts';
import { playable } from './playable.ts';
import { reach } from './reach.ts';
import { sameContour } from './same-contour.ts';
import { scale } from './scale.ts';
import { stageOf } from './stage.ts';
import { thumbAlternates } from './thumb-alternates.ts';
import { tones } from './tones.ts';

export type { ClaimedPlace, Judgement, TrueClaim, Undecided, Untrue } from './judgement.ts';

/** In the order in which they are offered. */
const predicates: Readonly<Record<ClaimKind, Predicate>> = {
  open,
  'same contour': sameContour,
  'melody starts': melodyStartsOn,
  reach,
  frets,
  'no barre': noBarre,
  'thumb alternates': thumbAlternates,
  'common tone': commonTone,
  scale,
  playable,
  is,
  adds,
  tones,
  'melody notes': melodyNotes,
};

/**
 * Judges a claim by any lesson and its score: the lesson's own, or that of a variant. Without a decision where something of it
 * is missing: then no claim is called false for what another mistake has left out.
 */
export function judge(claim: Claim, lesson: Lesson, score: Score): Judgement {
  return predicates[claim.says.kind].judge(claim.says, stageOf(lesson, score, claim.section));
}

/** Why a claim that holds is true: a sentence or two. */
export function whyTrue(claim: Claim, lesson: Lesson, score: Score): string {
  return predicates[claim.says.kind].why(claim.says, stageOf(lesson, score, claim.section));
}

/** Those that speak of one bar by its number. */
const takesBars: ReadonlySet<Predicate> = new Set<Predicate>([is, adds, tones, melodyNotes]);

/** Every sentence offered is looked for in these many bars at most. */
const MOST_TRUTHS = 400;

/**
 * What could be claimed of a lesson and is true, as it would be written behind `claim`: first of the whole lesson, then of each
 * section by its name. Where there is one section, its name may be left out, and both ways are given. At most 400 sentences.
 */
export function trueClaims(lesson: Lesson, score: Score): readonly TrueClaim[] {
  const found: TrueClaim[] = [];
  const whole = stageOf(lesson, score);
  const isOne = lesson.sections.length === 1;
  const all = Object.values(predicates);
  for (const predicate of all) if (isOne || !takesBars.has(predicate)) found.push(...predicate.truths(whole));
  lesson.sections.forEach(({ name }, index) => {
    if (found.length >= MOST_TRUTHS) return;
    const stage = stageOf(lesson, score, index);
    for (const predicate of all) {
      for (const { text, detail } of predicate.truths(stage))
        found.push({ text: predicate.leads ? `${name} ${text}` : `${text} in ${name}`, detail, named: name });
    }
  });
  return found.slice(0, MOST_TRUTHS);
}

/**
 * The same of one bar of a section, or, without a bar, the likeliest sentence of each kind about the section or the whole lesson. Each
 * is worked out when it is asked for, the dear ones last.
 */
export function* trueClaimsAt(
  lesson: Lesson,
  score: Score,
  section: number | undefined,
  bar?: number,
): Generator<TrueClaim, void> {
  const stage = stageOf(lesson, score, section, bar);
  const named = section !== undefined && lesson.sections.length > 1 ? lesson.sections[section].name : undefined;
  for (const predicate of Object.values(predicates)) {
    if (takesBars.has(predicate) !== (bar !== undefined)) continue;
    for (const truth of predicate.truths(stage).slice(0, bar === undefined ? 1 : undefined)) {
      if (named === undefined) yield truth;
      else yield { ...truth, named, text: predicate.leads ? `${named} ${truth.text}` : `${truth.text} in ${named}` };
    }
  }
}
