/** Pins what the engine chose, for one chord or for all of a progression, and sets pinned chords free again. */
import type { Analysis } from '../../analyze.ts';
import { formatFretList } from '../../fretboard/frets.ts';
import { counted } from '../../rules/shared/words.ts';
import type { Edit } from '../../util/finding.ts';
import { changeOf } from '../chord-change.ts';
import type { Place } from '../place.ts';
import { chordHere, type ChordHere } from '../preview-chord.ts';
import { refusal, type Action, type Actions } from './action.ts';
import { chordsWritten, progressionAt } from './chord-places.ts';

const KIND = 'refactor.rewrite.voicing';

export const pins: Actions = {
  kind: KIND,
  at: ({ analysis, place }) => [...ofChord(analysis, place), ...ofProgression(analysis, place)],
};

function ofChord(analysis: Analysis, { chord }: Place): readonly Action[] {
  const address = chord?.played[0];
  const here = address && chordHere(analysis, address);
  if (!here?.plan.chord) return [];
  const { written, frets } = here.plan;
  if (isPinned(here)) {
    const { says, edits } = changeOf(analysis, here, { kind: 'unpin' });
    if (edits.length === 0) return [];
    return [{ id: 'unpin', kind: KIND, title: `Take the pin off ${says}`, carryOut: () => ({ edits }) }];
  }
  if (!here.score.voicing) return [];
  if (frets) {
    const why = `The grip of ${written} says its frets already.`;
    return [refusal('pin', KIND, `Pin ${written} where it is played`, why)];
  }
  const { says, edits } = pinned(analysis, here);
  if (edits.length === 0) return [refusal('pin', KIND, `Pin ${written} where it is played`, says)];
  return [{ id: 'pin', kind: KIND, title: `Pin what is played: ${says}`, carryOut: () => ({ edits }) }];
}

function ofProgression(analysis: Analysis, place: Place): readonly Action[] {
  const progression = progressionAt(analysis, place);
  if (!progression) return [];
  const chords = chordsWritten(analysis, progression).flatMap(({ here }) => here ?? []);
  const free = chords.filter((here) => !isPinned(here) && !here.plan.frets && here.score.voicing);
  const held = chords.filter(isPinned);
  const all: Action[] = [];
  const add = (
    id: string,
    what: string,
    which: readonly ChordHere[],
    edit: (here: ChordHere) => readonly Edit[],
  ): void => {
    if (which.length === 0) return;
    const title = `${what} ${progression.name} (${counted(which.length, 'chord')})`;
    all.push({ id, kind: KIND, title, carryOut: () => ({ edits: which.flatMap(edit) }) });
  };
  add('pin-all', 'Pin what is played of', free, (here) => pinned(analysis, here).edits);
  add('unpin-all', 'Take the pins off', held, (here) => changeOf(analysis, here, { kind: 'unpin' }).edits);
  return all;
}

const pinned = (analysis: Analysis, here: ChordHere): ReturnType<typeof changeOf> =>
  changeOf(analysis, here, { kind: 'pin', frets: formatFretList(here.score.voicing?.frets ?? []) });

/** `at 8` or `as x79900` stands behind it; `as lamp` names another shape and leaves the choice. */
function isPinned({ section, address, plan }: ChordHere): boolean {
  const { at, as } = section.places[address.bar].chords[address.chord].modifiers;
  return at !== undefined || (as !== undefined && plan.frets !== undefined);
}
