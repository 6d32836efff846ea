/** The preview of a lesson as blocks of HTML and SVG that keep their ids, so that an edit redraws only what it changed. */
import type { Analysis } from '../analyze.ts';
import { factsOf } from '../draw/facts.ts';
import { practiceHtml } from '../draw/practice.ts';
import { escaped } from '../draw/svg.ts';
import type { Lesson } from '../lesson/lesson.ts';
import { piecesOf, type Music } from '../prose/pieces.ts';
import type { PlaceInText, PreviewBar, PreviewFact } from '../protocol.ts';
import { CARE } from '../util/care.ts';
import type { LineMap } from '../util/line-map.ts';
import type { Span } from '../util/span.ts';
import { block, type PreviewContent } from './preview-block.ts';
import { musicBlocks } from './preview-music.ts';
import { proseBlock } from './preview-prose.ts';

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

/**
 * `width` in CSS pixels. Prose and music in the order of the lesson; what no `show` sets anywhere stands below, for the author
 * alone. The text's places go into `bars` alone: a drawing stays what it is when its lines move.
 */
export function previewOf(analysis: Analysis, width: number): Preview {
  const { lesson, score, ownFindings, lines } = analysis;
  const drawnIn = Math.round(Math.min(WIDEST, Math.max(NARROWEST, Number.isFinite(width) ? width : NARROWEST)));
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
    return musicBlocks({ music, section, score: sectionScore, settings, name, id, level, width: drawnIn });
  };
  const count = { text: 0, note: 0 };
  const { shown, leftOut } = piecesOf(lesson);
  const blocks = shown.flatMap((piece): readonly PreviewContent[] =>
    piece.kind === 'music'
      ? draw(piece, '', 2)
      : [proseBlock(`${piece.kind}/${++count[piece.kind]}`, piece, lesson, score)],
  );
  const practice = practiceHtml(lesson);
  if (practice !== '') blocks.push(block('practice', practice));
  const rest = leftOut.flatMap((music) => draw(music, '@rest', 3));
  if (rest.length > 0) blocks.push(block('left-out', leftOutHeading), ...rest);
  if (blocks.length === 0) blocks.push(block('nothing', `<p class="nothing">${escaped(NOTHING)}</p>`));
  else if (lesson.sections.length > 0) blocks.push(block('care', `<p class="care">${escaped(CARE)}</p>`));
  return {
    title: lesson.title ?? 'Untitled lesson',
    facts: factsOf(lesson, score, ownFindings),
    blocks,
    bars: barsOf(analysis, names, lines),
  };
}

const leftOutHeading =
  '<h2 class="left-out">Left out of the handout</h2>' +
  '<p class="quiet">No <code>show</code> sets these bars between the prose, so that a student does not get them.</p>';

/** A name for each section; one that two sections share must not give two blocks one id. */
function namesOf({ sections }: Lesson): readonly string[] {
  const taken = new Map<string, number>();
  return sections.map(({ name, plan }) => {
    if (plan.bars.length === 0) return name;
    const times = (taken.get(name) ?? 0) + 1;
    taken.set(name, times);
    return times === 1 ? name : `${name}~${times}`;
  });
}

/** Every bar is drawn somewhere: between the prose or among what is left out. */
const barsOf = ({ lesson, score }: Analysis, names: readonly string[], lines: LineMap): readonly PreviewBar[] =>
  lesson.sections.flatMap((section, index) =>
    (score.sections[index]?.bars ?? []).map((bar, place): PreviewBar => ({
      id: `${names[index]}.${bar.number}`,
      place: placeOf(section.places[place]?.span ?? section.span, lines),
    })),
  );

function placeOf(span: Span, lines: LineMap): PlaceInText {
  const start = lines.positionAt(span.start);
  const end = lines.positionAt(span.end);
  return { startLine: start.line, startCharacter: start.character, endLine: end.line, endCharacter: end.character };
}
