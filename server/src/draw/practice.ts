/** The plan of practice as it is shown: a row a step, as text and as HTML. */
import type { Lesson } from '../lesson/lesson.ts';
import type { PracticeStep } from '../lesson/practice.ts';
import { printable } from './printable.ts';
import { beatWords } from './rhythm.ts';
import { escaped } from './svg.ts';
import { joinedWithin } from './wrapped.ts';

export interface PracticeRow {
  readonly title: string;
  /** `quarter = 60`, `quarter = 60, 66, 72, 78, 84`; of a long ladder its first tempi and its last. */
  readonly tempi: string;
  /** `3 minutes`; empty where the step does not say. */
  readonly minutes: string;
  /** `The quay at dusk, bars 1 to 4`; empty for the whole lesson. */
  readonly place: string;
}

/** Of a ladder with more rungs the first ones are named, and the last. */
const MOST_NAMED = 12;
const FIRST_NAMED = 4;

export const practiceRows = (lesson: Lesson): readonly PracticeRow[] =>
  lesson.practice.map((step) => ({
    title: step.title,
    tempi: temposOf(step, lesson),
    minutes: step.minutes === undefined ? '' : `${step.minutes} minute${step.minutes === 1 ? '' : 's'}`,
    place: placeOf(step, lesson),
  }));

function temposOf({ tempi, section }: PracticeStep, { sections, settings }: Lesson): string {
  const { beat } = (section === undefined ? undefined : sections[section])?.plan.tempo ?? settings.tempo;
  const all = tempi.length <= MOST_NAMED;
  const named = all ? tempi.join(', ') : `${tempi.slice(0, FIRST_NAMED).join(', ')} … ${tempi[tempi.length - 1]}`;
  return `${beatWords(beat)} = ${named}`;
}

function placeOf({ section: index, first, last }: PracticeStep, { sections }: Lesson): string {
  const section = index === undefined ? undefined : sections[index];
  if (!section) return '';
  const bars = first === undefined ? '' : first === last ? `, bar ${first}` : `, bars ${first} to ${last}`;
  return `${section.title ?? section.name}${bars}`;
}

/** Under a heading, each step with its number, in lines of at most `width` columns; empty where there is no practice. */
export function practiceText(lesson: Lesson, width: number): string {
  const rows = practiceRows(lesson);
  if (rows.length === 0) return '';
  const lines = rows.flatMap((row, index) => {
    const number = `${index + 1}. `;
    return joinedWithin([number + row.title, ...detailsOf(row)].map(printable), width, number.length);
  });
  return ['Practice', '', ...lines].join('\n');
}

/** A numbered list under a heading of `level`; empty where there is no practice. */
export function practiceHtml(lesson: Lesson, level = 2): string {
  const rows = practiceRows(lesson);
  if (rows.length === 0) return '';
  const items = rows.map(
    (row, step) =>
      `<li data-step="${step}"><b>${escaped(row.title)}</b> <span class="small">${escaped(detailsOf(row).join(' · '))}</span></li>`,
  );
  return `<h${level} class="section-title">Practice</h${level}><ol class="practice">${items.join('')}</ol>`;
}

const detailsOf = ({ tempi, minutes, place }: PracticeRow): readonly string[] =>
  [place, tempi, minutes].filter((word) => word !== '');
