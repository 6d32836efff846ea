/** Which version of a lesson a command shows: the lesson itself, or one of its variants. */
import { variantNamed, type Analysis } from '../analyze.ts';
import { WrongUse } from './wrong-use.ts';

/** The variant that `--variant` names, or the lesson where nothing is named. */
export function shownVariant(analysis: Analysis, name: string | undefined): Analysis {
  if (name === undefined) return analysis;
  const variant = variantNamed(analysis, name);
  if (variant) return variant;
  const names = analysis.variants.map(({ definition }) => definition.name);
  const there = names.length === 0 ? 'the lesson has no variants' : `there is ${names.join(', ')}`;
  throw new WrongUse(`No variant is called "${name}": ${there}.`);
}
