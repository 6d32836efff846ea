/** A lesson that sounds in another key by its capo alone: every symbol, shape and fret stays, and so do the open strings. */
import { nutFret, type Capo, type Instrument } from '../fretboard/instrument.ts';
import { shapeShift } from '../fretboard/shape-pitch.ts';
import type { PlacedStatement, SyntaxDocument } from '../syntax/document.ts';
import { leaf } from '../syntax/tree.ts';
import { semitone } from '../theory/note.ts';
import type { Key } from '../theory/key.ts';
import type { Edit } from '../util/finding.ts';
import { shifted, type Span } from '../util/span.ts';
import type { Loss } from './loss.ts';
import { settingEdit } from './setting-line.ts';
import { transposition, type Transposition } from './transpose.ts';

/** Beyond it a capo leaves too little of the neck for most lessons, and frets too narrow for most fingers. Set by judgement. */
export const HIGHEST_USUAL_CAPO = 7;

/**
 * The fret, 0 for none, from which a lesson written in `key` sounds in `to`. Undefined where the capo lies on some strings
 * only, for there is no fret to which such a sound could be moved.
 */
export function capoFor(key: Key, to: Key, instrument: Instrument): number | undefined {
  const { capo } = instrument;
  if (capo && nutFret(instrument) === 0) return undefined;
  const lowered = shapeShift(instrument) - (capo?.fret ?? 0);
  return (((semitone(to.tonic) - semitone(key.tonic) - lowered) % 12) + 12) % 12;
}

/** The edits that set, move or take off the capo so that a lesson written in `key` sounds in `to`, and what stands against it. */
export function byCapo(document: SyntaxDocument, key: Key, to: Key, instrument: Instrument): Transposition {
  const stated = document.statements.find(({ tree }) => tree.keyword === 'capo' || tree.keyword === 'no');
  const losses: Loss[] = [];
  const place: Span = stated ? shifted(stated.tree.head, stated.start) : { start: 0, end: 0 };
  const lose = (message: string, span: Span = place): void => void losses.push({ kind: 'capo', span, message });
  const fret = capoFor(key, to, instrument);
  if (fret === undefined) {
    lose('A capo on some strings only cannot be moved to another key: the strings it leaves free stay where they are.');
    return { edits: [], losses };
  }
  if (fret >= instrument.frets) {
    lose(`The capo would lie on fret ${fret}, and the neck has ${instrument.frets}.`);
    return { edits: [], losses };
  }
  if (fret > HIGHEST_USUAL_CAPO)
    lose(`A capo on fret ${fret} leaves little of the neck: another key to play in may do better.`);
  if (to.mode !== key.mode)
    losses.push({ kind: 'mode', span: place, message: `No capo makes ${to.mode} of ${key.mode}.` });
  const capo: Capo | undefined = fret === 0 ? undefined : { fret };
  const { tuning, frets, scaleLength } = instrument;
  const capoed: Instrument = { tuning, frets, scaleLength, ...(capo && { capo }) };
  for (const loss of transposition(document, key, key, capoed).losses) {
    if (loss.kind === 'prose') losses.push(loss);
    if (loss.kind !== 'neck') continue;
    losses.push({ ...loss, message: `With the capo on fret ${fret} this reaches beyond the neck.` });
  }
  for (const { tree, start } of document.statements) {
    const own = tree.keyword === 'variant' && tree.body.find((line) => line.form === 'capo' || line.form === 'no');
    if (own) lose('This variant says its capo itself, and so does not move.', shifted(own, start));
  }
  const edit = capoEdit(document, stated, fret);
  const byPlace = [...losses].sort((a, b) => a.span.start - b.span.start);
  return { edits: edit ? [edit] : [], losses: byPlace };
}

function capoEdit(document: SyntaxDocument, stated: PlacedStatement | undefined, fret: number): Edit | undefined {
  const line = fret === 0 ? 'no capo' : `capo ${fret}`;
  if (!stated) return fret === 0 ? undefined : settingEdit(document, line);
  const { head } = stated.tree;
  const written = leaf(head, 'fret');
  if (!written && fret === 0) return undefined;
  if (!written || fret === 0) return { span: shifted(head, stated.start), text: line };
  return Number(written.text) === fret ? undefined : { span: shifted(written, stated.start), text: `${fret}` };
}
