/** Facts about a bar, about one of its chords, and about one string of a chord. */
import { formatFretList } from '../fretboard/frets.ts';
import { neckFret, stringCount, type Instrument } from '../fretboard/instrument.ts';
import type { BarPlan, ChordPlan, Section } from '../lesson/lesson.ts';
import type { BarScore, ChordScore, SoundingString, Voicing } from '../realise/score.ts';
import { formatDegree, intervalWord } from '../theory/interval.ts';
import { melodyIn } from './claims/melody.ts';
import { formatNoteName } from '../theory/note.ts';
import { counted, listed, quoted } from './words.ts';
import { meant, nodeOf, shown, type Answer, type Node, type Step } from './facts-steps.ts';

export interface BarHere {
  readonly section: Section;
  readonly bar: BarPlan;
  /** Undefined where nothing was played of it. */
  readonly played?: BarScore;
  readonly instrument: Instrument;
}

/** What is told of a bar is told of its first chord, but for the melody, which is that of the whole bar. */
export function barNode(here: BarHere): Node {
  const { bar, section } = here;
  const facts = chordSteps(here, 0, () => melodyOf(here, undefined));
  const strings = stringsOf(here, 0);
  const chords = bar.chords.map((chord, index): Step => ({
    name: `${index + 1}`,
    says: `chord ${index + 1}: ${symbolOf(chord)}`,
    leads: chordNode(here, index),
  }));
  const place = `bar ${bar.number} of ${quoted(section.name)}`;
  return {
    find: (part) =>
      facts.find(({ name }) => name === part) ?? strings.find(part) ?? chords.find(({ name }) => name === part),
    list: () => [...facts, ...strings.list(), ...(chords.length > 1 ? chords : [])],
    missing(part) {
      if (/^\d+$/.test(part)) {
        const has =
          chords.length === 0
            ? 'is no chord'
            : `${chords.length === 1 ? 'is' : 'are'} ${counted(chords.length, 'chord')}`;
        return { unknown: `There ${has} in ${place}, and so no chord ${part}; name another.`, near: [] };
      }
      return strings.missing(part) ?? noFact(part, facts);
    },
    open: (part) => ({
      unknown: `Say what of ${place} is meant, as in ${quoted(`${section.name}.${part}.chord`)}.`,
      near: [],
    }),
  };
}

function chordNode(here: BarHere, index: number): Node {
  const facts = chordSteps(here, index, () => melodyOf(here, index));
  const strings = stringsOf(here, index);
  return {
    find: (part) => facts.find(({ name }) => name === part) ?? strings.find(part),
    list: () => [...facts, ...strings.list()],
    missing: (part) => strings.missing(part) ?? noFact(part, facts),
    open: () => ({ unknown: 'Say what of the chord is meant, as in `notes`.', near: [] }),
  };
}

const noFact = (part: string, facts: readonly Step[]): ReturnType<Node['missing']> =>
  meant(
    part,
    facts.map(({ name }) => name),
    `A chord has no fact ${shown(part)}`,
  );

const symbolOf = ({ silent, chord, written }: ChordPlan): string => (silent ? 'N.C.' : (chord?.symbol ?? written));

function chordSteps(here: BarHere, index: number, melody: () => Answer): readonly Step[] {
  const plan = here.bar.chords[index] as ChordPlan | undefined;
  const ofVoicing = (tell: (voicing: Voicing) => string | undefined) => (): Answer => {
    const found = voicingOf(here, index);
    return 'frets' in found ? tell(found) : found.answer;
  };
  const joined = (tell: (string: SoundingString) => string) =>
    ofVoicing(({ strings }) => strings.map(tell).join(' ') || undefined);
  return [
    { name: 'chord', says: 'the symbol', leads: () => (plan ? symbolOf(plan) : noChord(here)) },
    { name: 'sounds', says: 'the name of what sounds', leads: ofVoicing(({ sounding }) => sounding[0]) },
    { name: 'tones', says: 'the tones, from the lowest up', leads: joined(({ degree }) => formatDegree(degree, 'R')) },
    {
      name: 'notes',
      says: 'the notes that sound, from the lowest up',
      leads: joined(({ pitch }) => formatNoteName(pitch)),
    },
    {
      name: 'frets',
      says: 'the frets, from the lowest string up',
      leads: ofVoicing(({ frets }) => formatFretList(frets)),
    },
    {
      name: 'fingers',
      says: 'the fretting fingers, from the lowest string up',
      leads: ofVoicing(({ fingering }) => fingering && formatFretList(fingering.fingers)),
    },
    {
      name: 'colour',
      says: 'what open strings add',
      leads: ofVoicing(({ colours }) => listed(colours.map(intervalWord)) || 'none'),
    },
    { name: 'melody', says: 'the melody’s notes', leads: melody },
    {
      name: 'reach',
      says: 'the highest fret pressed less the lowest',
      leads: ofVoicing(({ frets }) => `${reachOf(frets, here.instrument)}`),
    },
  ];
}

