/** Takes the next voicing of the chord at the cursor, the easiest after the one that is played, and the easiest again in the end. */
import { formatFretList } from '../../fretboard/frets.ts';
import { changeOf } from '../chord-change.ts';
import { chordHere } from '../preview-chord.ts';
import { sameFrets, voicingsFor } from '../preview-voicings.ts';
import { refusal, type Action, type Actions, type Asked } from './action.ts';

const ID = 'next-voicing';
const KIND = 'refactor.rewrite.voicing';

export const nextVoicing: Actions = { kind: KIND, at: ({ analysis, place }) => nextOf(analysis, place) };

function nextOf(analysis: Asked['analysis'], { chord }: Asked['place']): readonly Action[] {
  const address = chord?.played[0];
  const here = address && chordHere(analysis, address);
  const set = here && voicingsFor(analysis, here);
  if (!here || !set) return [];
  const { voicings } = set;
  const held = here.score.voicing?.frets;
  const now = held === undefined ? -1 : voicings.findIndex(({ frets }) => sameFrets(frets, held));
  const next = voicings[(now + 1) % voicings.length];
  const title = `Take the next voicing of ${here.plan.written}`;
  if (!next) return [];
  if (now >= 0 && voicings.length === 1)
    return [refusal(ID, KIND, title, `Its shape has this one voicing of ${here.plan.written}.`)];
  const frets = formatFretList(next.frets);
  const { says, edits } = changeOf(analysis, here, { kind: 'pin', frets });
  if (edits.length === 0) return [refusal(ID, KIND, title, says)];
  const sounds = next.sounding[0] ?? here.plan.written;
  const what = [
    ...(says.includes(frets) ? [] : [frets]),
    ...(sounds === here.plan.written ? [] : [`sounds ${sounds}`]),
  ];
  const words = what.length === 0 ? says : says.replace(/;|$/, ` (${what.join(', ')})$&`);
  return [{ id: ID, kind: KIND, title: `Take the next voicing: ${words}`, carryOut: () => ({ edits }) }];
}
