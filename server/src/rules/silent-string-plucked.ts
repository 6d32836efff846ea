/** A pluck for which no string sounds. */
import type { CellDefinition, Section } from '../lesson/lesson.ts';
import type { SilentPluck } from '../realise/score.ts';
import type { Context, Found, Rule } from './rule.ts';
import { barsNamed, type PlacedChord } from './shared/chords.ts';
import { listed, quoted } from './shared/words.ts';

/** So many chords are named one by one. */
const MOST_CHORDS_NAMED = 3;
const MOST_SECTIONS_NAMED = 2;
const MOST_PLACES_SHOWN = 3;

export const rule: Rule = {
  code: 'silent-string-plucked',
  severity: 'warning',
  topic: 'playing',
  title: 'A pluck on a silent string',
  why: 'The cell plucks a string that the voicing does not sound, so the pattern has a hole there, or a thud. Pluck a string that all the chords have, let `p(bass)` or `a(top)` find one, or give the chord a cell of its own by `with`.',
  bad: `progression quay
  D as x-x-0-2-3-2

cell ripple
  p6 i3 m2 i3 p4 i3 m2 i3

section verse
  progression quay
  cell ripple
`,
  good: `progression quay
  D as x-x-0-2-3-2

cell ripple
  p4 i3 m2 i3 p4 i3 m2 i3

section verse
  progression quay
  cell ripple
`,
  check(context) {
    const groups = new Map<string, Group>();
    for (const placed of context.chords) {
      const index = placed.bar.chords.indexOf(placed.plan);
      for (const pluck of placed.barPlayed.silentPlucks) {
        if (pluck.chord !== index) continue;
        const cell = context.lesson.cells.find((one) => one.cell === placed.section.plan.cells[pluck.cell]);
        if (!cell?.noteSpans[pluck.note]) continue;
        // A string that is silent is silent for each of its plucks: one finding says so.
        const mark = `${cell.span.start} ${pluck.string ?? `at ${pluck.note}`}`;
        const group = groups.get(mark) ?? { cell, pluck, notes: new Set(), places: [] };
        group.notes.add(pluck.note);
        group.places.push(placed);
        groups.set(mark, group);
      }
    }
    return [...groups.values()].map((group) => findingFor(group, context));
  },
};

interface Group {
  readonly cell: CellDefinition;
  /** The first of them. */
  readonly pluck: SilentPluck;
  /** Indexes of the cell's notes. */
  readonly notes: Set<number>;
  readonly places: PlacedChord[];
}

function findingFor({ cell, pluck, notes, places }: Group, { lesson }: Context): Found {
  const chords = [...new Set(places.map(({ plan }) => plan.written))];
  const over = chords.length > MOST_CHORDS_NAMED ? `${chords.length} chords` : listed(chords.map(quoted));
  const where = barsWhere(places, lesson.sections.length > 1);
  const what = pluck.string === undefined ? 'finds no string here' : `plucks string ${pluck.string}, which is silent`;
  const [first, ...others] = [...notes].sort((a, b) => a - b);
  return {
    span: cell.noteSpans[first],
    message: `${quoted(cell.name)} ${what} over ${over} (${where}); pluck one that sounds.`,
    related: [
      ...others
        .slice(0, MOST_PLACES_SHOWN)
        .map((note) => ({ span: cell.noteSpans[note], message: 'So does this pluck.' })),
      ...[...new Map(places.map((one) => [one.place, one])).values()]
        .slice(0, MOST_PLACES_SHOWN)
        .map(({ place, bar }) => ({ span: place.span, message: `Bar ${bar.number}: nothing sounds for this pluck.` })),
    ],
  };
}

/** `bars 1, 3 and 4`, or by section; with many sections only how many. */
function barsWhere(places: readonly PlacedChord[], nameSections: boolean): string {
  const bySection = new Map<Section, Set<number>>();
  for (const { section, bar } of places) {
    const bars = bySection.get(section) ?? new Set();
    bySection.set(section, bars.add(bar.number));
  }
  if (bySection.size > MOST_SECTIONS_NAMED) return `in ${bySection.size} sections`;
  const named = [...bySection].map(([{ name }, bars]) => barsNamed([...bars]) + (nameSections ? ` of ${name}` : ''));
  return named.join('; ');
}
