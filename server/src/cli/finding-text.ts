/** A finding for the terminal: where it is, what it says, and the line with a caret under the place. */
import type { Analysis } from '../analyze.ts';
import { columns } from '../draw/graphemes.ts';
import { printable } from '../draw/printable.ts';
import type { Finding, Severity } from '../util/finding.ts';
import type { Paint } from './terminal.ts';

const COLOURS: Readonly<Record<Severity, 'red' | 'yellow' | 'cyan' | 'blue'>> = {
  error: 'red',
  warning: 'yellow',
  hint: 'cyan',
  information: 'blue',
};

/** Letters of a line that are shown around the place. */
const SHOWN_BEFORE = 60;
const SHOWN_AFTER = 80;
const LINE_NUMBER_WIDTH = 5;

/** What a lesson's line shows on a terminal: a tab is one blank, so that a caret stands where it should. */
const shown = (text: string): string => printable(text.replace(/\t/g, ' '));

/** Lines and columns are counted from 1, as editors show them. */
export function findingText(finding: Finding, name: string, { lines }: Analysis, paint: Paint): string {
  const start = lines.positionAt(finding.span.start);
  const end = lines.positionAt(finding.span.end);
  const text = lines.line(start.line);
  const from = Math.max(0, start.character - SHOWN_BEFORE);
  const to = Math.max(start.character, end.line > start.line ? text.length : end.character);
  const until = Math.min(text.length, start.character + SHOWN_AFTER);
  const before = (from > 0 ? '…' : '') + shown(text.slice(from, start.character));
  const marked = shown(text.slice(start.character, Math.min(to, until)));
  const line = before + shown(text.slice(start.character, until)) + (until < text.length ? '…' : '');
  const caret = ' '.repeat(columns(before)) + '^'.repeat(Math.max(1, columns(marked)));
  const place = `${printable(name)}:${start.line + 1}:${start.character + 1}`;
  const gutter = (number: string): string => paint(`${number.padStart(LINE_NUMBER_WIDTH)} | `, 'dim');
  const severity = paint(
    finding.severity === 'information' ? 'remark' : finding.severity,
    COLOURS[finding.severity],
    'bold',
  );
  const rows = [
    `${paint(place, 'bold')}: ${severity}: ${printable(finding.message)} ${paint(`(${finding.code})`, 'dim')}`,
    gutter(`${start.line + 1}`) + line,
    gutter('') + paint(caret, COLOURS[finding.severity]),
  ];
  for (const related of finding.related) {
    const there = lines.positionAt(related.span.start);
    rows.push(`${' '.repeat(LINE_NUMBER_WIDTH)}   line ${there.line + 1}: ${printable(related.message)}`);
  }
  for (const fix of finding.fixes) rows.push(`${' '.repeat(LINE_NUMBER_WIDTH)}   to mend it: ${printable(fix.title)}`);
  return `${rows.join('\n')}\n`;
}