const noChord = ({ bar, section }: BarHere): Answer =>
  bar.broken
    ? undefined
    : { unknown: `There is no chord in bar ${bar.number} of ${quoted(section.name)}; name another bar.` };

/** The voicing, or the answer that stands in its place. */
function voicingOf(here: BarHere, index: number): Voicing | { readonly answer: Answer } {
  const { bar, played, section } = here;
  const plan = bar.chords[index] as ChordPlan | undefined;
  const chord = played?.chords[index] as ChordScore | undefined;
  if (chord?.voicing) return chord.voicing;
  if (!plan) return { answer: noChord(here) };
  const place = `Bar ${bar.number} of ${quoted(section.name)}`;
  if (plan.silent)
    return { answer: { unknown: `${place} is silent there (N.C.), so there is nothing to tell of a shape.` } };
  if (bar.tab) return { answer: { unknown: `${place} is written out as a tab, so there is no shape to tell of.` } };
  // No voicing, an unknown shape, a chord that cannot be read: each of them has its own finding.
  return { answer: undefined };
}

/** In frets of the neck, so that a capo on some strings only does not change what the hand feels. */
function reachOf(frets: Voicing['frets'], instrument: Instrument): number {
  const pressed = frets.flatMap((fret, index) =>
    fret === null || fret === 0 ? [] : [neckFret(instrument, frets.length - index, fret)],
  );
  return pressed.length === 0 ? 0 : Math.max(...pressed) - Math.min(...pressed);
}

function melodyOf({ bar, played, section }: BarHere, chord: number | undefined): Answer {
  // As claims hear it: in a tab the highest of the notes that begin together.
  const notes = (played ? melodyIn({ played }) : []).filter((event) => chord === undefined || event.chord === chord);
  if (notes.length > 0) return notes.map(({ pitch }) => formatNoteName(pitch)).join(' ');
  // A contour that finds no note over the chord has its finding.
  if (bar.contour !== undefined || bar.broken) return undefined;
  return {
    unknown: `No melody sounds in bar ${bar.number} of ${quoted(section.name)}; give the section one, or take this out.`,
  };
}

interface Strings {
  find(part: string): Step | undefined;
  list(): readonly Step[];
  /** Undefined where the part is no string. */
  missing(part: string): ReturnType<Node['missing']> | undefined;
}

/** `string4` and what is told of it; without a shape every string of the instrument is left open. */
function stringsOf(here: BarHere, index: number): Strings {
  const numberIn = (part: string): number | undefined => {
    const found = /^string(\d{1,2})$/.exec(part);
    return found ? Number(found[1]) : undefined;
  };
  const stepOf = (one: SoundingString): Step => ({
    name: `string${one.string}`,
    says: `string ${one.string}: ${formatNoteName(one.pitch)}, ${intervalWord(one.degree)}`,
    leads: stringNode(one),
  });
  const sounding = (): readonly SoundingString[] => {
    const found = voicingOf(here, index);
    return 'frets' in found ? found.strings : [];
  };
  const count = stringCount(here.instrument);
  return {
    find(part) {
      const number = numberIn(part);
      if (number === undefined) return undefined;
      const found = voicingOf(here, index);
      if ('frets' in found) {
        const one = found.strings.find(({ string }) => string === number);
        return one && stepOf(one);
      }
      if (number < 1 || number > count) return undefined;
      return { name: part, says: '', leads: stringNode(undefined, found.answer) };
    },
    // From the lowest string up, as they sound.
    list: () => sounding().map(stepOf),
    missing(part) {
      const number = numberIn(part);
      if (number === undefined) return undefined;
      const strings = sounding().map(({ string }) => `${string}`);
      const place = `bar ${here.bar.number} of ${quoted(here.section.name)}`;
      if (number < 1 || number > count)
        return {
          unknown: `There is no string ${number}; strings are counted from 1, the highest, to ${count}.`,
          near: [],
        };
      return {
        unknown: `String ${number} is silent in ${place}; ${strings.length === 1 ? `only string ${strings[0]} sounds` : `strings ${listed(strings)} sound`}.`,
        near: [],
      };
    },
  };
}

function stringNode(one: SoundingString | undefined, answer?: Answer): Node {
  const tell = (word: (string: SoundingString) => string) => (): Answer => (one ? word(one) : answer);
  const steps: readonly Step[] = [
    { name: 'interval', says: 'what it is to the chord', leads: tell(({ degree }) => intervalWord(degree)) },
    { name: 'degree', says: 'the same as a number', leads: tell(({ degree }) => formatDegree(degree, 'R')) },
    { name: 'note', says: 'the note that sounds', leads: tell(({ pitch }) => formatNoteName(pitch)) },
  ];
  const names = steps.map(({ name }) => name);
  return nodeOf(
    steps,
    (part) => meant(part, names, `A string has no fact ${shown(part)}`),
    (part) => ({ unknown: `Say what of the string is meant, as in ${quoted(`${part}.interval`)}.`, near: [] }),
  );
}
