/** A pluck for which no string sounds. */
import type { CellDefinition } from '../lesson/lesson.ts';
import type { SilentPluck } from '../realise/score.ts';
import type { Context, Found, Rule } from './rule.ts';
import { barsNamed, type PlacedChord } from './shared/chords.ts';
import { listed, quoted } from './shared/words.ts';

/** So many chords are named one by one. */
const MOST_CHORDS_NAMED = 3;

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
        const mark = `${cell.span.start} ${pluck.note} ${pluck.string}`;
        const group = groups.get(mark) ?? { cell, pluck, places: [] };
        group.places.push(placed);
        groups.set(mark, group);
      }
    }
    return [...groups.values()].map((group) => findingFor(group, context));
  },
};

interface Group {
  readonly cell: CellDefinition;
  readonly pluck: SilentPluck;
  readonly places: PlacedChord[];
}

function findingFor({ cell, pluck, places }: Group, { lesson }: Context): Found {
  const chords = [...new Set(places.map(({ plan }) => plan.written))];
  const over = chords.length > MOST_CHORDS_NAMED ? `${chords.length} chords` : listed(chords.map(quoted));
  const sections = [...new Set(places.map(({ section }) => section))];
  const where = sections.map((section) => {
    const bars = [...new Set(places.filter((one) => one.section === section).map(({ bar }) => bar.number))];
    return barsNamed(bars) + (lesson.sections.length > 1 ? ` of ${section.name}` : '');
  });
  const what = pluck.string === undefined ? 'finds no string here' : `plucks string ${pluck.string}, which is silent`;
  return {
    span: cell.noteSpans[pluck.note],
    message: `${quoted(cell.name)} ${what} over ${over} (${where.join('; ')}); pluck one that sounds.`,
    related: places
      .filter((one, i) => places.findIndex((other) => other.place === one.place) === i)
      .map(({ place, bar }) => ({ span: place.span, message: `Bar ${bar.number}: nothing sounds for this pluck.` })),
  };
}
