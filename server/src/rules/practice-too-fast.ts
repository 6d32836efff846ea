/** A step of practice at a tempo at which the music cannot be played. */
import type { PracticeStep } from '../lesson/practice.ts';
import { judge } from '../truth/claims/index.ts';
import type { Context, Found, Rule } from './rule.ts';

export const rule: Rule = {
  code: 'practice-too-fast',
  severity: 'warning',
  topic: 'hands',
  speaksOf: 'practice',
  title: 'Practice that is faster than the hands',
  why: 'A student who is told to practise faster than a change or a finger allows learns to play it badly. A step, or the end of a ladder, that is faster than the section itself is judged like a claim that the section is playable at that tempo, for the player that the level speaks to; of slower steps nothing is said here.',
  care: true,
  bad: `tempo 60

progression quay
  G | C

cell ripple
  each 1/4
  p(bass) i3 m2 a1

section verse
  progression quay
  cell ripple

practice
  step "As fast as it goes" from 60 to 240 by 20
`,
  good: `tempo 60

progression quay
  G | C

cell ripple
  each 1/4
  p(bass) i3 m2 a1

section verse
  progression quay
  cell ripple

practice
  step "A little faster" from 60 to 72 by 4
`,
  *check(context) {
    for (const step of context.lesson.practice) yield* tooFast(step, context).slice(0, 1);
  },
};

function tooFast(step: PracticeStep, { lesson, score }: Context): readonly Found[] {
  const tempo = Math.max(...step.tempi);
  return lesson.sections.flatMap(({ plan, places }, section): readonly Found[] => {
    // What is too fast at the section's own tempo has been said of the music itself.
    if ((step.section ?? section) !== section || tempo <= plan.tempo.perMinute) return [];
    const says = { kind: 'playable', tempo } as const;
    const verdict = judge({ says, section, span: step.tempoSpan, words: {} }, lesson, score);
    if (verdict.holds !== false || !verdict.bar) return [];
    const { first = 0, last = Infinity } = step;
    const [bar] = [verdict.bar, ...verdict.others].filter((one) => first <= one.bar && one.bar <= last);
    if (!bar) return [];
    const why = bar === verdict.bar ? verdict.truth : `bar ${bar.bar} is beyond it`;
    const span = places[plan.bars.findIndex(({ number }) => number === bar.bar)]?.span;
    return [
      {
        span: step.tempoSpan,
        message: `This cannot be practised at ${tempo}: ${why}.`,
        related: span ? [{ span, message: 'Here it fails first.' }] : [],
      },
    ];
  });
}
