/** Makes scores by hand from a few words, so that what draws them can be tested by itself. */
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith, midiAt } from '../../server/src/fretboard/instrument.ts';
import type { Instrument } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';
import type { Lesson, Meter, PluckingFinger, Section, SectionPlan } from '../../server/src/lesson/lesson.ts';
import type { BarScore, ChordScore, NoteEvent, Rest, Role, Voicing } from '../../server/src/realise/score.ts';
import { parseChord } from '../../server/src/theory/chord.ts';
import { parseDegree } from '../../server/src/theory/interval.ts';
import { parseKey } from '../../server/src/theory/key.ts';
import { pitchFromMidi, usualName } from '../../server/src/theory/note.ts';
import { fraction, parseFraction, plus, times, ZERO } from '../../server/src/util/fraction.ts';
import type { Fraction } from '../../server/src/util/fraction.ts';

export const GUITAR = instrumentWith(tuningNamed('standard')!);

export function meter(text: string): Meter {
  const [beats, unit] = text.split('/').map(Number);
  const compound = unit >= 8 && beats > 3 && beats % 3 === 0;
  return { beats, unit, bar: fraction(beats, unit), beat: fraction(compound ? 3 : 1, unit) };
}

export interface ChordWords {
  readonly symbol: string;
  readonly frets: string;
  readonly fingers?: string;
  /** Where it is not the symbol. */
  readonly sounds?: string;
  readonly colours?: string;
  /** What each sounding string is, lowest first: `3 R 11 5`. */
  readonly degrees?: string;
  readonly difficulty?: number;
}

export function voicing(words: ChordWords, instrument: Instrument = GUITAR): Voicing {
  const frets = parseFretList(words.frets, 0)!;
  const fingers = words.fingers === undefined ? undefined : parseFretList(words.fingers, 0)!;
  const degrees = (words.degrees ?? '').split(' ').filter((word) => word !== '');
  const colours = (words.colours ?? '').split(' ').filter((word) => word !== '');
  const sounding = frets.flatMap((fret, index) =>
    fret === null ? [] : [{ fret, index, string: frets.length - index }],
  );
  const difficulty = words.difficulty ?? 1;
  const fingering = fingers && { fingers, cost: 0, zone: 'comfortable' as const, difficulty, effort: difficulty * 1e6 };
  return {
    frets,
    verdict: {
      playable: true,
      zone: 'comfortable',
      difficulty,
      effort: difficulty * 1e6,
      fingerings: fingering ? [fingering] : [],
      steps: 0,
    },
    fingering,
    strings: sounding.map(({ fret, index, string }, place) => {
      const midi = midiAt(instrument, string, fret);
      const degree = degrees[place] ?? '5';
      const role: Role = degree === 'R' ? 'root' : colours.includes(degree) ? 'colour' : 'chord tone';
      const pitch = pitchFromMidi(midi, usualName(midi % 12));
      return {
        string,
        fret,
        midi,
        pitch,
        shapePitch: pitch,
        degree: parseDegree(degree)!,
        role,
        finger: fingers?.[index] ?? 0,
      };
    }),
    sounding: [words.sounds ?? words.symbol],
    shapeNames: [words.sounds ?? words.symbol],
    colours: colours.map((degree) => parseDegree(degree)!),
    clashes: [],
  };
}

export function chord(words: ChordWords, length: Fraction, start: Fraction = ZERO): ChordScore {
  return {
    written: words.symbol,
    chord: parseChord(words.symbol),
    silent: false,
    start,
    length,
    held: false,
    voicing: voicing(words),
  };
}

/**
 * A bar from steps of one length: `p4=9+*1=10` is the thumb on string 4, fret 9, and a melody on string 1, fret 10; `i3=0>` is
 * accented; `down:x-3-2-0-1-0` is a stroke; `r` rests, `-` lets ring. A step may have a length of its own: `p6=3:1/2`.
 */
export function bar(number: number, chords: readonly ChordWords[], each: string, steps: string, length = ''): BarScore {
  const events: NoteEvent[] = [];
  const rests: Rest[] = [];
  let time = ZERO;
  for (const word of steps.split(/\s+/).filter((one) => one !== '')) {
    const own = /:(\d+\/\d+)$/.exec(word);
    const step = parseFraction(own ? own[1] : each)!;
    const body = own ? word.slice(0, -own[0].length) : word;
    if (body === 'r') rests.push({ start: time, length: step });
    else if (body !== '-') for (const part of body.split('+')) events.push(...eventsOf(part, time, step));
    time = plus(time, step);
  }
  const whole = length === '' ? time : parseFraction(length)!;
  const share = chords.length === 0 ? whole : times(whole, fraction(1, chords.length));
  return {
    number,
    length: whole,
    broken: false,
    chords: chords.map((words, index) => chord(words, share, times(share, fraction(index)))),
    events,
    rests,
    silentPlucks: [],
    cellMisfit: false,
  };
}

