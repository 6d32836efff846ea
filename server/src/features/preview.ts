/** The preview of a lesson as blocks of HTML and SVG that keep their ids, so that an edit redraws only what it changed. */
import type { Analysis } from '../analyze.ts';
import { contentsHtml, contentsOf } from '../draw/contents.ts';
import { factsOf } from '../draw/facts.ts';
import { practiceHtml } from '../draw/practice.ts';
import { escaped } from '../draw/svg.ts';
import { piecesOf, type Music } from '../prose/pieces.ts';
import { PLAIN_VIEW, type PreviewBar, type PreviewFact, type PreviewText, type PreviewView } from '../protocol.ts';
import { CARE } from '../util/care.ts';
import { block, type DrawnAs, type OpenPanel, type PreviewContent } from './preview-block.ts';
import { musicBlocks } from './preview-music.ts';
import { panelOf } from './preview-panel.ts';
import { barsOf, namesOf, placeOf } from './preview-places.ts';
import { proseBlock } from './preview-prose.ts';

export interface Preview {
  readonly title: string;
  readonly facts: readonly PreviewFact[];
  readonly blocks: readonly PreviewContent[];
  readonly bars: readonly PreviewBar[];
  readonly texts: readonly PreviewText[];
  /** As written, in beats a minute. */
  readonly tempo: number;
  /** What is open below the music. */
  readonly panel?: OpenPanel;
}

/** Widths, in pixels, that systems are drawn for; what is asked for is drawn in to them. */
const NARROWEST = 280;
const WIDEST = 2400;
/** By how much large print is larger. */
const LARGE = 1.4;

const NOTHING =
  'Nothing to draw yet. A section with a progression, and a shape and a cell to play it with, appears here as tab while you write.';

/**
 * `width` in CSS pixels. Prose and music in the order of the lesson; what no `show` sets anywhere stands below, for the author
 * alone. The text's places go into `bars` and `texts` alone: a drawing stays what it is when its lines move.
 */
export function previewOf(analysis: Analysis, width: number, view: PreviewView = PLAIN_VIEW): Preview {
  const { lesson, score, ownFindings, lines } = analysis;
  const scale = view.largePrint ? LARGE : 1;
  const asked = Number.isFinite(width) ? width / scale : NARROWEST;
  const drawnIn = Math.round(Math.min(WIDEST, Math.max(NARROWEST / scale, asked)));
  const drawnAs: DrawnAs = { reading: view.reading, leftHanded: view.leftHanded, scale };
  const names = namesOf(lesson);
  const shownBefore = new Map<string, number>();
  const draw = (music: Music, mark: string, level: number): readonly PreviewContent[] => {
    const section = lesson.sections[music.section];
    const sectionScore = score.sections[music.section];
    if (!sectionScore || sectionScore.bars.length === 0) return [];
    const name = names[music.section];
    const times = (shownBefore.get(name + mark) ?? 0) + 1;
    shownBefore.set(name + mark, times);
    const id = `${name}${mark}${times === 1 ? '' : `@${times}`}`;
    const { settings } = lesson;
    return musicBlocks({ music, section, score: sectionScore, settings, name, id, level, width: drawnIn, drawnAs });
  };
  const count = { text: 0, note: 0 };
  const { shown, leftOut } = piecesOf(lesson);
  const texts: PreviewText[] = [];
  const contents = contentsOf(lesson, lines, ownFindings);
  const lists = (contents?.lists ?? []).map((list, index): PreviewContent => {
    const id = `contents/${index}`;
    list.rows.forEach(({ span }, step) => texts.push({ block: id, step, place: placeOf(span, lines) }));
    return block(id, contentsHtml(list));
  });
  const pieces = shown.flatMap((piece): readonly PreviewContent[] => {
    if (piece.kind === 'music') return draw(piece, '', 2);
    const id = `${piece.kind}/${++count[piece.kind]}`;
    texts.push({ block: id, place: placeOf(piece.span, lines) });
    return [proseBlock(id, piece, lesson, score)];
  });
  const blocks = [...lists, ...pieces];
  const practice = practiceHtml(lesson);
  if (practice !== '') blocks.push(block('practice', practice));
  lesson.practice.forEach(({ span }, step) => texts.push({ block: 'practice', step, place: placeOf(span, lines) }));
  const rest = leftOut.flatMap((music) => draw(music, '@rest', 3));
  if (rest.length > 0) blocks.push(block('left-out', leftOutHeading), ...rest);
  if (blocks.length === 0) blocks.push(block('nothing', `<p class="nothing">${escaped(NOTHING)}</p>`));
  else if (lesson.sections.length > 0) blocks.push(block('care', `<p class="care">${escaped(CARE)}</p>`));
  return {
    title: contents?.title ?? lesson.title ?? 'Untitled lesson',
    facts: contents?.facts ?? factsOf(lesson, score, ownFindings),
    blocks,
    bars: barsOf(analysis, names),
    texts,
    tempo: lesson.settings.tempo.perMinute,
    ...(view.panel && { panel: panelOf(analysis, view.panel, drawnIn, drawnAs) }),
  };
}

const leftOutHeading =
  '<h2 class="left-out">Left out of the handout</h2>' +
  '<p class="quiet">No <code>show</code> sets these bars between the prose, so that a student does not get them.</p>';
