/** Writes a course as plain text: its days in order, with what each lesson states of itself. */
import { findingsWords } from '../draw/facts.ts';
import { printable } from '../draw/printable.ts';
import { counted } from '../draw/spoken.ts';
import type { Course, CourseDay } from '../lesson/library.ts';
import type { Finding } from '../util/finding.ts';

export function courseText({ title, starts, days }: Course, findings: readonly Finding[]): string {
  const inOrder = [...days].sort((one, other) => one.day - other.day);
  const minutes = days.reduce((sum, { head }) => sum + (head?.minutes ?? 0), 0);
  const facts = [
    ...(starts === undefined ? [] : [`starts ${starts}`]),
    counted(days.length, 'day'),
    ...(minutes === 0 ? [] : [`${minutes} minutes in all`]),
    findingsWords(findings),
  ];
  const lines = inOrder.map((day) => `Day ${day.day} · ${lessonOf(day)}`);
  const head = `${printable(title === '' ? 'Untitled course' : title)}\n${facts.join(' · ')}`;
  return lines.length === 0 ? head : `${head}\n\n${lines.join('\n')}`;
}

/** The lesson by its title, or by its path where nothing is known of it. */
function lessonOf({ head, path }: CourseDay): string {
  const { title, level, minutes, focus = [] } = head ?? {};
  return [
    printable(title ?? path),
    ...(level === undefined ? [] : [`level ${level}`]),
    ...(minutes === undefined ? [] : [`${minutes} minute${minutes === 1 ? '' : 's'}`]),
    ...(focus.length === 0 ? [] : [printable(focus.join(', '))]),
  ].join(' · ');
}
