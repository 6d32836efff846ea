/** A change of shape for which the music leaves no time. */
import type { Change } from '../realise/score.ts';
import { isHurried } from '../hand/change.ts';
import { PACES, playerAtLevel, SECOND_A_CHANGE, type Pace, type Player } from '../hand/model.ts';
import type { Severity } from '../util/finding.ts';
import type { Context, Rule } from './rule.ts';
import { once, voiced, type VoicedChord } from './shared/chords.ts';
import { fingerName, outward, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'change-too-fast',
  severity: 'warning',
  topic: 'hands',
  title: 'A change that is too fast',
  why: 'Each finger has the time from the last sounding of its old string to the first of its new one; where the hand shifts, all of them wait for the last. What it needs is reckoned from the shift along the neck, its own way and how many fingers move together, for the player that the level speaks to: beginner, intermediate or advanced. A slower tempo, a shape nearer by, a common finger or an open string at the change mends it. What only just fits is a hint, for a beginner a warning; what an advanced player cannot do is an error. A beginner should have about a second a change, sixty a minute; less is a warning unless the change is easy. The last up-stroke of a strum is taken to ring on open strings, with the hand on its way.',
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
        const message = `${from} ${judged(change, context)}: ${told(change, change.tightest)}; ${mend(change.tightest, chord, context)}.`;
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

const playerOf = ({ lesson }: Context): Player => playerAtLevel(lesson.settings.level);

function severityOf(change: Change, context: Context): Severity | undefined {
  const { pace } = change;
  const player = playerOf(context);
  if (pace === 'not playable' && player === 'advanced') return 'error';
  if (pace === 'not playable' || pace === 'too fast' || isHurried(change, player)) return 'warning';
  if (pace !== 'tight') return undefined;
  return player === 'beginner' ? 'warning' : 'hint';
}

const PLAYERS: Readonly<Record<Player, string>> = {
  beginner: 'a beginner',
  intermediate: 'an intermediate player',
  advanced: 'an advanced player',
};

const JUDGEMENTS: Readonly<Record<Pace, string>> = {
  easy: 'is easy for',
  fine: 'is hurried for',
  tight: 'is tight for',
  'too fast': 'is too fast for',
  'not playable': 'cannot be played by',
};

const judged = ({ pace }: Change, context: Context): string => `${JUDGEMENTS[pace]} ${PLAYERS[playerOf(context)]}`;

function told({ pace, shift }: Change, { finger, need, available }: Tightest): string {
  const way = Math.round(Math.abs(shift));
  const hand = way === 0 ? '' : `, with ${way} mm to shift`;
  const who = `the ${fingerName(finger)}`;
  if (pace === 'fine') return `${who} has ${inSeconds(available)} s${hand}, and a change takes about a second at first`;
  const needs =
    available > 0 && need > available ? outward(need / SECOND, available / SECOND, 100).toFixed(2) : inSeconds(need);
  return `${who} needs ${needs} s and has ${available <= 0 ? 'none' : inSeconds(available)}${hand}`;
}

/** The tempo at which the change just fits, for a beginner with time to spare; whole beats, as a teacher sets them. */
function mend({ need, available }: Tightest, { section }: VoicedChord, context: Context): string {
  const isBeginner = playerOf(context) === 'beginner';
  const ease = isBeginner ? ', with time to spare' : '';
  const wanted = isBeginner ? Math.max(SECOND_A_CHANGE, need / FINE) : need;
  const tempo = Math.floor((section.plan.tempo.perMinute * available) / wanted + ROUNDING);
  const slower = tempo >= SLOWEST_WORTH_SAYING && available < wanted ? `play at ${tempo}${ease}, or ` : '';
  return `${slower}choose shapes nearer by`;
}

/** The part of its time that a change may need and still be no matter. */
const FINE = PACES.find(([pace]) => pace === 'fine')?.[1] ?? 1;

/** Times are whole millionths: what falls short of a beat a minute by their rounding alone is that beat. */
const ROUNDING = 0.001;

/** Nobody practises slower. */
const SLOWEST_WORTH_SAYING = 30;

const SECOND = 1_000_000;

const inSeconds = (millionths: number): string => (Math.round(millionths / 10_000) / 100).toFixed(2);
