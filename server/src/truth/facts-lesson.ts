/** Facts about the lesson as a whole and about its sections: title, key, tempo, how many bars. */
import { stringCount, type Instrument } from '../fretboard/instrument.ts';
import type { Lesson, Meter, Section } from '../lesson/lesson.ts';
import { LESSON } from '../lesson/prose.ts';
import type { Score, SectionScore } from '../realise/score.ts';
import { soundingKey } from '../realise/sounding.ts';
import { formatKey } from '../theory/key.ts';
import { formatNoteName } from '../theory/note.ts';
import { counted, listed, quoted } from './words.ts';
import { barNode } from './facts-chord.ts';
import { meant, nodeOf, shown, type Answer, type Node, type Step } from './facts-steps.ts';

/** As many bars as a list to choose from can hold. */
const MOST_LISTED = 200;

export function rootOf(lesson: Lesson, score: Score): Node {
  const { sections } = lesson;
  const whole = { name: LESSON, says: 'the lesson as a whole', leads: lessonNode(lesson) } satisfies Step;
  const stepOf = (section: Section, index: number): Step => ({
    name: section.name,
    says: section.title ?? counted(barsOf(section), 'bar'),
    leads: sectionNode(section, score.sections[index], lesson.settings.instrument),
  });
  return {
    find(part) {
      if (part === LESSON) return whole;
      const index = sections.findIndex(({ name }) => name === part);
      return index < 0 ? undefined : stepOf(sections[index], index);
    },
    list: () => [...sections.map(stepOf), whole],
    missing(part, next) {
      const [first] = sections;
      const example = first ? `${first.name}.1.chord` : `${LESSON}.title`;
      if (part.trim() === '')
        return { unknown: `Say in the braces what is to stand here, as in \`{${example}}\`.`, near: [] };
      if (/^\d+$/.test(part) && next !== undefined && first)
        return {
          unknown: `A bar needs its section before it; write ${quoted(`${first.name}.${part}`)}.`,
          near: sections.length === 1 ? [`${first.name}.${part}`] : [],
        };
      if (next === undefined && whole.leads.find(part))
        return {
          unknown: `${shown(part)} is told of the lesson; write ${quoted(`${LESSON}.${part}`)}.`,
          near: [`${LESSON}.${part}`],
        };
      const names = [...sections.map(({ name }) => name), LESSON];
      return meant(part, names, `No section is called ${shown(part)}`);
    },
    open: (part) => ({ unknown: `${shown(part)} is no fact yet.`, near: [] }),
  };
}

/** As they are counted: the pick-up is none. */
const barsOf = ({ plan }: Section): number => plan.bars.filter((bar) => bar.number > 0).length;

const meterWords = ({ beats, unit }: Meter): string => `${beats}/${unit}`;

function lessonNode(lesson: Lesson): Node {
  const { settings, title, minutes, focus } = lesson;
  const { key, meter, tempo, instrument, hand, level } = settings;
  const said = (value: string | number | undefined, line: string): Answer =>
    value === undefined ? { unknown: `The lesson does not say it; add the line ${quoted(line)}.` } : `${value}`;
  const steps: readonly Step[] = [
    { name: 'title', says: 'the title', leads: () => said(title, 'lesson "…"') },
    { name: 'key', says: 'the key of the shapes', leads: () => formatKey(key) },
    { name: 'soundingKey', says: 'the key that sounds', leads: () => formatKey(soundingKey(key, instrument)) },
    { name: 'meter', says: 'the meter', leads: () => meterWords(meter) },
    { name: 'tempo', says: 'beats a minute', leads: () => `${tempo.perMinute}` },
    { name: 'tuning', says: 'the tuning', leads: () => tuningWords(instrument) },
    { name: 'capo', says: 'the capo’s fret', leads: () => capoWords(instrument) },
    { name: 'hand', says: 'the hand that reaches are judged for', leads: () => hand },
    { name: 'level', says: 'the level', leads: () => said(level, 'level 2') },
    { name: 'minutes', says: 'how long it takes', leads: () => said(minutes, 'minutes 15') },
    {
      name: 'focus',
      says: 'what a student learns',
      leads: () => said(focus.length > 0 ? listed(focus) : undefined, 'focus "…"'),
    },
  ];
  const names = steps.map(({ name }) => name);
  return nodeOf(
    steps,
    (part) => meant(part, names, `The lesson has no fact ${shown(part)}`),
    () => ({ unknown: `Say what of the lesson is meant, as in \`${LESSON}.key\`.`, near: [] }),
  );
}

