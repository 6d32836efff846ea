/** The signs of plain-text tab: one note as the language writes it, and what the signs that a lesson uses mean. */
import type { NoteEvent, Score } from '../realise/score.ts';
import type { Moment } from './moments.ts';
import { isAccented, isPalmMuted, pluckingFingers, strokeOf } from './moments.ts';

export const STROKE_SIGNS = { down: '↓', up: '↑', roll: '~', mute: 'x' } as const;

/** What stands before the fret, and the rest of it: the frets of one column are lined up. */
export interface TextSign {
  readonly before: string;
  readonly rest: string;
}

/** Where a bar begins with nothing but what sounds on from the bar before. */
export const HELD_ON = '=';

/** What the fretting hand does to come to the note; `from` is the note that it comes from. */
function attackSign(event: NoteEvent, from: NoteEvent | undefined): string {
  switch (event.technique?.attack) {
    case 'hammer-on':
      return 'h';
    case 'pull-off':
      return 'p';
    case 'slide':
      return from && from.fret > event.fret ? '\\' : '/';
    case 'slap':
      return 's';
    case 'tap':
      return 't';
    default:
      return '';
  }
}

/** The note on one string at one moment, with the grace note that leads to it. Quotes are put around a melody's. */
export function signOf(
  event: NoteEvent,
  grace: NoteEvent | undefined,
  from: ReadonlyMap<NoteEvent, NoteEvent>,
): TextSign {
  const { technique } = event;
  const attack = attackSign(event, from.get(event));
  const led = grace ? wholeSign(grace, from) : '';
  // Quotes, since brackets of every kind are signs for how a note is played.
  const quote = event.voice === 'melody' ? "'" : '';
  if (event.stroke === 'mute' || technique?.dead) {
    const [open, close] = technique?.ghost ? ['(', ')'] : ['', ''];
    return { before: quote + led + open + attack, rest: `x${close}${quote}` };
  }
  const open = `${quote}${technique?.ghost ? '(' : ''}${led}${attack}`;
  const close = `${technique?.ghost ? ')' : ''}${technique?.vibrato ? '~' : ''}${quote}`;
  const harmonic = technique?.harmonic;
  if (harmonic !== undefined && event.fret === 0) return { before: `${open}<`, rest: `${harmonic}>${close}` };
  const touched = harmonic === undefined ? '' : `<${harmonic}>`;
  return { before: open, rest: `${event.fret}${touched}${bendSign(event)}${close}` };
}

function wholeSign(grace: NoteEvent, from: ReadonlyMap<NoteEvent, NoteEvent>): string {
  const { before, rest } = signOf({ ...grace, voice: 'written' }, undefined, from);
  return `g${before}${rest}`;
}

/** `b9`, `b9r7`, `pb9`, `b1/4`: the fret whose pitch the bend reaches. */
function bendSign({ technique, fret }: NoteEvent): string {
  const bend = technique?.bend;
  if (!bend) return '';
  const to = bend.quarters === 1 ? '1/4' : `${fret + Math.round(bend.quarters / 2)}`;
  return `${bend.before ? 'pb' : 'b'}${to}${bend.release ? `r${fret}` : ''}`;
}

export function handWord(moment: Moment): string {
  if (moment.rest) return 'r';
  const stroke = strokeOf(moment);
  return stroke === undefined ? pluckingFingers(moment).join('') : STROKE_SIGNS[stroke];
}

/** What else is used than notes say. */
export interface Surroundings {
  readonly namedFingers: boolean;
  readonly repeats: boolean;
}

/** Explains the signs that this lesson's tab uses, and no others. */
export function legend(score: Score, { namedFingers, repeats }: Surroundings): readonly string[] {
  const bars = score.sections.flatMap((section) => section.bars);
  const events = bars.flatMap((bar) => bar.events);
  const strokes = new Set(events.map((event) => event.stroke));
  const fingers = new Set(events.map((event) => event.pluck));
  const techniques = events.flatMap(({ technique }) => technique ?? []);
  const attacks = new Set(techniques.map(({ attack }) => attack));
  const bends = techniques.flatMap(({ bend }) => bend ?? []);
  const uses = (used: boolean, words: string): string => (used ? words : '');
  return [
    uses(
      events.some((event) => event.voice === 'melody'),
      "'5' melody",
    ),
    ...(['p thumb', 'i index', 'm middle', 'a ring finger', 'c little finger'] as const).map((word) =>
      uses(fingers.has(word[0] as NoteEvent['pluck']), word),
    ),
    uses([...fingers].filter((finger) => finger).length > 1, 'letters together: plucked together'),
    uses(namedFingers, 'digits above the strings: fretting fingers'),
    uses(strokes.has('down'), '↓ strum down'),
    uses(strokes.has('up'), '↑ strum up'),
    uses(strokes.has('roll'), '~ roll'),
    uses(strokes.has('mute'), 'x muted stroke'),
    uses(
      techniques.some(({ dead }) => dead),
      'x dead note',
    ),
    uses(
      techniques.some(({ ghost }) => ghost),
      '(5) ghost note',
    ),
    uses(
      techniques.some(({ harmonic }) => harmonic !== undefined),
      '<12> harmonic',
    ),
    uses(attacks.has('hammer-on'), 'h3 hammer-on'),
    uses(attacks.has('pull-off'), 'p1 pull-off'),
    uses(attacks.has('slide'), '/7 \\5 slide'),
    uses(attacks.has('slap'), 's3 slap'),
    uses(attacks.has('tap'), 't12 tap'),
    uses(
      bends.some((bend) => !bend.before && bend.quarters > 1),
      '7b9 bend to the pitch of 9',
    ),
    uses(
      bends.some((bend) => bend.quarters === 1),
      '7b1/4 bend a quarter tone',
    ),
    uses(
      bends.some((bend) => bend.before),
      '7pb9 bent before it is plucked',
    ),
    uses(
      bends.some((bend) => bend.release),
      'r7 and let down',
    ),
    uses(
      techniques.some(({ vibrato }) => vibrato),
      '5~ vibrato',
    ),
    uses(
      techniques.some(({ grace }) => grace),
      'g5 grace note',
    ),
    uses(
      techniques.some(({ palmMuted }) => palmMuted),
      '* palm muted',
    ),
    uses(
      events.some((event) => event.accent),
      '> accent',
    ),
    uses(
      bars.some((bar) => bar.rests.length > 0),
      'r rest',
    ),
    uses(
      bars.some((bar) => (bar.tied ?? []).length > 0),
      `${HELD_ON} held on from the bar before`,
    ),
    uses(repeats, '|: and :| repeat what is between'),
  ].filter((word) => word !== '');
}

export const accentSign = (moment: Moment): string => (isAccented(moment) ? '>' : '');
export const palmSign = (moment: Moment): string => (isPalmMuted(moment) ? '*' : '');
