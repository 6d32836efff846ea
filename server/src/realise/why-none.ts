/** Why a rule has no voicing over a chord: the one line without which there would be some, and the nearest of those. */
import { stringAtIndex, type FretList } from '../fretboard/frets.ts';
import { judgeShape } from '../hand/fingering.ts';
import type { HandSize } from '../hand/model.ts';
import { findCandidates, type Candidate } from './candidates.ts';
import { compareFrets } from './hand-states.ts';
import type { Asked, Line } from './demands.ts';
import type { NoVoicing } from './score.ts';
import { withoutBarre } from './verdicts.ts';

/** In the order in which they are doubted: what a lesson can most easily do without first. */
const DOUBTED: readonly Line[] = [
  'barre',
  'hand',
  'at',
  'avoid',
  'colour',
  'top',
  'bass',
  'reach',
  'spacing',
  'frets',
  'open',
  'tones',
];
/** Voicings that are tried on the hand for each line; the easiest come first. */
const MOST_TRIED = 128;

export function whyNone(asked: Asked, hand: HandSize): NoVoicing {
  const found = findCandidates(asked);
  if (found.impossible) return { line: found.impossible, before: 0 };
  const doubted = DOUBTED.filter((line) => isSaid(line, asked));
  for (const line of doubted) {
    const { before, nearest } = allowed(asked, hand, new Set([line]));
    if (nearest) return { line, before, nearest };
  }
  // No single line is to blame: they are taken up again one after another until nothing is left.
  const left = new Set<Line>(doubted);
  let last = allowed(asked, hand, left);
  for (const line of [...doubted].reverse()) {
    left.delete(line);
    const now = allowed(asked, hand, left);
    if (!now.nearest) return last.nearest ? { line, before: last.before, nearest: last.nearest } : { line, before: 0 };
    last = now;
  }
  return { line: 'strings', before: 0 };
}

/** Whether leaving the line out could change anything. */
function isSaid(line: Line, { rule, at }: Asked): boolean {
  switch (line) {
    case 'barre':
      return !rule.barre;
    case 'at':
      return at !== undefined;
    case 'avoid':
      return rule.avoid.length > 0;
    case 'open':
      return rule.open.length > 0;
    case 'hand':
    case 'frets':
      return true;
    default:
      return rule[line] !== undefined;
  }
}

/** What every line but those in `left` allows: how many, and of them the one nearest to a line left out, or the easiest. */
function allowed(asked: Asked, hand: HandSize, left: ReadonlySet<Line>): { before: number; nearest?: FretList } {
  const beyond = left.size === 1 ? beyondLine([...left][0], asked) : () => 0;
  const candidates = [...findCandidates(asked, left).candidates].sort(
    (one, other) => beyond(one) - beyond(other) || easiestFirst(one, other),
  );
  if (left.has('hand')) return { before: candidates.length, nearest: candidates[0]?.frets };
  const { instrument } = asked.neck;
  const nearest = candidates.slice(0, MOST_TRIED).find(({ frets }) => {
    const verdict = judgeShape(instrument, frets, hand);
    return (asked.rule.barre || left.has('barre') ? verdict : withoutBarre(verdict)).playable;
  });
  return { before: candidates.length, nearest: nearest?.frets };
}

/** How far a voicing lies from what the line asks for, where that can be measured: in frets. */
function beyondLine(line: Line, { rule, at }: Asked): (candidate: Candidate) => number {
  switch (line) {
    case 'frets':
      return ({ frets }) => {
        const ofShape = frets.filter((_, index) => rule.strings.includes(stringAtIndex(index, frets.length)));
        return ofShape.reduce<number>(
          (most, fret) => (fret === null ? most : Math.max(most, rule.lowestFret - fret, fret - rule.highestFret)),
          0,
        );
      };
    case 'reach':
      return ({ frets }) => rangeOf(frets).highest - rangeOf(frets).lowest;
    case 'at':
      return ({ frets }) => Math.abs(rangeOf(frets).lowest - (at ?? 0));
    default:
      return () => 0;
  }
}

/** Of the frets pressed; 0 and 0 where all strings ring open. */
function rangeOf(frets: FretList): { readonly lowest: number; readonly highest: number } {
  const pressed = frets.flatMap((fret) => fret || []);
  return pressed.length === 0
    ? { lowest: 0, highest: 0 }
    : { lowest: Math.min(...pressed), highest: Math.max(...pressed) };
}

const easiestFirst = (one: Candidate, other: Candidate): number =>
  one.fingers - other.fingers ||
  one.span - other.span ||
  one.position - other.position ||
  compareFrets(one.frets, other.frets);
