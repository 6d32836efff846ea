/** Which strings a moment of the right hand sounds over a voicing, and with which finger; and which plucks find no string. */
import type { Pluck, PluckingFinger, Stroke } from '../lesson/lesson.ts';
import type { Stopped } from './neck.ts';
import type { Onset } from './picking.ts';

export interface Aim {
  /** Player's number; undefined where `bass`, `alt` or `top` found none. */
  readonly string?: number;
  readonly pluck?: PluckingFinger;
  readonly stroke?: Stroke['kind'];
}

/** From the lowest string as written up; a pluck may aim at a string that the voicing, whose strings are given, does not have. */
export function aimsOf(
  { note }: Onset,
  strings: readonly Stopped[],
  bassStrings: readonly number[] | undefined,
): readonly Aim[] {
  if (!note) return struck(strings, { kind: 'down' });
  if (note.rest) return [];
  const plucked = note.plucks.map((pluck): Aim => ({
    string: targetOf(pluck, strings, bassStrings),
    pluck: pluck.finger,
  }));
  const strummed = note.stroke ? struck(strings, note.stroke) : [];
  return [...strummed, ...plucked].sort((a, b) => (b.string ?? 0) - (a.string ?? 0));
}

function struck(strings: readonly Stopped[], { kind, from, to }: Stroke): readonly Aim[] {
  const low = Math.min(from ?? 1, to ?? Infinity);
  const high = Math.max(from ?? Infinity, to ?? 1);
  return strings
    .filter(({ string }) => string >= low && string <= high)
    .map(({ string }) => ({ string, stroke: kind }));
}

/** Lowest and highest go by what sounds: in a re-entrant tuning they are not the outer strings. */
function targetOf(
  { target }: Pluck,
  strings: readonly Stopped[],
  bassStrings: readonly number[] | undefined,
): number | undefined {
  if (typeof target === 'number') return target;
  if (target === 'top') return highest(strings)?.string;
  const place = target === 'bass' ? 0 : 1;
  const known = bassStrings?.[place];
  if (known !== undefined) return known;
  const bass = lowest(strings, undefined);
  return (place === 0 ? bass : lowest(strings, bass))?.string;
}

/** The lowest by pitch of those that are not `left`, of two as low the one with the higher number; sorting all would cost more. */
function lowest(strings: readonly Stopped[], left: Stopped | undefined): Stopped | undefined {
  let least: Stopped | undefined;
  for (const each of strings) if (each !== left && (!least || byPitch(each, least) < 0)) least = each;
  return least;
}

function highest(strings: readonly Stopped[]): Stopped | undefined {
  let most: Stopped | undefined;
  for (const each of strings) if (!most || byPitch(each, most) > 0) most = each;
  return most;
}

const byPitch = (a: Stopped, b: Stopped): number => a.midi - b.midi || b.string - a.string;
