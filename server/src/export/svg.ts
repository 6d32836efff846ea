/** Writes a lesson as one SVG file that looks as it should wherever it is opened. */
import type { WorkedOut } from './worked-out.ts';
import { drawSheet } from '../draw/sheet.ts';
import { FILE_STYLES } from '../draw/styles.ts';
import { svgOf } from '../draw/svg.ts';

/** `width` in pixels. With a line end. */
export function lessonSvg({ lesson, score, findings }: WorkedOut, width: number): string {
  return `${svgOf(drawSheet(lesson, score, findings, width), FILE_STYLES)}\n`;
}
