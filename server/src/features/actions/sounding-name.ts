/** Makes the name of what sounds the chord's symbol, where the two differ. */
import type { Analysis } from '../../analyze.ts';
import { formatFretList } from '../../fretboard/frets.ts';
import { parseChord, sameSymbol, type Chord } from '../../theory/chord.ts';
import { looksLikeNumeral } from '../../theory/numeral.ts';
import { applyEdits } from '../../util/edits.ts';
import type { Edit } from '../../util/finding.ts';
import { chordHere, type ChordHere } from '../preview-chord.ts';
import { sameFrets } from '../preview-voicings.ts';
import { refusal, type Action, type Actions, type Asked } from './action.ts';
import { chordsWritten, progressionAt } from './chord-places.ts';
import { asNumeral, asSymbol } from './written-symbol.ts';

const ID = 'sounding-name';
const KIND = 'refactor.rewrite.symbol';

export const soundingName: Actions = { kind: KIND, at: ({ analysis, place }) => nameActions(analysis, place) };

function nameActions(analysis: Analysis, place: Asked['place']): readonly Action[] {
  const address = place.chord?.played[0];
  const here = address && chordHere(analysis, address);
  const [name] = here?.score.voicing?.shapeNames ?? [];
  const chord = here?.plan.chord;
  if (!here || !chord || name === undefined || name === chord.symbol) return [];
  const sounding = parseChord(name);
  if (sounding && sameSymbol(sounding, chord)) return [];
  const title = `Write ${here.plan.written} as it sounds: ${name}`;
  if (!sounding) return [refusal(ID, KIND, title, `${name} tells what sounds, and is no chord symbol.`)];
  const progression = progressionAt(analysis, place);
  const written =
    progression && chordsWritten(analysis, progression).find((one) => one.place.span.start === place.chord?.span.start);
  if (!written) return [];
  return [{ id: ID, kind: KIND, title, carryOut: () => ({ edits: renamed(analysis, here, sounding) }) }];
}

/** With the frets pinned where the new name alone would be played in another way. */
function renamed(analysis: Analysis, here: ChordHere, sounding: Chord): readonly Edit[] {
  const { section, address, plan, score } = here;
  const place = section.places[address.bar].chords[address.chord];
  const numeral = looksLikeNumeral(plan.written) ? asNumeral(sounding, section.plan.key, place) : undefined;
  const edits = numeral ?? asSymbol(sounding, place, analysis.text) ?? [];
  const after = chordHere(analysis.rewritten(applyEdits(analysis.text, edits)), address)?.score.voicing;
  const frets = score.voicing!.frets;
  if (edits.length === 0 || (after && sameFrets(after.frets, frets))) return edits;
  const pin = `as ${formatFretList(frets)}`;
  const own = place.modifiers.at ?? place.modifiers.as;
  const [symbol, ...others] = edits;
  return own
    ? [symbol, ...others, { span: own, text: pin }].sort((a, b) => a.span.start - b.span.start)
    : [{ ...symbol, text: `${symbol.text} ${pin}` }, ...others];
}
