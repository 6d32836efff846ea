/** Figures of the synthesis: how far each instrument is from its pitches, how fast it sounds, and what a sample's file is. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { soundingOf } from '../../server/src/export/sounding.ts';
import { wavOf } from '../../server/src/export/wav.ts';
import { cents, pitchOf } from './pitch-meter.ts';
import { BASS, GUITAR, note, heard, oneNote, timeline, UKULELE } from './plucked.ts';

const hertzOf = (midi: number): number => 440 * Math.pow(2, (midi - 69) / 12);

for (const [name, strings] of Object.entries({ guitar: GUITAR, bass: BASS, ukulele: UKULELE })) {
  for (const rate of [44_100, 48_000]) {
    let worst = 0;
    let where = '';
    for (const [index, open] of strings.entries()) {
      for (let fret = 0; fret <= 20; fret++) {
        const samples = oneNote(open + fret, 1.2, { place: Math.min(0.5, 0.16 * Math.pow(2, fret / 12)) }, rate);
        const off = cents(pitchOf(samples, rate, Math.round(0.03 * rate), 1.1), hertzOf(open + fret));
        if (Math.abs(off) <= worst) continue;
        worst = Math.abs(off);
        where = `string ${index + 1}, fret ${fret}`;
      }
    }
    console.log(`${name} at ${rate} Hz: at worst ${worst.toFixed(4)} cents, on ${where}`);
  }
}

const strum = Array.from({ length: 40 }, (_, index) =>
  GUITAR.map((midi, string) => note({ string: string + 1, at: index / 2, until: (index + 1) / 2, midi })),
).flat();
const speeds = Array.from({ length: 7 }, () => {
  const begun = performance.now();
  const { left } = heard(timeline(strum, 20));
  return left.length / 44.1 / (performance.now() - begun);
}).sort((a, b) => a - b);
console.log(`six strings struck twice a second: ${speeds[3].toFixed(0)} times as fast as they sound (median of 7)`);

for (const name of process.argv.slice(2).length > 0 ? process.argv.slice(2) : ['samples/harbour-lamps.lesson']) {
  const file = wavOf(soundingOf(analyze(readFileSync(name, 'utf8')), {}), { countIn: false, click: false });
  console.log(`${name}: ${file.length} bytes, sha256 ${createHash('sha256').update(file).digest('hex').slice(0, 16)}`);
}
