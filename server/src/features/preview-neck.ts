/** The neck: one chord on the whole fingerboard, the way of the melody over it, and how far the hand reaches. */
import type { Analysis } from '../analyze.ts';
import { drawNeck } from '../draw/neck.ts';
import { escaped, svgOf } from '../draw/svg.ts';
import type { Voicing } from '../realise/score.ts';
import { block, type DrawnAs, type OpenPanel } from './preview-block.ts';
import { namesOf, symbolOf } from './preview-music.ts';
import { said, titleOf, type ChordHere } from './preview-chord.ts';

export function neckPanel({ lesson }: Analysis, here: ChordHere, width: number, look: DrawnAs): OpenPanel {
  const { score, address, barScore } = here;
  const title = titleOf(here);
  if (!score.voicing) {
    const why = score.silent ? 'No chord sounds here.' : 'No shape is held here: there is nothing to show on the neck.';
    return { kind: 'neck', title, blocks: [said('neck', why)] };
  }
  const { voicing } = score;
  const melody = barScore.events.filter(({ voice, chord }) => voice === 'melody' && chord === address.chord);
  const reach = voicing.fingering?.widest;
  const details = { look, whole: true, melody, ...(reach && { reach }) };
  const neck = drawNeck(symbolOf(score), voicing, lesson.settings.instrument, width, details);
  const caption = `<figcaption>${namesOf({ ...score, voicing })} <span class="small">${escaped(reachWords(voicing))}</span></figcaption>`;
  const figure = `<figure class="neck">${caption}${svgOf(neck, undefined, look.scale)}</figure>`;
  return { kind: 'neck', title, blocks: [block('panel/neck', figure)] };
}

const FINGERS = ['', 'index', 'middle', 'ring', 'little'];

/** `reach 61 mm, index to little finger at frets 3 and 5, comfortable`. */
function reachWords({ fingering, verdict }: Voicing): string {
  if (!fingering) return 'no hand can hold it';
  const { widest } = fingering;
  if (!widest) return fingering.fingers.some((finger) => finger) ? 'all fingers on one fret' : 'open strings alone';
  const [lower, higher] = widest.fingers.map((finger) => FINGERS[finger]);
  const frets = `frets ${widest.frets[0]} and ${widest.frets[1]}`;
  return `reach ${Math.round(widest.millimetres)} mm, ${lower} to ${higher} finger at ${frets}, ${verdict.zone}`;
}
