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
import { block, type PreviewContent } from './preview-block.ts';

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
  /** In pixels. */
  readonly width: number;
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
  const key = [id, name, width, instrument.tuning.name, capo, meter.beats, meter.unit, music.view, bars].join('|');
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
  const { music, section, id, name, width } = piece;
  const { instrument } = piece.settings;
  const score = barsOf(piece);
  const { view } = music;
  const blocks: PreviewContent[] = [];
  if (view === 'tab' || view === 'all') {
    const ends = score.bars[score.bars.length - 1] === piece.score.bars[piece.score.bars.length - 1];
    const systems = drawSystems({ name, plan: section.plan, score, instrument, ends }, width);
    blocks.push(...systems.map(({ drawing }, index) => systemBlock(`${id}/system/${index}`, drawing)));
  }
  const shapes = view === 'tab' ? [] : distinctShapes(score);
  if (shapes.length === 0) return blocks;
  if (view === 'neck') {
    const necks = shapes.map((shape) => neckFigure(shape, instrument, width)).join('');
    return [...blocks, block(`${id}/necks`, `<div class="necks">${necks}</div>`)];
  }
  const figures = shapes.map((shape) => figureOf(shape, instrument)).join('');
  return [...blocks, block(`${id}/shapes`, `<div class="shapes">${figures}</div>`)];
}

function barsOf({ music, score }: MusicToDraw): SectionScore {
  if (music.whole) return score;
  return { ...score, bars: score.bars.filter(({ number }) => music.first <= number && number <= music.last) };
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

const symbolOf = (shape: VoicedChord): string => shape.chord?.symbol ?? shape.written;

/** Diagrams by the voicing they show: a voicing outlives the versions of a lesson, and comes back in other sections. */
const figures = new WeakMap<Voicing, Map<string, string>>();

function figureOf(shape: VoicedChord, instrument: Instrument): string {
  const symbol = symbolOf(shape);
  let known = figures.get(shape.voicing);
  if (!known) figures.set(shape.voicing, (known = new Map()));
  let figure = known.get(symbol);
  if (figure === undefined) {
    const drawing = svgOf(drawDiagram(symbol, shape.voicing, instrument));
    const difficulty = ` <span class="small">${escaped(voicingDifficulty(shape.voicing))}</span>`;
    figure = `<figure>${drawing}<figcaption>${namesOf(shape)}${difficulty}</figcaption></figure>`;
    known.set(symbol, figure);
  }
  return figure;
}

/** The symbol, and what sounds where that is something else. */
function namesOf(shape: VoicedChord): string {
  const symbol = symbolOf(shape);
  const [sounding] = shape.voicing.sounding;
  const says =
    sounding === undefined || sounding === symbol ? '' : ` <span class="sounds">sounds ${escaped(sounding)}</span>`;
  return `<b>${escaped(symbol)}</b>${says}`;
}

function neckFigure(shape: VoicedChord, instrument: Instrument, width: number): string {
  const drawing = svgOf(drawNeck(symbolOf(shape), shape.voicing, instrument, width));
  return `<figure class="neck"><figcaption>${namesOf(shape)}</figcaption>${drawing}</figure>`;
}
