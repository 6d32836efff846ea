/** How long it takes to realise a section: cold and with a warm cache. Medians in ms, and as ratios to the smallest case. */
import { builtInShapes } from '../../server/src/lesson/built-in-shapes.ts';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import type { SectionPlan } from '../../server/src/lesson/lesson.ts';
import { contourOf, cellOf, planOf, settingsOf, shapeOf } from '../support/plan.ts';

const ROUNDS = 15;

const settings = settingsOf();
const FEW = ['G', 'D', 'Em', 'Am', 'C', 'D7', 'Bm', 'Em7'];
const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
const MANY = ROOTS.flatMap((root) => ['', 'm', '7', 'm7', 'maj7', 'sus4', 'add9', '6'].map((kind) => root + kind));
const bars = (symbols: readonly string[], count: number): string =>
  Array.from({ length: count }, (_, bar) => symbols[(bar * 7) % symbols.length]).join(' | ');

const cell = cellOf('each 1/8', 'p(bass) i3 m2 a1 m2 i3 p(alt) i3');
const contour = contourOf(1, '1/4', '5 or R or 3', '0 +1 0 -1');
const lamp = shapeOf('strings 4 2 1', 'tones 3 R 5', 'open 3', 'frets 1 to 12', 'reach 2');
const close = shapeOf('strings 3 2 1', 'spacing close', 'frets 0 to 15');
const [open, barre] = builtInShapes;

const cases: readonly (readonly [string, () => SectionPlan])[] = [
  ['64 bars, a fixed shape', () => planOf(bars(FEW, 64), { rule: lamp, cell, contour })],
  ['64 bars, open chords', () => planOf(bars(FEW, 64), { rule: open, cell, contour })],
  ['200 bars, open chords', () => planOf(bars(FEW, 200), { rule: open, cell, contour })],
  ['200 bars, close triads', () => planOf(bars(FEW, 200), { rule: close, cell, contour })],
  ['200 bars, barre chords', () => planOf(bars(FEW, 200), { rule: barre, cell, contour })],
  ['200 bars, 96 chords, open', () => planOf(bars(MANY, 200), { rule: open, cell, contour })],
];

function median(times: number[]): number {
  times.sort((a, b) => a - b);
  return times[times.length >> 1];
}

function time(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** The plan with another chord in its middle, as after a keystroke. */
function edited(plan: SectionPlan, round: number): SectionPlan {
  const at = plan.bars.length >> 1;
  const other = plan.bars[(at + 1 + (round % 3)) % plan.bars.length];
  return { ...plan, bars: plan.bars.map((bar, index) => (index === at ? { ...bar, chords: other.chords } : bar)) };
}

let unit = 0;
for (const [name, make] of cases) {
  const cold = median(
    Array.from({ length: ROUNDS }, () => time(() => realiseSection(make(), settings, new RealiseCache()))),
  );
  const cache = new RealiseCache();
  const plan = make();
  realiseSection(plan, settings, cache);
  const warm = median(
    Array.from({ length: ROUNDS }, (_, round) => {
      const next = { ...edited(plan, round), tempo: { ...plan.tempo, perMinute: 60 + round } };
      return time(() => realiseSection(next, settings, cache));
    }),
  );
  unit ||= cold;
  const shown = [cold, warm].map((ms) => `${ms.toFixed(1).padStart(7)} ms ${(ms / unit).toFixed(2).padStart(6)}x`);
  console.log(`${name.padEnd(28)} cold ${shown[0]}   after an edit ${shown[1]}`);
}
