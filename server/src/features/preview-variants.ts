/** The lesson and its variants side by side, with what differs and how hard each is. */
import { variantNamed, type Analysis } from '../analyze.ts';
import { difficultyOf, difficultyWord, factsOf } from '../draw/facts.ts';
import { drawSystems } from '../draw/section.ts';
import { escaped, svgOf } from '../draw/svg.ts';
import { block, type DrawnAs, type OpenPanel, type PreviewContent } from './preview-block.ts';
import { said } from './preview-chord.ts';
import { namesOf } from './preview-places.ts';

/** Narrower than this a column shows hardly a bar: the variants are then looked at one at a time. */
const NARROWEST_COLUMN = 300;
const BETWEEN_COLUMNS = 32;
/** Systems of one column; the whole of a variant has a preview and a handout of its own. */
const MOST_SYSTEMS = 12;

/** Of the section with this index, or else of the first. `width` in pixels of the drawing. */
export function variantsPanel(
  analysis: Analysis,
  section: number | undefined,
  width: number,
  drawnAs: DrawnAs,
): OpenPanel {
  const { definitions, title } = { definitions: analysis.lesson.variants, title: 'Variants' };
  const names = [...new Set(definitions.map(({ name }) => name))];
  if (names.length === 0) {
    const words =
      'This lesson has no variants: a statement such as variant gentle "Gentler", with capo 3 below it, makes one.';
    return { kind: 'variants', title, blocks: [said('variants', words)] };
  }
  const shown = [
    { id: '', title: 'As written', analysis },
    ...names.flatMap((name) => {
      const variant = variantNamed(analysis, name);
      return variant ? [{ id: name, title: variant.definition.title ?? name, analysis: variant as Analysis }] : [];
    }),
  ];
  const column = Math.floor((width - BETWEEN_COLUMNS * (shown.length - 1)) / shown.length);
  const beside = column >= NARROWEST_COLUMN;
  const at =
    section ??
    Math.max(
      0,
      analysis.lesson.sections.findIndex(({ plan }) => plan.bars.length > 0),
    );
  const usual = difficultyOf(analysis.score);
  const blocks = shown.map(({ id, title: name, analysis: one }): PreviewContent => {
    const own = difficultyOf(one.score);
    const facts = [difficultyWords(usual, own, id === ''), ...differences(analysis, one)];
    const head = `<h3>${escaped(name)}</h3><p class="quiet">${facts.map(escaped).join(' · ')}</p>`;
    const music = musicOf(one, at, beside ? column : width, drawnAs);
    return block(`panel/variant/${id}`, `<section aria-label="${escaped(name)}">${head}${music}</section>`);
  });
  return { kind: 'variants', title: `Variants${beside ? '' : ', one at a time'}`, blocks: [modeOf(beside), ...blocks] };
}

/** Tells the page how to set what follows. */
const modeOf = (beside: boolean): PreviewContent =>
  block('panel/variants/mode', `<span hidden="" data-variants="${beside ? 'beside' : 'tabs'}"></span>`);

/** `difficulty 2.0, moderate → 1.4, easy`. */
function difficultyWords(usual: number | undefined, own: number | undefined, isLesson: boolean): string {
  const words = (value: number): string => `${value.toFixed(1)}, ${difficultyWord(value)}`;
  if (own === undefined) return 'nothing is played';
  return isLesson || usual === undefined
    ? `difficulty ${words(own)}`
    : `difficulty ${usual.toFixed(1)} → ${words(own)}`;
}

const COMPARED: ReadonlySet<string> = new Set(['key', 'meter', 'tempo', 'swing', 'tuning', 'capo', 'level', 'hand']);

/** The facts of a variant that are not the lesson's own. */
function differences(lesson: Analysis, variant: Analysis): readonly string[] {
  if (lesson === variant) return [];
  const factsIn = (one: Analysis): readonly string[] =>
    factsOf(one.lesson, one.score, []).flatMap(({ kind, text }) => (COMPARED.has(kind) ? [text] : []));
  const usual = new Set(factsIn(lesson));
  const own = factsIn(variant);
  const less = lesson.lesson.settings.instrument.capo && !variant.lesson.settings.instrument.capo ? ['no capo'] : [];
  return [...own.filter((text) => !usual.has(text)), ...less];
}

function musicOf({ lesson, score }: Analysis, index: number, width: number, { reading, scale }: DrawnAs): string {
  const section = lesson.sections[index];
  const played = score.sections[index];
  if (!section || !played || played.bars.length === 0) return '<p class="quiet">Nothing is played here.</p>';
  const { instrument } = lesson.settings;
  const drawn = { name: namesOf(lesson)[index], plan: section.plan, score: played, instrument, reading };
  const systems = drawSystems(drawn, width);
  return systems
    .slice(0, MOST_SYSTEMS)
    .map(({ drawing }) => svgOf(drawing, undefined, scale))
    .join('');
}
