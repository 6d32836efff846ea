/**
 * The fretting hand in numbers: how far it reaches, what a grip costs it and how hard that is. Each constant says where it is from:
 * (data) measured on published shapes with fingers, (paper) read in a publication, (set) set by judgement. The hand is an average
 * uninjured one; the thumb over the neck, two fingers on one spot and bent joints are not in the model.
 */

export type HandSize = 'small' | 'medium' | 'large';

/** How far a grip spreads the fingers, from the easiest to what no hand of that size holds. */
export type Zone = 'comfortable' | 'stretch' | 'extreme' | 'unplayable';

export const ZONES: readonly Zone[] = ['comfortable', 'stretch', 'extreme', 'unplayable'];

/** By how much a hand's reach differs from a medium one's. (paper for the range, set for the steps) */
export const HAND_FACTOR: Readonly<Record<HandSize, number>> = { small: 0.9, medium: 1, large: 1.1 };

/** How far two fingertips lie apart along the neck, in mm, at most, in each zone. */
export interface Reach {
  readonly comfortable: number;
  readonly stretch: number;
  readonly extreme: number;
}

/**
 * The reach of a medium hand between fingers 1 to 4, the lower finger first. (data: the 95th and 99th percentile and about the
 * largest seen; the extreme of 1–4 set, since the data end at 99)
 */
export const REACH: Readonly<Record<'1-2' | '1-3' | '1-4' | '2-3' | '2-4' | '3-4', Reach>> = {
  '1-2': { comfortable: 36, stretch: 68, extreme: 76 },
  '1-3': { comfortable: 68, stretch: 84, extreme: 100 },
  '1-4': { comfortable: 82, stretch: 102, extreme: 130 },
  '2-3': { comfortable: 36, stretch: 52, extreme: 72 },
  '2-4': { comfortable: 64, stretch: 78, extreme: 90 },
  '3-4': { comfortable: 36, stretch: 54, extreme: 72 },
};

/** The straight way between two fingertips, across the strings too, may be this many times the extreme reach. (set) */
export const STRAIGHT_FACTOR = 1.12;

/** What a finger lying flat can stop, from the first string's middle to the last one's, in mm: index to little finger. (set) */
export const BARRE_LENGTH: readonly number[] = [NaN, 60, 27, 29, 21];

/**
 * How far apart neighbouring strings are taken to lie under a barre, in mm: as at the fifth fret, wherever it is. Further up they
 * spread, but there the finger lies aslant, and nobody finds a barre too long that held lower down. (set)
 */
export const BARRE_SPACING = 8;

/** Fingers 1 to 4, the index to the little one. */
export const INDEX = 1;
export const LITTLE = 4;

/** Strings that a barre may span where an open string must ring on its treble side: the index's, any other's. (data) */
export const INDEX_BARRE_BESIDE_OPEN = 4;
export const OTHER_BARRE_BESIDE_OPEN = 2;

/** Strings that a barre may span where a lower fret is held on its treble side. (data) */
export const BARRE_BESIDE_LOWER = 3;

/** Strings that another finger's barre may span on the fret that the index holds. (data) */
export const SECOND_BARRE_ON_FRET = 2;

/** Above this cost a fingering is called extreme, however near its fingers lie. (data) */
export const EXTREME_COST = 11;

/**
 * What each trait of a fingering costs when fingerings of one shape are ranked; no unit. (data: fitted so that the published
 * fingers come first, unless marked)
 */
export const COST = {
  /** Over each pair of fingers: the square of how far it goes from comfortable (0) towards stretch (1) and beyond. */
  spread: 0.2,
  /** A barre by finger 1, 2, 3, 4. */
  barre: [NaN, 0.9, 3.5, 3.5, 4.4],
  /** Each string beyond two of a barre by another finger than the index. */
  barreString: 1.0,
  /** Each fret by which consecutive fingers lie further apart than their numbers. */
  fretBeyondFinger: 2.1,
  /** Each finger number left out between consecutive fingers, on one fret and on different frets. */
  skippedOnOneFret: 2.4,
  skippedOnTwoFrets: 1.5,
  /** Consecutive fingers on one fret. */
  pairOnOneFret: 0.4,
  noIndex: 1.6,
  finger: 0.4,
  littleFinger: 0.45,
  /** Consecutive fingers on one fret, the higher number on the bass side. */
  reversed: 4.3,
  /** Each string beyond two that lies between consecutive fingers. */
  stringsApart: 0.5,
  /** The string next to a barre on its treble side rings open, or is held at a lower fret. */
  openBesideBarre: 1.9,
  lowerBesideBarre: 1.6,
  /** Each string inside a barre that must be silent, or that is held at a higher fret. */
  silentInBarre: 1.7,
  higherInBarre: 0.1,
  /** Another finger's barre of two strings on the index's fret. */
  secondBarreOnFret: 3,
  /** Another finger, by itself, on the fret of an index barre, else an open A comes out as a barre. (set) */
  singleBesideBarre: 1.5,
  /** Each string by which the finger on the higher fret lies on the bass side of the finger before it. */
  higherOnBassSide: 0.1,
  /** Each fret between a finger's number and its fret, where an open string sounds and no fret lies above the fourth. */
  awayFromOwnFret: 0.2,
} as const;

