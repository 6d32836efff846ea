/** A change of shape for which the music leaves no time. */
import type { Change } from '../realise/score.ts';
import { playerAtLevel, type Pace, type Player } from '../hand/model.ts';
import type { Severity } from '../util/finding.ts';
import type { Context, Rule } from './rule.ts';
import { once, voiced, type VoicedChord } from './shared/chords.ts';
import { isForBeginners } from './shared/level.ts';
import { fingerName, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'change-too-fast',
  severity: 'warning',
  topic: 'hands',
  title: 'A change that is too fast',
  why: 'Each finger has the time from the last sounding of its old string to the first of its new one; where the hand shifts, all of them wait for the last. What it needs is reckoned from the shift along the neck, its own way and how many fingers move together, for the player that the level speaks to: beginner, intermediate or advanced. A slower tempo, a shape nearer by, a common finger or an open string at the change mends it. What only just fits is a hint, for a beginner a warning; what an advanced player cannot do is an error.',
  care: true,
  bad: `tempo 120

progression quay
  G as 3-2-0-0-0-3 | Am as x-12-14-14-13-12

cell ripple
  each 1/8
  p(bass) i3 m2 a1 m2 i3 a1 m2

section verse
  progression quay
  cell ripple
`,
  good: `tempo 120

progression quay
  G as 3-2-0-0-0-3 | Am as x-0-2-2-1-0

cell ripple
  each 1/8
  p(bass) i3 m2 a1 m2 i3 a1 m2

section verse
  progression quay
  cell ripple
`,
  check: (context) => {
    const chords = voiced(context);
    return once(
      chords.flatMap((chord, index) => {
        const { change } = chord.played;
        const before = chords[index - 1];
        const severity = change?.tightest && severityOf(change, context);
        if (!change?.tightest || !severity || before?.section !== chord.section) return [];
        const from = `${quoted(before.plan.written)} to ${quoted(chord.plan.written)}`;
        const message = `${from} ${judged(change.pace, context)}: ${told(change, change.tightest)}; ${mend(change.tightest, chord)}.`;
        return {
          chord,
          severity,
          message,
          related: [{ span: before.place.span, message: 'The hand comes from here.' }],
        };
      }),
    );
  },
};

type Tightest = NonNullable<Change['tightest']>;

function severityOf({ pace }: Change, context: Context): Severity | undefined {
  const player = playerAtLevel(context.lesson.settings.level);
  if (pace === 'not playable' && player === 'advanced') return 'error';
  if (pace === 'not playable' || pace === 'too fast') return 'warning';
  if (pace !== 'tight') return undefined;
  return isForBeginners(context) ? 'warning' : 'hint';
}

const PLAYERS: Readonly<Record<Player, string>> = {
  beginner: 'a beginner',
  intermediate: 'an intermediate player',
  advanced: 'an advanced player',
};

function judged(pace: Pace, { lesson }: Context): string {
  const player = PLAYERS[playerAtLevel(lesson.settings.level)];
  if (pace === 'not playable') return `cannot be played by ${player}`;
  return pace === 'too fast' ? `is too fast for ${player}` : `is tight for ${player}`;
}

function told({ shift }: Change, { finger, need, available }: Tightest): string {
  const way = Math.round(Math.abs(shift));
  const hand = way === 0 ? '' : `, with ${way} mm to shift`;
  const has = available <= 0 ? 'has none' : `has ${seconds(available)}`;
  return `the ${fingerName(finger)} needs ${seconds(need)} s and ${has}${hand}`;
}

/** The tempo at which the change just fits; whole beats, as a teacher sets them. */
function mend({ need, available }: Tightest, { section }: VoicedChord): string {
  const tempo = Math.floor((section.plan.tempo.perMinute * available) / need);
  const slower = tempo >= SLOWEST_WORTH_SAYING && available < need ? `play at ${tempo}, or ` : '';
  return `${slower}choose shapes nearer by`;
}

/** Nobody practises slower. */
const SLOWEST_WORTH_SAYING = 30;

const seconds = (millionths: number): string => (Math.round(millionths / 10_000) / 100).toFixed(2);
