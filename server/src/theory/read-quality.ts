/** Reads what follows a chord's root, in every spelling of the trade. What it can't read in full it doesn't read at all. */
import type { Degree } from './interval.ts';
import { degreeOf } from './quality.ts';

/** Longer suffixes than this are no chord symbol. */
const LONGEST = 60;

type Third = 'major' | 'minor' | 'sus2' | 'sus4' | 'both' | 'none';

/** The chord while it is being read. */
interface Reading {
  third: Third;
  /** Accidentals of its fifths; empty for none. */
  fifths: number[];
  sixths: number[];
  sevenths: number[];
  ninths: number[];
  elevenths: number[];
  thirteenths: number[];
  /** The number that the seventh chord is stacked up to: 0 without a seventh. */
  stacked: number;
  rootless: boolean;
  /** Whether an altered fifth has taken the natural one's place. */
  fifthChanged: boolean;
}

/** One spelling for the signs that have several: ♯ ♭ ♮, the dashes, the triangle, the circles; no space in parentheses. */
function normalised(text: string): string {
  return text
    .replace(/♯/g, '#')
    .replace(/♭/g, 'b')
    .replace(/♮/g, '')
    .replace(/[−–‐‑]/g, '-')
    .replace(/[△∆]/g, 'Δ')
    .replace(/[º˚]/g, '°')
    .replace(/[Øø∅]/g, 'ø')
    .replace(/＋/g, '+')
    .replace(/\([^()]*\)/g, (group) => group.replace(/\s+/g, ''));
}