/** The highest fret, from the nut, of a grip in the first position. (data) */
export const FIRST_POSITION = 4;

/** What makes a fingering hard, on a scale from 0 to 10. (all set) */
export const DIFFICULTY = {
  /** By the number of fingers used, 0 to 4. */
  fingers: [0, 0.3, 0.8, 1.4, 2.1],
  littleFinger: 0.2,
  /** Times the sum over all pairs of z²; z runs from 0 at this part of the comfortable reach to 1 at the extreme one. */
  spread: 1.7,
  spreadFrom: 0.6,
  /** Times the sum over all barres. */
  barre: 1.1,
  indexBarreOfTwo: 0.4,
  indexBarre: 0.5,
  indexBarreString: 0.3,
  /** The strings are stiff beside the nut: added to an index barre at frets 1, 2 and 3; half of it for two strings. */
  besideNut: [0, 0.8, 0.4, 0.2],
  otherBarreOfTwo: 0.7,
  otherBarre: 1.3,
  littleBarre: 0.6,
  reversed: 0.8,
  /** Each string beyond the first. */
  higherOnBassSide: 0.15,
  stringsApart: 0.2,
  trebleOfBarre: 0.7,
  silentInBarre: 0.3,
  secondBarreOnFret: 2,
  /** The least difficulty in the stretch and in the extreme zone, and the most that the scale knows. */
  leastInStretch: 3,
  leastInExtreme: 6.5,
  most: 10,
} as const;

/** Between consecutive fingers, strings apart that cost nothing. (data) */
export const STRINGS_APART_FREE = 2;

/** Fingers that press strings. */
export const FINGERS = 4;

/**
 * The most steps that the search for the fingerings of one shape may take: on twelve strings, the ways to choose where one to four
 * runs end, times the ways to give them fingers (12·4 + 66·12 + 220·24 + 495·24), so that no shape is ever cut short.
 */
export const MOST_FINGERING_STEPS = 18_000;

/** Costs and efforts are whole numbers of millionths, so that sums and ties are the same on every machine. */
export const MILLION = 1_000_000;

/** What is asked of a player: how long a change of shape takes. */
export type Player = 'beginner' | 'intermediate' | 'advanced';

/** The player that a lesson's level, 1 to 5, speaks to; one without a level speaks to the middle. (set) */
export function playerAtLevel(level: number | undefined): Player {
  if (level === undefined) return 'intermediate';
  if (level <= 2) return 'beginner';
  return level <= 3 ? 'intermediate' : 'advanced';
}

/** From shape to shape, in mm and seconds. (all set) */
export const MOVEMENT = {
  /** From one finger to the next in a hand at rest, for a medium hand: where the hand is follows from where its fingers are. */
  fingerSpacing: 24,
  /** A hand that moves less than this only leans. */
  leastShift: 12,
  /** A finger's own way: lifting and setting it, reaching over to another string, and coming down from the air. */
  lift: 4,
  otherString: 6,
  fromTheAir: 25,
  /** Seconds for the plain decision to move, per doubling of the shift beyond 20 mm and of a finger's way beyond 8 mm. */
  start: 0.06,
  perShift: 0.07,
  shiftUnit: 20,
  perWay: 0.05,
  wayUnit: 8,
  /** Seconds for laying a barre of so many strings or more. */
  newBarre: 0.05,
  newBarreStrings: 3,
  /** A finger that keeps its string and shows the hand the way spares this part of a finger. */
  guide: 0.5,
} as const;

