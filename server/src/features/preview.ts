/** The preview of a lesson as blocks of HTML and SVG that keep their ids, so that an edit redraws only what it changed. */
import type { Analysis } from '../analyze.ts';
import { drawDiagram } from '../draw/diagram.ts';
import { factsOf, sectionFacts, voicingDifficulty } from '../draw/facts.ts';
import type { Drawing } from '../draw/drawing.ts';
import { distinctShapes, drawSystems } from '../draw/section.ts';
import type { VoicedChord } from '../draw/section.ts';
import { escaped, svgOf } from '../draw/svg.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { Section, Settings } from '../lesson/lesson.ts';
import type { SectionScore, Voicing } from '../realise/score.ts';
import type { PlaceInText, PreviewBar, PreviewFact } from '../protocol.ts';
import { CARE } from '../util/care.ts';
import type { LineMap } from '../util/line-map.ts';
import type { Span } from '../util/span.ts';

export interface PreviewContent {
  readonly id: string;
  readonly hash: string;
  readonly content: string;
}

export interface Preview {
  readonly title: string;
  readonly facts: readonly PreviewFact[];
  readonly blocks: readonly PreviewContent[];
  readonly bars: readonly PreviewBar[];
}

/** Widths, in pixels, that systems are drawn for; what is asked for is drawn in to them. */
const NARROWEST = 280;
const WIDEST = 2400;

const NOTHING =
  'Nothing to draw yet. A section with a progression, and a shape and a cell to play it with, appears here as tab while you write.';

/** `width` in CSS pixels. The text's places go into `bars` alone: a drawing stays what it is when its lines move. */
export function previewOf(analysis: Analysis, width: number): Preview {
  const { lesson, score, findings, lines } = analysis;
  const drawnIn = Math.round(Math.min(WIDEST, Math.max(NARROWEST, Number.isFinite(width) ? width : NARROWEST)));
  const blocks: PreviewContent[] = [];
  const bars: PreviewBar[] = [];
  const taken = new Map<string, number>();
  lesson.sections.forEach((section, index) => {
    const sectionScore = score.sections[index];
    if (!sectionScore || sectionScore.bars.length === 0) return;
    // A name that two sections share must not give two blocks one id.
    const times = (taken.get(section.name) ?? 0) + 1;
    taken.set(section.name, times);
    const id = times === 1 ? section.name : `${section.name}~${times}`;
    blocks.push(block(`${id}/title`, headingOf(section, lesson.settings)));
    blocks.push(...drawn(id, section, sectionScore, lesson.settings.instrument, drawnIn));
    sectionScore.bars.forEach((bar, place) => {
      const span = section.places[place]?.span ?? section.span;
      bars.push({ id: `${id}.${bar.number}`, place: placeOf(span, lines) });
    });
  });
  if (blocks.length === 0) blocks.push(block('nothing', `<p class="nothing">${escaped(NOTHING)}</p>`));
  else blocks.push(block('care', `<p class="care">${escaped(CARE)}</p>`));
  return { title: lesson.title ?? 'Untitled lesson', facts: factsOf(lesson, score, findings), blocks, bars };
}

const block = (id: string, content: string): PreviewContent => ({ id, hash: hashOf(content), content });

function placeOf(span: Span, lines: LineMap): PlaceInText {
  const start = lines.positionAt(span.start);
  const end = lines.positionAt(span.end);
  return { startLine: start.line, startCharacter: start.character, endLine: end.line, endCharacter: end.character };
}

/** The section's title and, behind it, what it does differently from the lesson. */
function headingOf(section: Section, settings: Settings): string {
  const own = sectionFacts(section.plan, settings);
  const says = own.length === 0 ? '' : ` <small>${escaped(own.join(' · '))}</small>`;
  return `<h2 class="section-title">${escaped(section.title ?? section.name)}${says}</h2>`;
}

