/**
 * Measures the fingering search on a file of shapes with published fingers: how many it takes for playable, how often the published
 * fingers come first and among the first three, and how long a shape takes. `npm run eval -- FILE [--tuning NAME] [--hand SIZE]`.
 * Each line of the file holds a fret list and a finger list (0 open, x silent), joined by hyphens, with a tab between them.
 */
import { readFileSync } from 'node:fs';
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith, stringCount } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';
import { judgeShape } from '../../server/src/hand/fingering.ts';
import type { Fingering, HandSize, Zone } from '../../server/src/hand/fingering.ts';

const ROUNDS = 20;
const SHOWN_CHOICES = 3;

const listed = (places: readonly (number | null)[]): string => places.map((place) => place ?? 'x').join('-');
const percent = (part: number, whole: number): string => `${((100 * part) / Math.max(1, whole)).toFixed(2)} %`;
const described = (each: Fingering): string => `${listed(each.fingers)} (${(each.cost / 1e6).toFixed(2)})`;

function optionAfter(name: string, otherwise: string): string {
  const at = process.argv.indexOf(name);
  return at > 0 ? (process.argv[at + 1] ?? otherwise) : otherwise;
}

const file = process.argv[2];
const tuning = tuningNamed(optionAfter('--tuning', 'standard'));
const hand = optionAfter('--hand', 'medium') as HandSize;
if (!file || !tuning || !['small', 'medium', 'large'].includes(hand)) {
  console.error('npm run eval -- FILE [--tuning NAME] [--hand small|medium|large]');
  process.exit(2);
}

const instrument = instrumentWith(tuning);
const rows = readFileSync(file, 'utf8')
  .split(/\r?\n/)
  .flatMap((line) => {
    const [frets, fingers] = line.split('\t').map((text) => parseFretList(text, stringCount(instrument)));
    return frets && fingers ? [{ frets, fingers: listed(fingers) }] : [];
  });

let playable = 0;
let first = 0;
let amongThree = 0;
let mostSteps = 0;
const zones = new Map<Zone, number>();
const disagreements: string[] = [];
for (const { frets, fingers } of rows) {
  const verdict = judgeShape(instrument, frets, hand);
  mostSteps = Math.max(mostSteps, verdict.steps);
  zones.set(verdict.zone, (zones.get(verdict.zone) ?? 0) + 1);
  if (!verdict.playable) {
    disagreements.push(`${listed(frets)}\t${fingers}\tnot playable: ${JSON.stringify(verdict.whyNot)}`);
    continue;
  }
  playable++;
  const rank = verdict.fingerings.findIndex((each) => listed(each.fingers) === fingers);
  if (rank === 0) first++;
  if (rank >= 0 && rank < 3) amongThree++;
  if (rank === 0) continue;
  const published = rank < 0 ? 'refused' : `place ${rank + 1} (${(verdict.fingerings[rank].cost / 1e6).toFixed(2)})`;
  const choices = verdict.fingerings.slice(0, SHOWN_CHOICES).map(described).join('  ');
  disagreements.push(`${listed(frets)}\t${fingers}\t${published}\tinstead: ${choices}`);
}

for (const { frets } of rows) judgeShape(instrument, frets, hand);
const started = process.hrtime.bigint();
for (let round = 0; round < ROUNDS; round++) for (const { frets } of rows) judgeShape(instrument, frets, hand);
const microseconds = Number(process.hrtime.bigint() - started) / 1000 / ROUNDS / Math.max(1, rows.length);

for (const line of disagreements) console.log(line);
console.log(`shapes               ${rows.length}, ${tuning.name}, ${hand} hand`);
console.log(`playable             ${playable} (${percent(playable, rows.length)})`);
console.log(`published first      ${first} (${percent(first, rows.length)})`);
console.log(`among first three    ${amongThree} (${percent(amongThree, rows.length)})`);
console.log(`zones                ${[...zones].map(([zone, count]) => `${zone} ${count}`).join(', ')}`);
console.log(`most steps           ${mostSteps}`);
console.log(`mean time            ${microseconds.toFixed(1)} µs a shape`);
