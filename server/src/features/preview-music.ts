/** The music of the preview: headings, systems, diagrams and necks of a section or of some of its bars, drawn once. */
import { drawDiagram } from '../draw/diagram.ts';
import { sectionFacts, voicingDifficulty } from '../draw/facts.ts';
import type { Drawing } from '../draw/drawing.ts';
import { drawNeck } from '../draw/neck.ts';
import { distinctShapes, drawSystems, type VoicedChord } from '../draw/section.ts';
import { escaped, svgOf } from '../draw/svg.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { Section, Settings } from '../lesson/lesson.ts';
import type { Music } from '../prose/pieces.ts';
import type { SectionScore, Voicing } from '../realise/score.ts';
import { block, type DrawnAs, type PreviewContent } from './preview-block.ts';

export interface MusicToDraw {
  readonly music: Music;
  readonly section: Section;
  readonly score: SectionScore;
  readonly settings: Settings;
  /** The section’s own id, by which its bars are called: `verse`. */
  readonly name: string;
  /** Of this place where it is shown: `verse`, and `verse@2` where it is shown again. */
  readonly id: string;
  /** Of the heading, 2 or 3. */
  readonly level: number;
  /** In pixels of the drawing. */
  readonly width: number;
  readonly drawnAs: DrawnAs;
}

export const musicBlocks = (piece: MusicToDraw): readonly PreviewContent[] => [
  block(`${piece.id}/title`, headingOf(piece)),
  ...drawn(piece),
];

/** The section's title and, behind it, which bars these are and what the section does differently from the lesson. */
function headingOf({ music, section, settings, level }: MusicToDraw): string {
  const { first, last } = music;
  const bars = music.whole ? [] : [first === last ? `bar ${first}` : `bars ${first} to ${last}`];
  const says = [...bars, ...sectionFacts(section.plan, settings)];
  const small = says.length === 0 ? '' : ` <small>${escaped(says.join(' · '))}</small>`;
  return `<h${level} class="section-title">${escaped(section.title ?? section.name)}${small}</h${level}>`;
}

/** Drawings by the score they show, which equal sections share and an edit elsewhere leaves as it is. */
const drawings = new WeakMap<SectionScore, Map<string, readonly PreviewContent[]>>();
/** Widths and names under which one score’s drawings are kept: equal sections share a score, a panel being resized meets many widths. */
const MOST_KEPT = 60;

function drawn(piece: MusicToDraw): readonly PreviewContent[] {
  const { music, section, score, name, id, width } = piece;
  const { instrument } = piece.settings;
  let kept = drawings.get(score);
  if (!kept) drawings.set(score, (kept = new Map()));
  const capo = instrument.capo ? `${instrument.capo.fret} ${instrument.capo.strings?.join(' ') ?? ''}` : '';
  const { meter } = section.plan;
  const bars = music.whole ? '' : `${music.first} ${music.last}`;
  const { reading, leftHanded, scale } = piece.drawnAs;
  const how = [reading, leftHanded, scale];
  const key = [id, name, width, instrument.tuning.name, capo, meter.beats, meter.unit, music.view, bars, ...how].join(
    '|',
  );
  let blocks = kept.get(key);
  if (!blocks) {
    blocks = drawMusic(piece);
    const oldest = kept.keys().next();
    if (kept.size >= MOST_KEPT && !oldest.done) kept.delete(oldest.value);
    kept.set(key, blocks);
  }
  return blocks;
}

function drawMusic(piece: MusicToDraw): readonly PreviewContent[] {
  const { music, section, id, name, width, drawnAs } = piece;
  const { instrument } = piece.settings;
  const score = barsOf(piece);
  const { view } = music;
  const blocks: PreviewContent[] = [];
  if (view === 'tab' || view === 'all') {
    const ends = score.bars[score.bars.length - 1] === piece.score.bars[piece.score.bars.length - 1];
    const systems = drawSystems({ name, plan: section.plan, score, instrument, ends, reading: drawnAs.reading }, width);
    blocks.push(...systems.map(({ drawing }, index) => systemBlock(`${id}/system/${index}`, drawing, drawnAs.scale)));
  }
  const shapes = view === 'tab' ? [] : distinctShapes(score);
  if (shapes.length === 0) return blocks;
  if (view === 'neck') {
    const necks = shapes.map((shape) => neckFigure(shape, instrument, width, drawnAs)).join('');
    return [...blocks, block(`${id}/necks`, `<div class="necks">${necks}</div>`)];
  }
  const figures = shapes.map((shape) => figureOf(shape, instrument, drawnAs)).join('');
  return [...blocks, block(`${id}/shapes`, `<div class="shapes">${figures}</div>`)];
}

function barsOf({ music, score }: MusicToDraw): SectionScore {
  if (music.whole) return score;
  return { ...score, bars: score.bars.filter(({ number }) => music.first <= number && number <= music.last) };
}

/** Systems that are drawn as before are the same drawings, and their text and its fingerprint too. */
const systemBlocks = new WeakMap<Drawing, { readonly scale: number; readonly made: PreviewContent }>();

function systemBlock(id: string, drawing: Drawing, scale: number): PreviewContent {
  const before = systemBlocks.get(drawing);
  const known = before?.scale === scale ? before.made : undefined;
  if (known?.id === id) return known;
  const made = known ? { ...known, id } : block(id, svgOf(drawing, undefined, scale));
  systemBlocks.set(drawing, { scale, made });
  return made;
}

export const symbolOf = ({ chord, written }: Pick<VoicedChord, 'chord' | 'written'>): string =>
  chord?.symbol ?? written;

/** Diagrams by the voicing they show: a voicing outlives the versions of a lesson, and comes back in other sections. */
const figures = new WeakMap<Voicing, Map<string, string>>();
/** Of one voicing: symbols, readings, hands, sizes and the readers' toggling between them. */
const MOST_FIGURES = 24;

/** A diagram with its names and its difficulty. */
function figureOf(shape: VoicedChord, instrument: Instrument, drawnAs: DrawnAs): string {
  const symbol = symbolOf(shape);
  const key = [symbol, drawnAs.reading, drawnAs.leftHanded, drawnAs.scale].join('|');
  let known = figures.get(shape.voicing);
  if (!known || known.size >= MOST_FIGURES) figures.set(shape.voicing, (known = new Map()));
  let figure = known.get(key);
  if (figure === undefined) {
    const drawing = svgOf(drawDiagram(symbol, shape.voicing, instrument, drawnAs), undefined, drawnAs.scale);
    const difficulty = ` <span class="small">${escaped(voicingDifficulty(shape.voicing))}</span>`;
    figure = `<figure>${drawing}<figcaption>${namesOf(shape)}${difficulty}</figcaption></figure>`;
    known.set(key, figure);
  }
  return figure;
}

/** The symbol, and what sounds where that is something else. */
export function namesOf(shape: Pick<VoicedChord, 'chord' | 'written' | 'voicing'>): string {
  const symbol = symbolOf(shape);
  const [sounding] = shape.voicing.sounding;
  const says =
    sounding === undefined || sounding === symbol ? '' : ` <span class="sounds">sounds ${escaped(sounding)}</span>`;
  return `<b>${escaped(symbol)}</b>${says}`;
}

function neckFigure(shape: VoicedChord, instrument: Instrument, width: number, look: DrawnAs): string {
  const neck = drawNeck(symbolOf(shape), shape.voicing, instrument, width, { look });
  return `<figure class="neck"><figcaption>${namesOf(shape)}</figcaption>${svgOf(neck, undefined, look.scale)}</figure>`;
}