/** By how much each player's time is that of a good one, and what each further finger adds, in seconds. (set) */
export const PLAYERS: Readonly<Record<Player, { readonly times: number; readonly finger: number }>> = {
  advanced: { times: 1, finger: 0.012 },
  intermediate: { times: 1.6, finger: 0.05 },
  beginner: { times: 3, finger: 0.15 },
};

/** How a change goes in the time there is. */
export type Pace = 'easy' | 'fine' | 'tight' | 'too fast' | 'not playable';

/** The time a change needs as a part of the time there is, at most, for each pace; beyond the last it cannot be played. (set) */
export const PACES: readonly (readonly [Exclude<Pace, 'not playable'>, number])[] = [
  ['easy', 0.6],
  ['fine', 0.85],
  ['tight', 1],
  ['too fast', 1.3],
];

/**
 * A beginner is given a second for a change, in whole millionths: sixty changes a minute are what first exercises ask for. One that
 * has less is hurried, unless it is easy all the same. (set)
 */
export const SECOND_A_CHANGE = 1_000_000;

/** What a hurried change costs a beginner beside the difficulty of shapes: as much as an easy chord of two fingers. (set) */
export const HURRIED_COST = 1;

/** What a change costs beside the difficulty of shapes: this times the part of its time that it needs, at most so much. (set) */
export const CHANGE_COST = 4;
export const MOST_CHANGE_COST = 8;

/** How a melody note is had while a shape is held, from the easiest. */
export type MelodyWay = 'already there' | 'open' | 'lift' | 'free finger' | 'flatten' | 'slide' | 'release';

/** What each way costs beside the difficulty of shapes. (all set) */
export const MELODY = {
  alreadyThere: 0,
  lift: 0.3,
  freeFinger: 0.5,
  /** The holder lifts and a free finger is set on its string, below it or above: both of these. */
  liftAndSet: 0.8,
  flatten: 0.8,
  slide: 1.2,
  release: 1.5,
  /** Each string of the shape that stops sounding for the note. */
  lostString: 1,
  /** The finger that plays it must reach into the stretch or the extreme zone. */
  inStretch: 2,
  inExtreme: 4,
  /** A note that cannot be had at all: more than any note that can, so that a fingering with fewer such notes wins. */
  unreachable: 100,
} as const;

/** Fingerings of a held shape that are tried with the melody over it. (set) */
export const MOST_MELODY_FINGERINGS = 12;

/** Notes a second: what goes with ease, what is hard work, and the most that a trained hand does. */
export interface Rates {
  readonly comfortable: number;
  readonly hard: number;
  readonly limit: number;
}

/**
 * The strumming arm, in swings a second: one swing is a down-stroke and the way back, on which an up-stroke may sound. So strokes
 * that alternate come twice as often, and two down-strokes in a row take a whole swing. (set: a loose wrist swings about as often as
 * one finger plucks; so down-strokes in eighths end at 195 beats a minute, sixteenths to and fro too)
 */
export const SWINGS: Rates = { comfortable: 3, hard: 5, limit: 6.5 };

/** The plucking hand. (paper for the range of the rates, set for their steps; the rest set) */
export const PLUCKING = {
  oneFinger: { comfortable: 3, hard: 5, limit: 6.5 },
  /** Two fingers in turn, as index and middle. */
  alternating: { comfortable: 6, hard: 9, limit: 13 },
  /** Three or more in turn, as thumb, ring, middle, index. */
  inTurn: { comfortable: 8, hard: 11, limit: 14 },
  /** Times these rates for the ring and the little finger, and where one of them is in a pair. */
  weakFinger: 0.85,
  /** Notes over which the rate of several fingers is taken. */
  notesInTurn: 4,
  /** Fingers cross where they pluck so close upon each other, in seconds: nearer than one finger plucks with ease. */
  crossing: 1 / 3,
} as const;

/** What speaks against a finger for a melody note that names none; no unit. (all set) */
export const PLUCK_CHOICE = {
  /** It plucks another string at that moment. */
  twoPlaces: 100,
  /** Its next or last pluck is nearer than its limit, than hard work, than ease. */
  beyondLimit: 20,
  beyondHard: 8,
  beyondComfort: 2,
  crossing: 4,
  /** Each finger between it and the one that lies on that string in a hand at rest. */
  awayFromHome: 1,
  /** The little finger plucks only where it must. */
  littleFinger: 3,
} as const;
