/** What an editor can be asked to do to a lesson at a place of it: listed at little cost, carried out when somebody chooses it. */
import type { Analysis } from '../../analyze.ts';
import type { Edit } from '../../util/finding.ts';
import type { Span } from '../../util/span.ts';
import type { Place } from '../place.ts';

/** Kinds as editors group them; what follows `refactor.` may be read by people in a menu. */
export type ActionKind =
  | 'refactor.rewrite.voicing'
  | 'refactor.rewrite.symbol'
  | 'refactor.rewrite.claim'
  | 'refactor.rewrite.contour'
  | 'refactor.rewrite.key'
  | 'refactor.rewrite.fingers'
  | 'refactor.move.melody'
  | 'refactor.extract.part'
  | 'refactor.inline.part'
  | 'source.fixAll.stringcourse';

/** Where somebody asks what can be done. */
export interface Asked {
  readonly analysis: Analysis;
  /** What is chosen; empty where there is only a cursor. */
  readonly chosen: Span;
  /** Where that begins. */
  readonly place: Place;
}

/** What carrying out an action writes. */
export interface Outcome {
  readonly edits: readonly Edit[];
  /** The text of the file that is made beside the lesson, where the action makes one. */
  readonly newFile?: string;
}

export interface Action {
  /** Tells it from all others of the same place, in every version of the same text. */
  readonly id: string;
  readonly kind: ActionKind;
  /** What it does, as an order. */
  readonly title: string;
  /** Why it cannot be done here: then carrying it out does nothing. */
  readonly disabled?: string;
  /** The name, without its ending, that the file which it makes would best have. */
  readonly makesFile?: string;
  /** May be dear. `file` is the name of the file that is made, with its ending; empty where none is. */
  carryOut(file: string): Outcome;
}

/** One file of this folder: a few actions that belong together. */
export interface Actions {
  readonly kind: ActionKind;
  at(asked: Asked): readonly Action[];
}

export const NOTHING: Outcome = { edits: [] };

/** An action that somebody may look for here, with the reason why it cannot be done. */
export const refusal = (id: string, kind: ActionKind, title: string, disabled: string): Action => ({
  id,
  kind,
  title,
  disabled,
  carryOut: () => NOTHING,
});
