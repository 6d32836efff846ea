/** What is open below the music, worked out only while it is open: about the chord at the cursor, its section, or the variants. */
import type { Analysis } from '../analyze.ts';
import type { PanelAsked } from '../protocol.ts';
import type { DrawnAs, OpenPanel } from './preview-block.ts';
import { chordHere, said } from './preview-chord.ts';
import { neckPanel } from './preview-neck.ts';
import { openStringsPanel } from './preview-open-strings.ts';
import { addressOf } from './preview-places.ts';
import { variantsPanel } from './preview-variants.ts';
import { voicingsPanel } from './preview-voicings.ts';

/** `width` in pixels of the drawing. */
export function panelOf(analysis: Analysis, asked: PanelAsked, width: number, drawnAs: DrawnAs): OpenPanel {
  const address = asked.bar === undefined ? undefined : addressOf(analysis, asked.bar, asked.chord ?? 0);
  const here = address && chordHere(analysis, address);
  switch (asked.kind) {
    case 'neck':
      return here ? neckPanel(analysis, here, width, drawnAs) : nowhere('neck');
    case 'voicings':
      return here ? voicingsPanel(analysis, here, asked, drawnAs) : nowhere('voicings');
    case 'open-strings':
      return openStringsPanel(analysis, address?.section);
    case 'variants':
      return variantsPanel(analysis, address?.section, width, drawnAs);
  }
}

const nowhere = (kind: 'neck' | 'voicings'): OpenPanel => ({
  kind,
  title: kind === 'neck' ? 'Neck' : 'Voicings',
  blocks: [said('nowhere', 'Put the cursor on a chord, or choose a bar.')],
});
