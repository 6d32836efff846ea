/** The keys that a lesson can be taken to: as somebody asks for one, and all that make sense, the nearest first. */
import { keyOf, keySignature, parseKey, type Key } from '../theory/key.ts';
import { nameOnLetter, parseNoteName, sameName, semitone } from '../theory/note.ts';

/**
 * Reads `A`, `Bb` as a tonic in the lesson's own mode, or a whole key. `no-key` for what is none, `other-mode` for a key of
 * other notes: moving a lesson makes no minor of its major.
 */
export function targetKey(text: string, lessonKey: Key): Key | 'no-key' | 'other-mode' {
  const word = text.trim();
  const tonic = parseNoteName(word.slice(0, 1).toUpperCase() + word.slice(1));
  // Beyond two signs nobody can write a key down and read it again.
  if (tonic && Math.abs(tonic.accidental) <= 2) return keyOf(tonic, lessonKey.mode)!;
  const key = parseKey(word);
  if (!key) return 'no-key';
  const same = keyOf(key.tonic, lessonKey.mode)!;
  const alike = same.scale.length === key.scale.length && same.scale.every((note, i) => sameName(note, key.scale[i]));
  return alike ? same : 'other-mode';
}

const TRITONE = 6;

/**
 * The eleven other keys of the same mode, the nearest first and up before down; each with the fewest signs, and where two have
 * as many, with sharps above a key of sharps and flats elsewhere.
 */
export function keysNearby(key: Key): readonly Key[] {
  const keys: Key[] = [];
  for (let distance = 1; distance <= TRITONE; distance++) {
    for (const semitones of distance === TRITONE ? [distance] : [distance, -distance])
      keys.push(keyAway(key, semitones));
  }
  return keys;
}

function keyAway(key: Key, semitones: number): Key {
  const pitchClass = (semitone(key.tonic) + semitones + 12) % 12;
  const sharps = keySignature(key) > 0;
  const spelled = Array.from({ length: 7 }, (_, letter) => nameOnLetter(letter, pitchClass))
    .flatMap((tonic) => (tonic && Math.abs(tonic.accidental) <= 2 ? keyOf(tonic, key.mode)! : []))
    .map((one) => {
      const signature = keySignature(one);
      return { one, signs: 2 * Math.abs(signature) + (signature > 0 === sharps ? 0 : 1) };
    });
  return spelled.reduce((best, other) => (other.signs < best.signs ? other : best)).one;
}
