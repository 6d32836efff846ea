/** The names above a bar: the symbol that the author wrote, and what sounds where that is something else. */
import type { ChordScore } from '../realise/score.ts';
import { formatDegree } from '../theory/interval.ts';
import type { Run } from './drawing.ts';
import { TYPE } from './metrics.ts';
import { fitted, textWidth } from './text-width.ts';

export interface ChordLabel {
  readonly symbol: string;
  /** What sounds, where that is not what the symbol says. */
  readonly sounding?: string;
  /** Colours that open strings add: `11`, `b7`. */
  readonly colours: readonly string[];
}

export function chordLabel(chord: ChordScore): ChordLabel {
  if (chord.silent) return { symbol: 'N.C.', colours: [] };
  const symbol = chord.chord?.symbol ?? chord.written;
  const sounding = chord.voicing?.sounding[0];
  if (sounding === undefined || sounding === symbol) return { symbol, colours: [] };
  return { symbol, sounding, colours: (chord.voicing?.colours ?? []).map((degree) => formatDegree(degree, 'R')) };
}

/** From the fullest wording to the barest: what is used is the first that fits over every chord of a system. */
export const WORDINGS = ['sounds, colours', 'sounds', 'bare'] as const;
export type Wording = (typeof WORDINGS)[number];

/** Longer names than this are shortened rather than given more room. */
const WIDEST_NEEDED = 118;
const SPACE_BEFORE_SOUNDING = 8;

export function soundingRuns(label: ChordLabel, wording: Wording): readonly Run[] {
  if (label.sounding === undefined) return [];
  const said = wording === 'bare' ? label.sounding : `sounds ${label.sounding}`;
  if (wording !== 'sounds, colours' || label.colours.length === 0) return [{ text: said }];
  return [{ text: `${said} · ` }, { text: label.colours.join(' '), style: 'colour' }];
}

export const soundingWidth = (label: ChordLabel, wording: Wording): number =>
  soundingRuns(label, wording).reduce((sum, run) => sum + textWidth(run.text, TYPE.sounds, run.style === 'colour'), 0);

export const symbolWidth = (label: ChordLabel): number =>
  Math.min(textWidth(label.symbol, TYPE.symbol, true), WIDEST_NEEDED);

/** What a chord's name needs at the least, its sounding name in a second row. */
export const leastWidth = (label: ChordLabel): number =>
  Math.max(symbolWidth(label), Math.min(soundingWidth(label, 'bare'), WIDEST_NEEDED));

/** Where the sounding name begins when it stands behind the symbol. */
export const besideSymbol = (label: ChordLabel): number => symbolWidth(label) + SPACE_BEFORE_SOUNDING;

/** Whether everything fits over its chord with the sounding names behind the symbols, or with them in a second row. */
export function chooseWording(labels: readonly { readonly label: ChordLabel; readonly room: number }[]): {
  readonly wording: Wording;
  readonly beside: boolean;
} {
  const fits = (wording: Wording, beside: boolean): boolean =>
    labels.every(
      ({ label, room }) =>
        label.sounding === undefined || (beside ? besideSymbol(label) : 0) + soundingWidth(label, wording) <= room,
    );
  for (const wording of WORDINGS) if (wording !== 'bare' && fits(wording, true)) return { wording, beside: true };
  const wording = WORDINGS.find((each) => fits(each, false)) ?? 'bare';
  return { wording, beside: false };
}

/** A label's words cut to the room there is; `full` where something was cut. */
export function fittedRuns(
  runs: readonly Run[],
  room: number,
  size: number,
  bold = false,
): { readonly runs: readonly Run[]; readonly full?: string } {
  const full = runs.map((run) => run.text).join('');
  if (textWidth(full, size, bold) <= room) return { runs };
  return { runs: [{ text: fitted(full, room, size, bold) }], full };
}