function eventsOf(part: string, start: Fraction, length: Fraction): NoteEvent[] {
  const note = (string: number, fret: number, more: Partial<NoteEvent>): NoteEvent => {
    const midi = midiAt(GUITAR, string, fret);
    const pitch = pitchFromMidi(midi, usualName(midi % 12));
    return {
      string,
      fret,
      midi,
      pitch,
      shapePitch: pitch,
      start,
      length,
      ringing: length,
      voice: 'picking',
      accent: false,
      triplet: length.under % 3 === 0,
      chord: 0,
      ...more,
    };
  };
  const stroke = /^(down|up|roll|mute):([^>]+)(>?)$/.exec(part);
  if (stroke) {
    const frets = parseFretList(stroke[2], 0)!;
    return frets.flatMap((fret, index) =>
      fret === null
        ? []
        : [
            note(frets.length - index, fret, {
              voice: 'stroke',
              stroke: stroke[1] as NoteEvent['stroke'],
              accent: stroke[3] === '>',
            }),
          ],
    );
  }
  const pluck = /^(\*?)([pimac]?)(\d+)=(\d+)(>?)$/.exec(part);
  if (!pluck) throw new Error(`A test's step cannot be read: ${part}`);
  const finger = pluck[2] === '' ? undefined : (pluck[2] as PluckingFinger);
  const voice = pluck[1] === '*' ? 'melody' : 'picking';
  return [note(Number(pluck[3]), Number(pluck[4]), { voice, pluck: finger, accent: pluck[5] === '>' })];
}

export function plan(inMeter: string, bars: readonly BarScore[]): SectionPlan {
  const counted = meter(inMeter);
  return {
    key: parseKey('G major')!,
    meter: counted,
    times: 1,
    tempo: { perMinute: 84, beat: counted.beat },
    rules: [],
    cells: [],
    contours: [],
    bars: bars.map((each) => ({
      number: each.number,
      length: each.length,
      chords: [],
      broken: each.broken,
      cellFrom: 0,
    })),
  };
}

export function section(name: string, title: string | undefined, inMeter: string, bars: readonly BarScore[]): Section {
  const nowhere = { start: 0, end: 0 };
  return {
    kind: 'section',
    name,
    title,
    span: nowhere,
    whole: nowhere,
    lines: {},
    broken: false,
    plan: plan(inMeter, bars),
    places: bars.map(() => ({ span: nowhere, chords: [] })),
    ruleUses: [],
    cellUses: [],
    contourUses: [],
  };
}

export function lessonWith(title: string, inMeter: string, sections: readonly Section[], level?: number): Lesson {
  const counted = meter(inMeter);
  return {
    title,
    focus: [],
    settings: {
      instrument: GUITAR,
      hand: 'medium',
      key: parseKey('G major')!,
      meter: counted,
      tempo: { perMinute: 84, beat: counted.beat },
      level,
    },
    settingSpans: {},
    shapes: [],
    grips: [],
    progressions: [],
    cells: [],
    contours: [],
    melodies: [],
    tabs: [],
    variants: [],
    claims: [],
    passages: [],
    practice: [],
    imports: [],
    needs: [],
    sections,
    form: sections.map((_, index) => index),
    uses: [],
    problems: [],
    allowed: [],
  };
}

export const G: ChordWords = {
  symbol: 'G',
  frets: 'x-x-9-0-8-10',
  fingers: 'x-x-2-0-1-3',
  degrees: '3 R R 5',
  difficulty: 1.7,
};
export const D: ChordWords = {
  symbol: 'D',
  frets: 'x-x-4-0-3-5',
  fingers: 'x-x-2-0-1-3',
  sounds: 'Dadd11/F#',
  colours: '11',
  degrees: '3 11 R 5',
  difficulty: 2.6,
};
export const EM: ChordWords = {
  symbol: 'Em',
  frets: 'x-x-5-0-5-7',
  fingers: 'x-x-1-0-2-4',
  sounds: 'Em/G',
  degrees: 'b3 b3 R 5',
};
export const AM: ChordWords = {
  symbol: 'Am',
  frets: 'x-x-10-0-10-12',
  fingers: 'x-x-1-0-2-4',
  sounds: 'Am7/G',
  colours: 'b7',
  degrees: 'b3 b7 R 5',
};

/** The four bars of the quay: a three-note chord, an open string inside it, a melody on top. */
export function quay(): readonly BarScore[] {
  const ripple = (low: number, middle: number, tops: readonly [number, number, number]): string =>
    `p4=${low}+*a1=${tops[0]} i3=0 m2=${middle}+*a1=${tops[1]} i3=0 m2=${middle}+*a1=${tops[2]} i3=0`;
  return [
    bar(1, [G], '1/8', ripple(9, 8, [10, 8, 10])),
    bar(2, [D], '1/8', ripple(4, 3, [5, 3, 5])),
    bar(3, [EM], '1/8', ripple(5, 5, [7, 5, 7])),
    bar(4, [AM], '1/8', ripple(10, 10, [12, 10, 12])),
  ];
}