/** By its name, or by its notes from the lowest string up. */
function tuningWords({ tuning }: Instrument): string {
  return /^[a-z]/.test(tuning.name) ? tuning.name : tuning.strings.map(formatNoteName).join(' ');
}

function capoWords(instrument: Instrument): string {
  const { capo } = instrument;
  if (!capo) return 'none';
  if (!capo.strings || capo.strings.length >= stringCount(instrument)) return `${capo.fret}`;
  const strings = listed([...capo.strings].sort((a, b) => b - a).map(String));
  return `${capo.fret} on string${capo.strings.length === 1 ? '' : 's'} ${strings}`;
}

function sectionNode(section: Section, score: SectionScore | undefined, instrument: Instrument): Node {
  const { name, title, plan } = section;
  const own: readonly Step[] = [
    {
      name: 'bars',
      says: 'how many bars it has',
      leads: () => (plan.bars.length > 0 ? `${barsOf(section)}` : undefined),
    },
    {
      name: 'title',
      says: 'its title',
      leads: () => title ?? { unknown: `${quoted(name)} has no title; write \`section ${name} "…"\`.` },
    },
    { name: 'key', says: 'its key', leads: () => formatKey(plan.key) },
    { name: 'meter', says: 'its meter', leads: () => meterWords(plan.meter) },
    { name: 'tempo', says: 'its beats a minute', leads: () => `${plan.tempo.perMinute}` },
  ];
  const barStep = (index: number): Step => {
    const bar = plan.bars[index];
    const chords = bar.chords.map((chord) => chord.chord?.symbol ?? chord.written);
    return {
      name: `${bar.number}`,
      says: chords.length > 0 ? `bar ${bar.number}: ${chords.join(' ')}` : `bar ${bar.number}`,
      leads: barNode({ section, bar, played: score?.bars[index], instrument }),
    };
  };
  return {
    find(part) {
      const step = own.find((one) => one.name === part);
      if (step) return step;
      const index = /^\d{1,4}$/.test(part) ? plan.bars.findIndex((bar) => bar.number === Number(part)) : -1;
      if (index >= 0) return barStep(index);
      // Without any bar, what keeps them away has its finding already, and so every bar is left open.
      return plan.bars.length === 0 && /^\d+$/.test(part) ? { name: part, says: '', leads: untold } : undefined;
    },
    list: () => [...plan.bars.slice(0, MOST_LISTED).map((_, index) => barStep(index)), ...own],
    missing(part) {
      const bars = barsOf(section);
      if (/^\d+$/.test(part))
        return {
          unknown: `${quoted(name)} has ${counted(bars, 'bar')}, so there is no bar ${part}; name another.`,
          near: [],
        };
      const ofChord = plan.bars.length > 0 ? barNode({ section, bar: plan.bars[0], instrument }).find(part) : undefined;
      if (ofChord)
        return {
          unknown: `${shown(part)} is told of a bar; write ${quoted(`${name}.1.${part}`)}.`,
          near: [`1.${part}`],
        };
      const names = own.map((one) => one.name);
      return meant(part, names, `${quoted(name)} has no fact and no bar ${shown(part)}`);
    },
    open: () => ({
      unknown: `Say what of ${quoted(name)} is meant: a bar, as in ${quoted(`${name}.1.chord`)}, or ${quoted(`${name}.bars`)}.`,
      near: [],
    }),
  };
}

/** Whatever is asked of a bar that is not there for a reason told elsewhere. */
const untold: Node = {
  find: (part) => ({ name: part, says: '', leads: /^(?:\d+|string\d+)$/.test(part) ? untold : () => undefined }),
  list: () => [],
  missing: () => ({ unknown: '', near: [] }),
  open: () => ({ unknown: 'Say what of the bar is meant, as in `chord`.', near: [] }),
};
