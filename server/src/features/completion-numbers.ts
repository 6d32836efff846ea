/** Numbers that are likely at one place of a lesson: bars by their chords, tempi by the section's own, capos by the key they give. */
import type { Analysis } from '../analyze.ts';
import type { BarPlan, Section } from '../lesson/lesson.ts';
import { soundingKey } from '../realise/sounding.ts';
import { counted } from '../rules/shared/words.ts';
import { HIGHEST_USUAL_CAPO } from '../transpose/by-capo.ts';
import { formatKey } from '../theory/key.ts';
import { leaves } from '../syntax/tree.ts';
import type { Offer, OfferContext } from './completion-offers.ts';
import { statementAt } from './place.ts';

const LEVELS = ['a first lesson', 'a beginner', 'some practice', 'advanced', 'a performer'];
const MOST_BARS = 64;
const TEMPI = ['60', '72', '84', '96', '112', '132'];
/** A step begins slowly and ends as the section goes. */
const SLOWER = [100, 60, 70, 80, 90];

const value = (label: string, detail = ''): Offer => ({ label, kind: 'value', detail });
const values = (labels: readonly string[], detail = ''): readonly Offer[] =>
  labels.map((label) => value(label, detail));

/** For slots of the kinds `number` and `fret`; `label` is the slot's own in the table. Positions of a chord are offered elsewhere. */
export function numberOffers(label: string, context: OfferContext): readonly Offer[] {
  const { form, line } = context;
  switch (label) {
    case 'level':
      return LEVELS.map((says, i) => value(`${i + 1}`, says));
    case 'minutes':
      return values(line?.label === 'step' ? ['2', '3', '5', '10'] : ['10', '15', '20', '30'], 'minutes');
    case 'times':
      return ['2', '3', '4'].map((times) => value(times, counted(Number(times), 'time')));
    case 'ending':
      return [nextOf('ending', context)];
    case 'day':
      return [nextOf('day', context)];
    case 'first':
    case 'last':
    case 'at-bar':
    case 'bar':
      return barOffers(label, context);
    case 'from':
      return ['1', '0', '5', '7'].map((fret) => value(fret, fret === '0' ? 'the open string' : ''));
    case 'to':
      return values(['12', '5', '4', '15']);
    case 'fret':
      if (form.keyword === 'capo' || line?.label === 'capo') return capoOffers(context.analysis);
      if (line?.label === 'reach' || form.keyword === 'claim') return values(['2', '3', '4', '5'], 'frets');
      return values(['20', '21', '22', '24', '19'], 'frets');
    default:
      return [];
  }
}

/** For slots of the kind `tempo`. */
export function tempoOffers(label: string, context: OfferContext): readonly Offer[] {
  const { analysis, line } = context;
  if (line?.label !== 'step') return values(TEMPI, 'beats a minute');
  if (label === 'by') return values(['4', '6', '8'], 'beats a minute each time');
  const { perMinute } = (sectionFor(context)?.plan ?? analysis.lesson.settings).tempo;
  const at = (percent: number): Offer =>
    value(
      `${Math.round((perMinute * percent) / 100)}`,
      percent === 100 ? 'the tempo itself' : `${percent} % of the tempo`,
    );
  return label === 'to' ? [at(100)] : SLOWER.map(at);
}

/** Usual lengths of a string from nut to bridge. */
export const measureOffers = (): readonly Offer[] => [
  value('650', 'a classical guitar'),
  value('648', 'a long neck with steel strings'),
  value('628', 'a short neck with steel strings'),
];

/** The number behind the highest that lines of this form have in this statement. */
function nextOf(label: string, { analysis, offset }: OfferContext): Offer {
  const statement = statementAt(analysis, offset);
  const lines = statement?.tree.body.filter(
    (line) => line.form === label && (statement.start + line.end < offset || statement.start + line.start > offset),
  );
  const numbers = lines?.flatMap((line) => leaves(line, label).map(({ text }) => Number(text))) ?? [];
  return value(`${Math.max(0, ...numbers) + 1}`, 'the next one');
}

/** The bars of the section that the line speaks of, each with its chords; none where no section is named and there are several. */
function barOffers(label: string, context: OfferContext): readonly Offer[] {
  const section = sectionFor(context);
  if (!section) return [];
  const bars = section.plan.bars.filter(({ number, ending }) => number > 0 && ending === undefined).slice(0, MOST_BARS);
  const offers = bars.map((bar) => value(`${bar.number}`, chordsOf(bar)));
  if (label !== 'last') return offers;
  const { words } = context;
  const first = Number(words[words.length - 2]?.text);
  const later = offers.filter((offer) => Number(offer.label) > first);
  // To the end, as a rule.
  return [...later.slice(-1), ...later.slice(0, -1)];
}

const chordsOf = ({ chords }: BarPlan): string => chords.map(({ written }) => written).join(' ');

function sectionFor({ analysis, form, words, offset }: OfferContext): Section | undefined {
  const { sections } = analysis.lesson;
  if (form.keyword === 'section') return sections.filter(({ whole }) => whole.start <= offset).pop();
  const named = sections.find(({ name }) => words.slice(1).some(({ text }) => text === name));
  return named ?? (sections.length === 1 ? sections[0] : undefined);
}

/** Each capo with the key that sounds, where shapes are in the lesson's. */
function capoOffers({ lesson }: Analysis): readonly Offer[] {
  const { instrument, key } = lesson.settings;
  return Array.from({ length: HIGHEST_USUAL_CAPO }, (_, i) => {
    const sounding = soundingKey(key, { ...instrument, capo: { fret: i + 1 } });
    return value(`${i + 1}`, `sounds in ${formatKey(sounding)}`);
  });
}