/** Drawings by the score they show, which equal sections share and an edit elsewhere leaves as it is. */
const drawings = new WeakMap<SectionScore, Map<string, readonly PreviewContent[]>>();
/** Widths and names under which one score’s drawings are kept: equal sections share a score, a panel being resized meets many widths. */
const MOST_KEPT = 60;

function drawn(
  id: string,
  section: Section,
  score: SectionScore,
  instrument: Instrument,
  width: number,
): readonly PreviewContent[] {
  let kept = drawings.get(score);
  if (!kept) drawings.set(score, (kept = new Map()));
  const capo = instrument.capo ? `${instrument.capo.fret} ${instrument.capo.strings?.join(' ') ?? ''}` : '';
  const { meter } = section.plan;
  const key = [id, width, instrument.tuning.name, capo, meter.beats, meter.unit].join('|');
  let blocks = kept.get(key);
  if (!blocks) {
    blocks = drawSection(id, section, score, instrument, width);
    const oldest = kept.keys().next();
    if (kept.size >= MOST_KEPT && !oldest.done) kept.delete(oldest.value);
    kept.set(key, blocks);
  }
  return blocks;
}

function drawSection(
  id: string,
  section: Section,
  score: SectionScore,
  instrument: Instrument,
  width: number,
): readonly PreviewContent[] {
  const systems = drawSystems({ name: id, plan: section.plan, score, instrument }, width).map(({ drawing }, index) =>
    systemBlock(`${id}/system/${index}`, drawing),
  );
  const shapes = distinctShapes(score);
  if (shapes.length === 0) return systems;
  const figures = shapes.map((shape) => figureOf(shape, instrument)).join('');
  return [...systems, block(`${id}/shapes`, `<div class="shapes">${figures}</div>`)];
}

/** Systems that are drawn as before are the same drawings, and their text and its fingerprint too. */
const systemBlocks = new WeakMap<Drawing, PreviewContent>();

function systemBlock(id: string, drawing: Drawing): PreviewContent {
  const known = systemBlocks.get(drawing);
  if (known?.id === id) return known;
  const made = known ? { ...known, id } : block(id, svgOf(drawing));
  systemBlocks.set(drawing, made);
  return made;
}

/** Diagrams by the voicing they show: a voicing outlives the versions of a lesson, and comes back in other sections. */
const figures = new WeakMap<Voicing, Map<string, string>>();

function figureOf(shape: VoicedChord, instrument: Instrument): string {
  const symbol = shape.chord?.symbol ?? shape.written;
  let known = figures.get(shape.voicing);
  if (!known) figures.set(shape.voicing, (known = new Map()));
  let figure = known.get(symbol);
  if (figure === undefined) {
    figure = drawFigure(symbol, shape.voicing, instrument);
    known.set(symbol, figure);
  }
  return figure;
}

function drawFigure(symbol: string, voicing: Voicing, instrument: Instrument): string {
  const [sounding] = voicing.sounding;
  const says =
    sounding === undefined || sounding === symbol ? '' : `<span class="sounds">sounds ${escaped(sounding)}</span> `;
  const difficulty = `<span class="small">${escaped(voicingDifficulty(voicing))}</span>`;
  const drawing = svgOf(drawDiagram(symbol, voicing, instrument));
  return `<figure>${drawing}<figcaption><b>${escaped(symbol)}</b> ${says}${difficulty}</figcaption></figure>`;
}

const HASH_PRIME = 0x01000193;
const HASH_STARTS = [0x811c9dc5, 0x2f0b4a67] as const;

/** A quick fingerprint (Fowler, Noll and Vo's, 32 bits, twice with different starts) to tell drawings apart; no secret. */
export function hashOf(text: string): string {
  return HASH_STARTS.map((start) => {
    let hash = start as number;
    for (let index = 0; index < text.length; index++) hash = Math.imul(hash ^ text.charCodeAt(index), HASH_PRIME);
    return (hash >>> 0).toString(36);
  }).join('.');
}
