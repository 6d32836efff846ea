/** A contour with more notes than its chord has room for. */
import type { Rule } from './rule.ts';
import { onceForContour } from './shared/contours.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'notes-cut',
  severity: 'hint',
  topic: 'playing',
  title: 'A contour that is cut short',
  why: 'A contour starts anew with every chord, so what does not fit into the time of the chord is left out. Over a chord of half a bar that may be meant; over a whole bar it is more likely a note too many.',
  bad: `shape lamp
  strings 3 2 1
  tones R 3 5

progression quay
  D

contour swell on 1
  each 1/4
  from 5: 0 +1 0 +1 0

section verse
  progression quay
  shape lamp
  contour swell
`,
  good: `shape lamp
  strings 3 2 1
  tones R 3 5

progression quay
  D

contour swell on 1
  each 1/4
  from 5: 0 +1 0 +1

section verse
  progression quay
  shape lamp
  contour swell
`,
  check: (context) =>
    onceForContour(
      context,
      (chord, over) => {
        const { cut } = over.outcome;
        const note = over.definition?.noteSpans[over.contour.notes.length - cut];
        return cut === 0 ? undefined : { weight: cut, over, chord, note, noted: 'From here on it is cut.' };
      },
      ({ weight, over }, all, where) => {
        const upTo = all.some((one) => one.weight !== weight) ? 'up to ' : '';
        const notes = weight === 1 ? 'last note' : `last ${weight} notes`;
        const what = `${where} there is no room for ${upTo}the ${notes} of ${quoted(over.contour.name)}`;
        // Such a contour gets as many notes as the cell plucks its string, however long the chord is held.
        if (over.contour.notes.some((note) => note.length === undefined))
          return { message: `${what}, which takes the cell’s plucks; shorten it, or say ${quoted('each 1/4')} in it.` };
        return { message: `${what}; shorten it, or hold the chord${all.length === 1 ? '' : 's'} longer.` };
      },
    ),
};
