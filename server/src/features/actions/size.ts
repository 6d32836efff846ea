/** How much of a lesson may be played anew only to list what could be done to it. */
import type { Analysis } from '../../analyze.ts';

/** An evening's. What a longer lesson would become is worked out when somebody chooses it. */
const MOST_CHORDS_TRIED = 48;

export const isShort = ({ score }: Analysis): boolean =>
  score.sections.reduce((sum, { bars }) => sum + bars.reduce((all, { chords }) => all + chords.length, 0), 0) <=
  MOST_CHORDS_TRIED;
