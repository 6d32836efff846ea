/** What a transposition could not take along, or changes beside the key: told, so that nobody finds it out on stage. */
import type { Span } from '../util/span.ts';

/**
 * `octave`: it goes the other way, an octave from where the nearer way would lead. `open`: open strings are pressed now.
 * `fingers`: the fingers of a grip went with its open strings. `neck`: it does not fit the neck there. `spelling`: respelled,
 * since the exact name needs too many signs. `unread`: it was not understood and is left. `prose`: plain words name chords or
 * notes. `used`: another file is not changed. `mode`: the mode changes, the chords do not. `capo`: what the capo cannot do.
 */
export type LossKind =
  | 'octave'
  | 'open'
  | 'fingers'
  | 'neck'
  | 'spelling'
  | 'unread'
  | 'prose'
  | 'used'
  | 'mode'
  | 'capo';

export interface Loss {
  readonly kind: LossKind;
  readonly span: Span;
  /** One line for the teacher. */
  readonly message: string;
}
