/** Why a hand cannot have a melody note while it holds a chord, and what it could have instead, in the words of a teacher. */
import type { Hindrance } from '../../hand/melody.ts';
import type { MissedNote } from '../../realise/score.ts';
import type { Context } from '../rule.ts';
import { counted, fingerName, listed, outward, quoted } from './words.ts';

export function hindrance({ string }: MissedNote, why: Hindrance, { lesson }: Context): string {
  switch (why.reason) {
    case 'too-far': {
      const [lower, higher] = why.pair.fingers;
      const [from, to] = why.pair.frets;
      const { hand } = lesson.settings;
      const fingers = `${fingerName(lower)} at fret ${from}, ${fingerName(higher)} at ${to}`;
      return `${fingers}, ${outward(why.pair.millimetres, why.limit, 10)} mm apart, a ${hand} hand reaches ${why.limit}`;
    }
    case 'stops-strings': {
      const rings = why.strings.length === 1 ? 'rings' : 'ring';
      return `${counted(why.strings.length, 'string').replace(/^\d+ /, '')} ${listed(why.strings.map(String))} still ${rings}`;
    }
    default:
      return `no finger is free for string ${string}`;
  }
}

export function mendMissed({ instead }: MissedNote): string {
  switch (instead?.kind) {
    case 'start':
      return `from ${quoted(instead.tone)} it can be kept`;
    case 'string':
      return `string ${instead.string} has it at fret ${instead.fret}`;
    case 'fret':
      return `the nearest in reach is fret ${instead.fret}`;
    default:
      return 'move the chord, or put the melody on another string';
  }
}
