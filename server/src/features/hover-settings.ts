/** What a hover says of a setting: the strings of a tuning, what sounds behind a capo, the notes and chords of a key. */
import type { Analysis } from '../analyze.ts';
import type { Settings, Tempo } from '../lesson/lesson.ts';
import { beatWords } from '../draw/rhythm.ts';
import { keyWords, meterWords, tempoWords } from '../draw/facts.ts';
import { capoOn, openMidi, stringCount, type Instrument } from '../fretboard/instrument.ts';
import { HAND_FACTOR } from '../hand/model.ts';
import { counted, listed } from '../rules/shared/words.ts';
import { keySignature, type Key } from '../theory/key.ts';
import { formatNoteName, formatPitch, pitchFromMidi, usualName } from '../theory/note.ts';
import { dividedBy, toNumber, type Fraction } from '../util/fraction.ts';
import { chordsInKey } from './key-chords.ts';
import { line, strong, table, type Block } from './page.ts';
import type { Place } from './place.ts';

/** Triads on the seven degrees. */
const TRIADS = 7;

/** Seconds that a length, in whole notes, lasts. */
export const secondsOf = (length: Fraction, tempo: Tempo): number =>
  (toNumber(dividedBy(length, tempo.beat)) * 60) / tempo.perMinute;

/** What holds, which need not be what the line says: an unknown tuning leaves the usual one. */
export function settingPage(analysis: Analysis, { name, section }: NonNullable<Place['setting']>): Block[] {
  const { settings } = analysis.lesson;
  const { instrument } = settings;
  const { key, meter, tempo } = section?.plan ?? settings;
  switch (name) {
    case 'tuning':
      return tuningBlocks(instrument);
    case 'capo':
      return capoBlocks(settings);
    case 'frets':
      return [line(strong(counted(instrument.frets, 'fret')), '.')];
    case 'scale-length':
      return [line(strong(`${instrument.scaleLength} mm`), ' from nut to bridge: stretches are measured on it.')];
    case 'hand':
      return [
        line(
          strong(`${settings.hand} hand`),
          `: reaches are those of a medium hand times ${HAND_FACTOR[settings.hand]}.`,
        ),
      ];
    case 'key':
      return keyBlocks(key, instrument);
    case 'meter':
      return [
        line(
          strong(meterWords(meter)),
          `: counted in ${beatWords(meter.beat)}s, ${inBar(meter.bar, meter.beat)} a bar.`,
        ),
      ];
    case 'tempo':
      return [line(strong(tempoWords(tempo)), `: a bar lasts ${secondsOf(meter.bar, tempo).toFixed(2)} seconds.`)];
    case 'swing':
      return settings.swing
        ? [line(strong(`${beatWords(settings.swing)}s`), ' in pairs, long and short, two to one.')]
        : [];
    case 'level':
      return settings.level === undefined
        ? []
        : [line(strong(`Level ${settings.level}`), ` of 5: ${levelWords(settings.level)}.`)];
    default:
      return [];
  }
}

function inBar(bar: Fraction, beat: Fraction): string {
  const count = dividedBy(bar, beat);
  return count.under === 1 ? `${count.over}` : `${count.over}/${count.under}`;
}

function levelWords(level: number): string {
  if (level <= 2) return 'a beginner, for whom wide reaches and wide barres are warned of';
  return level === 3 ? 'neither a beginner nor advanced' : 'advanced';
}

/** The strings from the highest on, as the player counts them. */
const stringsOf = (instrument: Instrument): readonly number[] =>
  Array.from({ length: stringCount(instrument) }, (_, i) => i + 1);

function tuningBlocks(instrument: Instrument): Block[] {
  const { tuning } = instrument;
  const own = /^[a-z]/.test(tuning.name) ? tuning.name : 'A tuning of its own';
  const rows = stringsOf(instrument).map((string) => [
    `${string}`,
    formatPitch(tuning.strings[tuning.strings.length - string]),
  ]);
  return [line(strong(own), ', the highest string first.'), table(['string', 'sounds'], rows)];
}

function capoBlocks({ instrument, key }: Settings): Block[] {
  const { capo } = instrument;
  if (!capo) return [line('No capo: frets are counted from the nut.')];
  const rows = stringsOf(instrument).map((string) => {
    const sounding = openMidi(instrument, string);
    const pitch = pitchFromMidi(sounding, usualName(sounding % 12));
    return [`${string}`, formatPitch(pitch), capoOn(instrument, string) === 0 ? 'free' : `capo at fret ${capo.fret}`];
  });
  return [
    line(strong(`Capo ${capo.fret}`), `: ${keyWords(key, instrument)}.`),
    table(['string', 'sounds open', ''], rows),
  ];
}

function keyBlocks(key: Key, instrument: Instrument): Block[] {
  const fifths = keySignature(key);
  const signs = fifths === 0 ? 'no signs' : counted(Math.abs(fifths), fifths > 0 ? 'sharp' : 'flat');
  const chords = chordsInKey(key).slice(0, TRIADS);
  return [
    line(strong(keyWords(key, instrument)), `: ${listed(key.scale.map(formatNoteName))}; ${signs}.`),
    table(
      chords.map(({ numeral }) => numeral ?? ''),
      [chords.map(({ chord }) => chord.symbol)],
    ),
  ];
}