const MAJOR = /^(?:major|maj|Major|Maj|MAJ|ma(?!dd|ug|lt)|Ma(?!dd|ug|lt)|MA|M(?!in|IN|i|I)|j|Δ)/;
const MINOR = /^(?:minor|min|Minor|Min|MIN|mi|Mi|MI|m|-)/;
const DIMINISHED = /^(?:diminished|dim|Dim|DIM|°|o(?!mit))/;
const HALF_DIMINISHED = /^(?:half-?dim(?:inished)?7?|ø7?)/;
const AUGMENTED = /^(?:augmented|aug|Aug|AUG|\+)/;
const NUMBER = /^(?:13|11|9|7|6\/9|69|6|5|2)/;
/** A major seventh inside a minor, diminished or augmented chord: `m(maj7)`, `mM7`, `-Δ`, `m/maj7`, `m#7`. */
const MAJOR_SEVENTH =
  /^(?:\((?:maj|Maj|ma|Ma|M|j|Δ)(13|11|9|7)\)|\/?(?:maj|Maj|ma|Ma|M|j)(13|11|9|7)|Δ(13|11|9|7)?|\([#+]7\)|[#+]7)/;
const SUSPENDED = /^sus(2\/4|4\/2|2sus4|4sus2|24|42|2|4)?/;
const ADDED =
  /^add(?:\((maj7|Maj7|M7|Δ7|bb7|b7|[#b+-]?(?:13|11|9|6|4|2))\)|(maj7|Maj7|M7|Δ7|bb7|b7|[#b+-]?(?:13|11|9|6|4|2)))/;
const WITHOUT = /^(?:no|omit)\.?(1|R|root|3rd|3|5th|5|7|9|11|13)/;
const ALTERED = /^([#b+-])(13|11|9|6|5|4|2)/;
const PLAIN = /^(?:13|11|9|6|4|2)/;

class Reader {
  readonly reading: Reading = {
    third: 'major',
    fifths: [0],
    sixths: [],
    sevenths: [],
    ninths: [],
    elevenths: [],
    thirteenths: [],
    stacked: 0,
    rootless: false,
    fifthChanged: false,
  };

  constructor(public rest: string) {}

  take(pattern: RegExp): RegExpExecArray | undefined {
    const match = pattern.exec(this.rest);
    if (!match) return undefined;
    this.rest = this.rest.slice(match[0].length);
    return match;
  }

  stackUpTo(number: number, seventh: number): void {
    const { reading } = this;
    reading.stacked = number;
    reading.sevenths = [seventh];
    if (number >= 9) reading.ninths = [0];
    if (number === 11) reading.elevenths = [0];
    // The eleventh of a 13 is left out, in practice always.
    if (number === 13) reading.thirteenths = [0];
  }

  /** Head: the quality word and the number on it. False where what follows can't be one. */
  head(): boolean {
    const { reading } = this;
    if (this.take(HALF_DIMINISHED)) {
      reading.third = 'minor';
      reading.fifths = [-1];
      this.stackUpTo(Number(this.take(/^(?:13|11|9)/)?.[0] ?? 7), -1);
      return true;
    }
    if (this.take(DIMINISHED)) return this.diminished();
    if (this.take(AUGMENTED)) return this.augmented();
    const major = this.take(MAJOR);
    if (major) return this.major(major[0]);
    if (this.take(MINOR)) return this.minor();
    if (this.take(/^dom(?=\d)/)) return this.number(false);
    if (this.take(/^alt/)) return this.alter();
    return this.number(false);
  }

  diminished(): boolean {
    const { reading } = this;
    reading.third = 'minor';
    reading.fifths = [-1];
    const major = this.take(MAJOR_SEVENTH);
    if (major) this.stackUpTo(Number(major[1] ?? major[2] ?? major[3] ?? 7), 0);
    else if (this.take(/^7/)) this.stackUpTo(7, -2);
    return true;
  }

  augmented(): boolean {
    const { reading } = this;
    reading.fifths = [1];
    reading.fifthChanged = true;
    const major = this.take(MAJOR_SEVENTH);
    if (major) this.stackUpTo(Number(major[1] ?? major[2] ?? major[3] ?? 7), 0);
    else this.number(false);
    return reading.third === 'major';
  }

  major(word: string): boolean {
    const number = this.take(/^(?:13|11|9|7|6\/9|69|6)/)?.[0];
    if (number === undefined) {
      if (word === 'Δ') this.stackUpTo(7, 0);
      return word !== 'j';
    }
    if (number.startsWith('6')) this.sixth(number);
    else this.stackUpTo(Number(number), 0);
    if (this.take(/^\+(?=$|\()/)) this.sharpenFifth();
    return true;
  }

  minor(): boolean {
    this.reading.third = 'minor';
    const major = this.take(MAJOR_SEVENTH);
    if (major) {
      this.stackUpTo(Number(major[1] ?? major[2] ?? major[3] ?? 7), 0);
      return true;
    }
    return this.number(true);
  }

  /** The number after a quality word or after the root itself. */
  number(minor: boolean): boolean {
    const number = this.take(NUMBER)?.[0];
    if (number === undefined) return true;
    if (number === '5') {
      this.reading.third = 'none';
      return !minor;
    }
    if (number === '2') {
      this.reading.ninths = [0];
      return true;
    }
    if (number.startsWith('6')) {
      this.sixth(number);
      return true;
    }
    const major = this.take(/^(?:maj|Maj|M(?!\w)|Δ)/);
    this.stackUpTo(Number(number), major ? 0 : -1);
    if (this.take(/^(?:\+|aug)(?=$|\(|sus)/)) this.sharpenFifth();
    return true;
  }

  sixth(number: string): void {
    this.reading.sixths = [0];
    if (number !== '6') this.reading.ninths = [0];
  }

  sharpenFifth(): void {
    this.reading.fifths = [1];
    this.reading.fifthChanged = true;
  }

  alter(): boolean {
    const { reading } = this;
    if (reading.third !== 'major' || (reading.stacked !== 0 && reading.stacked !== 7)) return false;
    if (reading.stacked === 7 && reading.sevenths[0] !== -1) return false;
    this.stackUpTo(7, -1);
    reading.fifths = [-1, 1];
    reading.ninths = [-1, 1];
    return true;
  }

  /** Everything after the head, in any order and in or out of parentheses. False where something is left unread. */
  changes(): boolean {
    let open = false;
    while (this.rest !== '') {
      if (!open && this.take(/^\(/)) open = true;
      else if (open && this.take(/^\)/)) open = false;
      else if (open && this.take(/^[,/]/)) continue;
      else if (!this.change(open)) return false;
    }
    return !open;
  }

  change(inParentheses: boolean): boolean {
    const suspended = this.take(SUSPENDED);
    if (suspended) return this.suspend(suspended[1] ?? '4');
    const added = this.take(ADDED);
    if (added) return this.add(added[1] ?? added[2]);
    const without = this.take(WITHOUT);
    if (without) return this.leaveOut(without[1]);
    if (this.take(/^alt/)) return this.alter();
    const altered = this.take(ALTERED);
    if (altered) return this.alterBy(altered[1] === '#' || altered[1] === '+' ? 1 : -1, Number(altered[2]));
    if (!inParentheses) return false;
    if (this.take(/^(?:maj|Maj|M|Δ)7/)) return this.add('maj7');
    const plain = this.take(PLAIN);
    return plain !== undefined && this.add(plain[0]);
  }

  /** A suspension takes the third's place: a minor chord that is suspended contradicts itself. */
  suspend(which: string): boolean {
    const { reading } = this;
    if (reading.third !== 'major') return false;
    reading.third = which === '2' || which === '4' ? `sus${which}` : 'both';
    return true;
  }

  add(text: string): boolean {
    const { reading } = this;
    if (/^(?:maj|Maj|M|Δ)7$/.test(text)) return this.addTo(reading.sevenths, 0);
    if (text === 'b7') return this.addTo(reading.sevenths, -1);
    if (text === 'bb7') return this.addTo(reading.sevenths, -2);
    const sign = /^[#+]/.test(text) ? 1 : /^[b-]/.test(text) ? -1 : 0;
    return this.place(Number(text.replace(/^\D/, '')), sign);
  }

  place(number: number, accidental: number): boolean {
    const { reading } = this;
    if (number === 2 || number === 9) return this.addTo(reading.ninths, accidental);
    if (number === 4 || number === 11) return accidental >= 0 && this.addTo(reading.elevenths, accidental);
    if (accidental > 0) return false;
    return this.addTo(reading.thirteenths, accidental);
  }

  addTo(list: number[], accidental: number): boolean {
    if (!list.includes(accidental)) list.push(accidental);
    return true;
  }

  /** An alteration takes the place of what the number has promised (`13b9`), or else comes on top of it (`7b9`). */
  alterBy(accidental: number, number: number): boolean {
    const { reading } = this;
    if (number === 5) {
      if (reading.third === 'none') return false;
      if (!reading.fifthChanged) reading.fifths = [];
      reading.fifthChanged = true;
      return this.addTo(reading.fifths, accidental);
    }
    const promised = reading.stacked;
    if (number === 9 || number === 2) {
      if (promised === 9) return false;
      if (promised > 9) reading.ninths = reading.ninths.filter((each) => each !== 0);
    }
    if ((number === 11 || number === 4) && promised === 11) return false;
    if ((number === 13 || number === 6) && promised === 13) return false;
    return this.place(number, accidental);
  }

  leaveOut(what: string): boolean {
    const { reading } = this;
    const number = what === 'R' || what === 'root' ? 1 : Number.parseInt(what, 10);
    if (number === 1) {
      reading.rootless = true;
      return true;
    }
    if (number === 3) {
      if (reading.third !== 'major' && reading.third !== 'minor') return false;
      reading.third = 'none';
      return true;
    }
    const lists: Readonly<Record<number, number[]>> = {
      5: reading.fifths,
      7: reading.sevenths,
      9: reading.ninths,
      11: reading.elevenths,
      13: reading.thirteenths,
    };
    const list = lists[number];
    if (list.length === 0) return false;
    list.length = 0;
    return true;
  }
}

function degreesOf(reading: Reading): Degree[] {
  const degrees: Degree[] = reading.rootless ? [] : [degreeOf(1)];
  const put = (number: number, accidentals: readonly number[]): void => {
    for (const accidental of accidentals) degrees.push(degreeOf(number, accidental));
  };
  const { third } = reading;
  if (third === 'major' || third === 'minor') put(3, [third === 'major' ? 0 : -1]);
  if (third === 'sus2') put(2, [0]);
  if (third === 'sus4' || third === 'both') put(4, [0]);
  put(5, reading.fifths);
  put(7, reading.sevenths);
  put(9, third === 'sus2' ? reading.ninths.filter((each) => each !== 0) : reading.ninths);
  if (third === 'both' && !reading.ninths.includes(0)) put(9, [0]);
  const suspendedFourth = third === 'sus4' || third === 'both';
  put(11, suspendedFourth ? reading.elevenths.filter((each) => each !== 0) : reading.elevenths);
  // Above a seventh, and only there, the sixth is called the thirteenth.
  put(reading.sevenths.length > 0 ? 13 : 6, [...reading.sixths, ...reading.thirteenths]);
  return degrees;
}

/** The degrees that a suffix such as `m7b5` or `7(b9, #11)` stands for; undefined where any of it makes no sense. */
export function readQuality(suffix: string): Degree[] | undefined {
  if (suffix.length > LONGEST) return undefined;
  const reader = new Reader(normalised(suffix));
  if (!reader.head() || !reader.changes()) return undefined;
  return degreesOf(reader.reading);
}
