/** What sounds on each string while written notes are read in their order: it says whether a note can follow the one before it. */
import { midi, parseNoteName, parsePitch, semitone } from '../theory/note.ts';
import { stringCount, topFret, type Instrument } from '../fretboard/instrument.ts';
import type { Leaf } from '../syntax/tree.ts';
import type { Source } from './reader.ts';
import type { SignNote } from './signs.ts';
import type { Attack, Bend, Technique } from './written.ts';

/** Frets above the stopped one at which a string divides so that a harmonic speaks: parts of a half to a sixth. */
const NODES = [3, 4, 5, 7, 9, 12, 16, 19, 24];
/** In frets; two tones and a half is what the lightest strings give. */
const FARTHEST_BEND = 5;

/** A note whose sign makes sense on its string. */
export type PlacedNote = Omit<Technique, 'palmMuted'> & {
  readonly string: number;
  readonly fret: number;
  readonly accent: boolean;
};

export class Strings {
  private readonly sounding = new Map<number, SignNote>();

  constructor(
    private readonly source: Source,
    private readonly instrument: Instrument,
  ) {}

  stop(string: number): void {
    this.sounding.delete(string);
  }

  stopAll(): void {
    this.sounding.clear();
  }

  /** The note as it can be played, or undefined; whatever is wrong with it is said at its word. */
  place(note: SignNote, string: number, word: Leaf): PlacedNote | undefined {
    const most = topFret(this.instrument, string);
    if (note.fret > most) {
      const data = { what: 'the fret', found: `${note.fret}`, least: '0', most: `${most}` };
      this.source.report('number-out-of-range', this.source.at(word), data);
      return undefined;
    }
    if (note.harmonic !== undefined && !NODES.includes(note.harmonic - note.fret)) {
      const right = note.fret + nearestNode(note.harmonic - note.fret);
      this.source.report('harmonic-without-node', this.source.at(word), {
        found: word.text,
        touched: `${note.harmonic}`,
        right: word.text.replace(`<${note.harmonic}>`, `<${right}>`),
      });
      return undefined;
    }
    const attack = this.attackOf(note, string, word);
    const bend = this.bendOf(note, word);
    this.sounding.set(string, note);
    const { bend: _, ...rest } = note;
    return { ...rest, string, attack, ...(bend && { bend }) };
  }

  /** What comes from the fretting hand needs a note before it on the string, and the right direction. */
  private attackOf(note: SignNote, string: number, word: Leaf): Attack {
    const { attack, fret } = note;
    if (attack === 'plucked' || attack === 'slap' || attack === 'tap') return attack;
    const before = this.sounding.get(string);
    const at = this.source.at(word);
    if (!before) {
      this.source.report('joined-to-nothing', at, { found: word.text, attack, string: `${string}` });
      return 'plucked';
    }
    if (before.dead || note.dead) return attack;
    const sign = SIGNS[attack].find((one) => word.text.includes(`${one}${fret}`)) ?? '';
    const up = fret > before.fret;
    const fits = fret !== before.fret && (sign === 'h' || sign === '/' ? up : !up);
    if (fits) return attack;
    const other = { h: 'p', p: 'h', '/': '\\', '\\': '/' }[sign] ?? '';
    this.source.report('joined-wrong-way', at, {
      found: word.text,
      attack,
      from: `${before.fret}`,
      to: `${fret}`,
      right: fret === before.fret ? '' : word.text.replace(`${sign}${fret}`, () => `${other}${fret}`),
    });
    if (fret === before.fret) return 'plucked';
    return attack === 'slide' ? attack : up ? 'hammer-on' : 'pull-off';
  }

  private bendOf({ bend, fret }: SignNote, word: Leaf): Bend | undefined {
    if (!bend) return undefined;
    const { to = fret, back, before, release } = bend;
    const quarters = bend.to === undefined ? 1 : (to - fret) * 2;
    const wrong =
      fret === 0
        ? 'open'
        : quarters <= 0
          ? 'down'
          : to - fret > FARTHEST_BEND
            ? 'far'
            : back !== undefined && back !== fret
              ? 'back'
              : undefined;
    if (wrong) {
      const right = wrong === 'back' ? word.text.replace(`r${back}`, `r${fret}`) : '';
      const data = { found: word.text, wrong, fret: `${fret}`, to: `${to}`, right };
      this.source.report('bend-goes-wrong', this.source.at(word), data);
      if (wrong !== 'back') return undefined;
    }
    return { quarters, before, release };
  }
}

/** The lowest fret of a note's name on a string, where a player writes `G` or `D4` for a fret; undefined where it is none there. */
export function fretOfNote(instrument: Instrument, string: number, text: string): number | undefined {
  const written = text.replace(/^[a-g]/, (letter) => letter.toUpperCase());
  const open = instrument.tuning.strings[stringCount(instrument) - string];
  const [name, pitch] = [parseNoteName(written), parsePitch(written)];
  const fret = pitch ? midi(pitch) - midi(open) : name ? (semitone(name) - semitone(open) + 12) % 12 : undefined;
  return fret !== undefined && fret >= 0 && fret <= topFret(instrument, string) ? fret : undefined;
}

const SIGNS: Readonly<Record<'hammer-on' | 'pull-off' | 'slide', readonly string[]>> = {
  'hammer-on': ['h'],
  'pull-off': ['p'],
  slide: ['/', '\\'],
};

const nearestNode = (touched: number): number =>
  NODES.reduce((best, node) => (Math.abs(node - touched) < Math.abs(best - touched) ? node : best));
