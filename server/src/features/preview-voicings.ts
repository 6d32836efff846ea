/** The voicings of one chord as diagrams, the easiest first: each can be chosen, which pins it in the text. */
import type { Analysis } from '../analyze.ts';
import { drawDiagram } from '../draw/diagram.ts';
import { voicingDifficulty } from '../draw/facts.ts';
import { spokenChord, spokenShape } from '../draw/spoken.ts';
import { escaped, svgOf } from '../draw/svg.ts';
import { formatFretList, type FretList } from '../fretboard/frets.ts';
import { midiAt, stringCount, type Instrument } from '../fretboard/instrument.ts';
import type { PanelAsked } from '../protocol.ts';
import type { Voicing } from '../realise/score.ts';
import { voicingsOf, type VoicingSet } from '../realise/voicings.ts';
import { block, type DrawnAs, type OpenPanel } from './preview-block.ts';
import { symbolOf } from './preview-music.ts';
import { cacheFor, ruleFor, said, titleOf, type ChordHere } from './preview-chord.ts';

/** Shown at first, and more with each asking; nobody compares more than the last. */
const FIRST_SHOWN = 24;
const MOST_SHOWN = 240;

/** Undefined where there is no chord to be voiced. */
export function voicingsFor(analysis: Analysis, here: ChordHere, lowestFret?: number): VoicingSet | undefined {
  const { plan, section, address } = here;
  if (!plan.chord) return undefined;
  const pins = lowestFret === undefined ? {} : { lowestFret };
  const cache = cacheFor(analysis, address.section);
  return voicingsOf(plan.chord, ruleFor(here), section.plan.key, analysis.lesson.settings, cache, pins);
}

export function voicingsPanel(analysis: Analysis, here: ChordHere, asked: PanelAsked, drawnAs: DrawnAs): OpenPanel {
  const title = titleOf(here);
  const set = voicingsFor(analysis, here);
  if (!set) return { kind: 'voicings', title, blocks: [said('voicings', 'No chord sounds here.')] };
  const most = Math.min(MOST_SHOWN, Math.max(FIRST_SHOWN, Math.floor(asked.most ?? FIRST_SHOWN)));
  const { voicings } = set;
  const shown = voicings.slice(0, most);
  const held = here.score.voicing?.frets;
  const isHeld = (voicing: Voicing): boolean => held !== undefined && sameFrets(voicing.frets, held);
  const { instrument } = analysis.lesson.settings;
  const symbol = symbolOf(here.score);
  const items = shown.map((voicing) => itemOf(symbol, voicing, isHeld(voicing), instrument, drawnAs));
  const more = Math.min(MOST_SHOWN, voicings.length) - shown.length;
  const button =
    more > 0
      ? `<button type="button" class="plain" data-key="more" data-most="${most + FIRST_SHOWN}">${more} more</button>`
      : '';
  return {
    kind: 'voicings',
    title,
    blocks: [
      block('panel/voicings/words', wordsOf(here, set, shown.length)),
      block(
        'panel/voicings',
        `<div class="voicings" role="group" aria-label="Voicings" data-open="${openOf(instrument)}">${items.join('')}</div>${button}`,
      ),
    ],
  };
}

function wordsOf(here: ChordHere, set: VoicingSet, shown: number): string {
  const rule = ruleFor(here);
  const count = set.voicings.length;
  const all = count === 1 ? 'One voicing' : `${count === 0 ? 'No' : count} voicings`;
  const cut = set.searchCut ? ', and maybe more: the search was cut short' : '';
  const first = shown < count ? `, the first ${shown} shown` : '';
  const { at, as } = here.section.places[here.address.bar]?.chords[here.address.chord]?.modifiers ?? {};
  const unpin = at || as ? ' <button type="button" class="plain" data-key="unpin" data-unpin="">unpin</button>' : '';
  const words = `${all} by shape ${rule.name}${first}${cut}. Choosing one pins the chord to it.`;
  return `<p class="quiet">${escaped(count === 0 ? `${all} by shape ${rule.name} that a hand can hold.` : words)}${unpin}</p>`;
}

/** What each string sounds when nobody presses it, string 1 first, as MIDI numbers: what a page needs to pluck a voicing. */
const openOf = (instrument: Instrument): string =>
  Array.from({ length: stringCount(instrument) }, (_, index) => midiAt(instrument, index + 1, 0)).join(' ');

const soundsOf = ({ strings }: Voicing): string => strings.map(({ string, midi }) => `${string}:${midi}`).join(' ');

export const sameFrets = (one: FretList, other: FretList): boolean =>
  one.length === other.length && one.every((fret, index) => fret === other[index]);

function itemOf(symbol: string, voicing: Voicing, held: boolean, instrument: Instrument, drawnAs: DrawnAs): string {
  const frets = formatFretList(voicing.frets);
  const name = voicing.sounding[0] ?? symbol;
  const difficulty = `${voicing.verdict.difficulty.toFixed(1)}, ${voicingDifficulty(voicing)}`;
  const says = `${spokenChord(name)}, difficulty ${difficulty}${held ? ', played now' : ''}: ${spokenShape(voicing)}`;
  const drawing = svgOf(drawDiagram(name, voicing, instrument, drawnAs), undefined, drawnAs.scale);
  return (
    `<button type="button" class="voicing" data-sounds="${soundsOf(voicing)}" data-key="${escaped(frets)}"` +
    ` data-pin="${escaped(frets)}"` +
    ` aria-pressed="${held}" aria-label="${escaped(says)}">${drawing}<b>${escaped(name)}</b> ` +
    `<span class="small">${escaped(difficulty)}</span></button>`
  );
}
