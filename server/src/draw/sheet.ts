/** A whole lesson as one drawing: title, facts, and every section with its systems and shapes, down one page. */
import type { Lesson } from '../lesson/lesson.ts';
import type { Score } from '../realise/score.ts';
import { CARE } from '../util/care.ts';
import type { Finding } from '../util/finding.ts';
import { drawDiagram } from './diagram.ts';
import type { Drawing, Group, Shape } from './drawing.ts';
import { label } from './drawing.ts';
import { factsOf, sectionFacts, voicingDifficulty } from './facts.ts';
import { TYPE } from './metrics.ts';
import type { VoicedChord } from './section.ts';
import { distinctShapes, drawSystems } from './section.ts';
import { fitted, textWidth } from './text-width.ts';

/** Pixels; narrower than the least, bars would not fit. */
export const USUAL_SHEET_WIDTH = 960;
export const NARROWEST_SHEET = 280;
export const WIDEST_SHEET = 2400;

const EDGE = 16;
const AFTER_SECTION = 14;
const BETWEEN_SYSTEMS = 10;
const BETWEEN_SHAPES = 12;
const CAPTION_STEP = 15;
const CAPTION_WIDTH = 104;
const LINE_STEP = 16;

/** Draws from the top down; every part says how much height it took. */
class Page {
  readonly shapes: Shape[] = [];
  y = EDGE;

  constructor(readonly width: number) {}

  words(style: string, size: number, text: string): void {
    for (const line of wrappedWords(text, this.width, size)) {
      this.y += size;
      this.shapes.push(label(style, EDGE, this.y, line));
      this.y += LINE_STEP - TYPE.caption;
    }
  }

  add(drawing: Drawing, x = 0): void {
    const group: Group = { kind: 'group', x: EDGE + x, y: this.y, shapes: drawing.shapes };
    this.shapes.push(group);
  }
}

/** `width` in pixels, drawn in to the limits above; the height follows. */
export function drawSheet(lesson: Lesson, score: Score, findings: readonly Finding[], width: number): Drawing {
  const whole = Math.round(Math.min(WIDEST_SHEET, Math.max(NARROWEST_SHEET, width)));
  const page = new Page(whole - 2 * EDGE);
  const title = lesson.title ?? 'Untitled lesson';
  page.words('title', TYPE.title, title);
  page.y += 4;
  page.words(
    'caption',
    TYPE.caption,
    factsOf(lesson, score, findings)
      .map((fact) => fact.text)
      .join(' · '),
  );
  const { instrument } = lesson.settings;
  let widest = whole;
  lesson.sections.forEach((section, index) => {
    const sectionScore = score.sections[index];
    if (!sectionScore || sectionScore.bars.length === 0) return;
    page.y += AFTER_SECTION;
    page.words('section', TYPE.section, section.title ?? section.name);
    const own = sectionFacts(section.plan, lesson.settings);
    if (own.length > 0) page.words('caption', TYPE.caption, own.join(' · '));
    const drawn = { name: section.name, plan: section.plan, score: sectionScore, instrument };
    for (const { drawing } of drawSystems(drawn, page.width)) {
      page.add(drawing);
      page.y += drawing.height + BETWEEN_SYSTEMS;
      widest = Math.max(widest, drawing.width + 2 * EDGE);
    }
    page.y += AFTER_SECTION;
    drawShapes(page, distinctShapes(sectionScore), (shape) => drawDiagram(nameOf(shape), shape.voicing, instrument));
  });
  page.y += AFTER_SECTION;
  page.words('caption', TYPE.caption, CARE);
  return { width: widest, height: page.y + EDGE, says: title, reads: 'parts', shapes: page.shapes };
}

const nameOf = (shape: VoicedChord): string => shape.chord?.symbol ?? shape.written;

function drawShapes(page: Page, shapes: readonly VoicedChord[], draw: (shape: VoicedChord) => Drawing): void {
  let x = 0;
  let height = 0;
  for (const shape of shapes) {
    const drawing = draw(shape);
    const width = Math.max(CAPTION_WIDTH, drawing.width);
    if (x > 0 && x + width > page.width) {
      page.y += height;
      x = 0;
      height = 0;
    }
    page.add(drawing, x + (width - drawing.width) / 2);
    const name = nameOf(shape);
    const sounding = shape.voicing.sounding[0];
    const captions: readonly (readonly [string, number, string])[] = [
      ['symbol', TYPE.symbol, name],
      ...(sounding === undefined || sounding === name ? [] : [['sounds', TYPE.sounds, sounding] as const]),
      ['caption', TYPE.caption, voicingDifficulty(shape.voicing)],
    ];
    captions.forEach(([style, size, text], row) => {
      const y = page.y + drawing.height + TYPE.symbol + CAPTION_STEP * row;
      page.shapes.push(label(style, EDGE + x + width / 2, y, fitted(text, width, size, style === 'symbol'), 'middle'));
    });
    height = Math.max(height, drawing.height + TYPE.symbol + CAPTION_STEP * captions.length);
    x += width + BETWEEN_SHAPES;
  }
  page.y += height;
}

function wrappedWords(text: string, width: number, size: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines[lines.length - 1]} ${word}`;
    if (lines.length === 0 || textWidth(longer, size) > width) lines.push(word);
    else lines[lines.length - 1] = longer;
  }
  return lines;
}
