/** Whether a chord's symbol tells the truth about its voicing, and what would. */
import { parseChord, type Chord } from '../../theory/chord.ts';
import { misnames, type Misnaming } from '../../theory/misnaming.ts';
import { midi } from '../../theory/note.ts';
import type { ShapeRule } from '../../lesson/lesson.ts';
import type { Voicing } from '../../realise/score.ts';
import type { Context } from '../rule.ts';
import { ruleOf, voiced, type VoicedChord } from './chords.ts';

export interface Misnamed extends VoicedChord {
  readonly chord: Chord;
  readonly wrong: Misnaming;
  /** The rule that fixes the tones, where one does. */
  readonly shapeRule?: ShapeRule;
  /** A symbol that is true of what sounds, as seen from the capo. */
  readonly right?: string;
}

/** Two rules share them. */
const misnamed = new WeakMap<Context, readonly Misnamed[]>();

/** Every chord whose symbol is untrue in its third, its seventh or its bass. */
export function misnamedChords(context: Context): readonly Misnamed[] {
  let found = misnamed.get(context);
  if (!found) misnamed.set(context, (found = misnamedIn(context)));
  return found;
}

function misnamedIn(context: Context): readonly Misnamed[] {
  const { reentrant } = context.lesson.settings.instrument.tuning;
  return voiced(context).flatMap((placed) => {
    const { chord } = placed.plan;
    if (!chord) return [];
    const verdict = verdictOn(chord, placed.voicing, reentrant);
    return verdict ? [{ ...placed, chord, ...verdict, shapeRule: ruleOf(placed) }] : [];
  });
}

type Verdict = Pick<Misnamed, 'wrong' | 'right'>;

/** Voicings live on from version to version of a lesson; what was said of one in the name of a chord is said again. */
const verdicts = new WeakMap<Voicing, Map<string, Verdict | undefined>>();

function verdictOn(chord: Chord, voicing: Voicing, reentrant: boolean): Verdict | undefined {
  let known = verdicts.get(voicing);
  if (!known) verdicts.set(voicing, (known = new Map()));
  const name = `${chord.symbol} ${reentrant}`;
  if (!known.has(name)) known.set(name, judge(chord, voicing, reentrant));
  return known.get(name);
}

function judge(chord: Chord, voicing: Voicing, reentrant: boolean): Verdict | undefined {
  const midis = voicing.strings.map(({ shapePitch }) => midi(shapePitch));
  const untrue = (meant: Chord): Misnaming | undefined => misnames(meant, midis, reentrant);
  const wrong = untrue(chord);
  if (!wrong) return undefined;
  const right = voicing.shapeNames.find((name) => {
    const named = parseChord(name);
    return named && !untrue(named);
  });
  return { wrong, right };
}

/** Whether a shape fixes every tone, so that nothing but the shape is to blame for what is left out. */
export const fixesAllTones = (shapeRule: ShapeRule | undefined): boolean =>
  shapeRule?.sequence !== undefined || (shapeRule?.tones?.every((tone) => tone !== 'any') ?? false);
