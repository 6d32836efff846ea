/** `frets 1 to 12`: whatever is pressed, in shapes, melodies and tabs, lies there; open strings lie nowhere. */
import { listed } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { barNamed, barsOn, chordsOf, judgedBy, shapesOn, type PlayedBar, type Stage } from './stage.ts';

interface Range {
  readonly lowest: number;
  readonly highest: number;
}

type PressedBar = PlayedBar & Range;

export const frets: Predicate<Said<'frets'>> = {
  judge: ({ lowest, highest }, stage) => {
    const pressed = pressedBars(stage);
    return judgedBy(
      stage,
      { shaped: pressed, missing: shapesOn(stage).missing },
      (bar) => bar.lowest < lowest || bar.highest > highest,
      (first) => {
        const whole = rangeOf(pressed);
        const from = first.lowest < lowest ? [`down to fret ${first.lowest}`] : [];
        const to = first.highest > highest ? [`up to fret ${first.highest}`] : [];
        const repair = {
          from: `${Math.min(lowest, whole.lowest)}`,
          to: `${Math.max(highest, whole.highest)}`,
        };
        return { truth: `${barNamed(stage, first)} goes ${listed([...from, ...to])}`, repair };
      },
    );
  },
  why: (_, stage) => {
    const { lowest, highest } = rangeOf(pressedBars(stage));
    return `The lowest fret pressed is ${lowest}, the highest ${highest}.`;
  },
  truths: (stage) => {
    const pressed = pressedBars(stage);
    if (pressed.length === 0 || shapesOn(stage).missing !== undefined) return [];
    const { lowest, highest } = rangeOf(pressed);
    return [{ text: `frets ${lowest} to ${highest}`, detail: 'the lowest and the highest pressed' }];
  },
};

const rangeOf = (bars: readonly Range[]): Range => ({
  lowest: Math.min(...bars.map(({ lowest }) => lowest)),
  highest: Math.max(...bars.map(({ highest }) => highest)),
});

function pressedBars(stage: Stage): readonly PressedBar[] {
  return barsOn(stage).flatMap((bar): readonly PressedBar[] => {
    let lowest = Infinity;
    let highest = 0;
    const press = (fret: number): void => {
      if (fret === 0) return;
      lowest = Math.min(lowest, fret);
      highest = Math.max(highest, fret);
    };
    for (const { fret } of bar.played.events) press(fret);
    for (const { score } of bar.bar.tab ? [] : chordsOf(bar))
      for (const fret of score.voicing?.frets ?? []) press(fret ?? 0);
    return highest === 0 ? [] : [{ ...bar, lowest, highest }];
  });
}
