/** One sign of a melody or a tab: what plain-text tab writes at a string, taken to pieces. Knows no string and no time. */
import type { Attack, Bend, Technique } from './written.ts';

/** One of the notes of a sign: `1h3` has two. Where a bend or its release goes is checked by those who know the neck. */
export type SignNote = Omit<Technique, 'palmMuted' | 'bend'> & {
  readonly fret: number;
  readonly accent: boolean;
  readonly bend?: WrittenBend;
};

export interface WrittenBend extends Pick<Bend, 'before' | 'release'> {
  /** The fret whose pitch it reaches; undefined for a quarter tone. */
  readonly to?: number;
  /** The fret to which it is let down, as written. */
  readonly back?: number;
}

export interface Sounded {
  readonly kind: 'notes';
  /** In the order played. */
  readonly notes: readonly SignNote[];
}

export type Sign = Sounded | { readonly kind: 'hold' | 'rest' };

/** Whether the sign is a grace note alone, which takes no time. */
export const isGrace = (sign: Sign | undefined): boolean =>
  sign?.kind === 'notes' && sign.notes.every((note) => note.grace);

/** More notes in one step than a hand can play. */
const MOST_JOINED = 8;

/** Grace, attack, then a dead note, a harmonic or a fret, then bend and vibrato. */
const NOTE =
  /(g)?([hpst/\\])?(?:(x)|(\d{1,2})?<(\d{1,2})>|(\d{1,2}))(?:(pb|b)(?:(1\/4)|(\d{1,2}))(?:r(\d{1,2}))?)?(~)?/y;
const ATTACKS: Readonly<Record<string, Attack>> = {
  h: 'hammer-on',
  p: 'pull-off',
  '/': 'slide',
  '\\': 'slide',
  s: 'slap',
  t: 'tap',
};

/** Undefined for what is no sign. */
export function readSign(text: string): Sign | undefined {
  if (text === '-') return { kind: 'hold' };
  if (text === 'r') return { kind: 'rest' };
  // The bracket that closes a harmonic is no accent.
  const accent = text.endsWith('>') && (text.endsWith('>>') || !/<\d+>$/.test(text));
  const [, open, inner, close, vibrato] = /^(\()?([^()]*?)(\))?(~)?$/.exec(accent ? text.slice(0, -1) : text) ?? [];
  if (inner === undefined || (open === undefined) !== (close === undefined)) return undefined;
  const notes = readNotes(close === undefined && vibrato ? `${inner}~` : inner);
  if (!notes) return undefined;
  const first = notes.findIndex((note) => !note.grace);
  return {
    kind: 'notes',
    notes: notes.map((note, i) => ({
      ...note,
      ghost: open !== undefined,
      accent: accent && i === Math.max(0, first),
      vibrato: note.vibrato || (vibrato !== undefined && i === notes.length - 1),
    })),
  };
}

function readNotes(text: string): readonly SignNote[] | undefined {
  const notes: SignNote[] = [];
  for (NOTE.lastIndex = 0; NOTE.lastIndex < text.length;) {
    const found = NOTE.exec(text);
    if (!found || notes.length === MOST_JOINED) return undefined;
    const [, grace, attack, dead, under, touched, fret, bend, quarter, to, back, vibrato] = found;
    // What is joined says how it is joined, and one grace note leads the way.
    if (notes.length > 0 && (attack === undefined || attack === 's' || grace)) return undefined;
    if (bend && (dead || touched !== undefined)) return undefined;
    notes.push({
      attack: attack === undefined ? 'plucked' : ATTACKS[attack],
      fret: Number(fret ?? under ?? 0),
      dead: dead !== undefined,
      ghost: false,
      ...(touched !== undefined && { harmonic: Number(touched) }),
      ...(bend && {
        bend: {
          before: bend === 'pb',
          release: back !== undefined,
          ...(quarter === undefined && { to: Number(to) }),
          ...(back !== undefined && { back: Number(back) }),
        },
      }),
      vibrato: vibrato !== undefined,
      grace: grace !== undefined,
      accent: false,
    });
  }
  return notes.length > 0 ? notes : undefined;
}

/** Slips of the pen and other habits, and how they are spelt here; each is tried in turn. */
const HABITS: readonly (readonly [RegExp, string])[] = [
  [/^[\u2010-\u2015\u2212=_.]+$/, '-'],
  [/^-{2,3}$/, '-'],
  [/^(?:R|rest)$/, 'r'],
  [/^X$/, 'x'],
  [/^\[(\d{1,2})\]$/, '<$1>'],
  [/^[{[(](\d{1,2})[}\])]$/, '($1)'],
  [/^(\d{1,2})\*$/, '<$1>'],
  [/^>(.+)$/, '$1>'],
  [/^~(.+)$/, '$1~'],
  [/^(.*\d)v+$/i, '$1~'],
  [/^(.*~)~+$/, '$1'],
  [/^(\d{1,2})(?:\^|bu)(\d{1,2})$/, '$1b$2'],
  [/^(\d{1,2})(?:\^|b)?[¼]$/, '$1b1/4'],
  [/^(\d{1,2})s(\d{1,2})$/, '$1/$2'],
  [/^(\d{1,2})([hpt/\\])$/, '$2$1'],
];

/** What was meant by a word that is no sign, where that can be told. */
export function meantSign(text: string): string | undefined {
  for (const one of [text, text.toLowerCase()]) {
    if (one !== text && readSign(one)) return one;
    for (const [habit, right] of HABITS) {
      const meant = habit.test(one) ? one.replace(habit, right) : undefined;
      if (meant !== undefined && meant !== text && readSign(meant)) return meant;
    }
  }
  return signsApart(text)?.join(' ');
}

/** The signs of `--5-8h10--`, a row without the blanks between them; undefined for what is no such row. */
export function signsApart(text: string): readonly string[] | undefined {
  const signs = /^[^-]*-.*-|^-./.test(text) ? (text.match(/-|[^-]+/g) ?? []) : [];
  return signs.length > 1 && signs.every((sign) => readSign(sign)) ? signs : undefined;
}
