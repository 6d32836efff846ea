/** Every action by the file that makes it, in the order in which an editor lists them. */
import type { Analysis } from '../../analyze.ts';
import type { Span } from '../../util/span.ts';
import { whereIs } from '../place.ts';
import type { Action, ActionKind, Actions, Outcome } from './action.ts';
import { extractPart } from './extract-part.ts';
import { fingers } from './fingers.ts';
import { fixAll } from './fix-all.ts';
import { inlinePart } from './inline-part.ts';
import { inLayout } from './layout.ts';
import { moveContour } from './move-contour.ts';
import { moveMelody } from './move-melody.ts';
import { nextVoicing } from './next-voicing.ts';
import { notesToContour } from './notes-to-contour.ts';
import { numerals } from './numerals.ts';
import { pins } from './pins.ts';
import { soundingName } from './sounding-name.ts';
import { transposing } from './transpose.ts';
import { trueClaims } from './true-claims.ts';

const all: readonly Actions[] = [
  nextVoicing,
  pins,
  soundingName,
  numerals,
  fingers,
  moveContour,
  moveMelody,
  notesToContour,
  trueClaims,
  extractPart,
  inlinePart,
  transposing,
  fixAll,
];

/** What can be done at a place, of the kinds that are wanted; with what cannot be, and why. */
export function actionsAt(
  analysis: Analysis,
  chosen: Span,
  wanted: (kind: ActionKind) => boolean = () => true,
): readonly Action[] {
  const asked = { analysis, chosen, place: whereIs(analysis, chosen.start) };
  return all.flatMap((one) => (wanted(one.kind) ? one.at(asked) : []));
}

/** What the action writes, laid out as the lesson is. `file` is the name of the file that it makes, with its ending. */
export function carriedOut(analysis: Analysis, action: Action, file = ''): Outcome {
  const outcome = action.carryOut(file);
  return { ...outcome, edits: inLayout(analysis, outcome.edits) };
}
