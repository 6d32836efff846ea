/** Bars as the preview calls them, and where they and the prose about them stand in the text. */
import type { Analysis } from '../analyze.ts';
import type { Lesson } from '../lesson/lesson.ts';
import type { PlaceInText, PreviewBar } from '../protocol.ts';
import type { LineMap } from '../util/line-map.ts';
import type { Span } from '../util/span.ts';
import type { ChordAddress } from './place.ts';

/** A name for each section; one that two sections share must not give two blocks one id. */
export function namesOf({ sections }: Lesson): readonly string[] {
  const taken = new Map<string, number>();
  return sections.map(({ name, plan }) => {
    if (plan.bars.length === 0) return name;
    const times = (taken.get(name) ?? 0) + 1;
    taken.set(name, times);
    return times === 1 ? name : `${name}~${times}`;
  });
}

/** Every bar is drawn somewhere: between the prose or among what is left out. */
export function barsOf({ lesson, score, lines }: Analysis, names: readonly string[]): readonly PreviewBar[] {
  const told = toldIn(lesson, lines);
  return lesson.sections.flatMap((section, index) =>
    (score.sections[index]?.bars ?? []).map((bar, at): PreviewBar => {
      const place = section.places[at];
      return {
        id: `${names[index]}.${bar.number}`,
        place: placeOf(place?.span ?? section.span, lines),
        chords: (place?.chords ?? []).map(({ span }) => placeOf(span, lines)),
        told: told.get(`${section.name}.${bar.number}`) ?? [],
      };
    }),
  );
}

/** The facts of the prose by the bar that they are about: `verse.2` of `{verse.2.chord}`. */
function toldIn({ passages }: Lesson, lines: LineMap): ReadonlyMap<string, readonly PlaceInText[]> {
  const told = new Map<string, PlaceInText[]>();
  for (const passage of passages) {
    if (passage.kind === 'show') continue;
    for (const { path, span } of passage.facts) {
      const bar = /^[^.]+\.\d+/.exec(path)?.[0];
      if (bar === undefined) continue;
      told.set(bar, [...(told.get(bar) ?? []), placeOf(span, lines)]);
    }
  }
  return told;
}

export function placeOf(span: Span, lines: LineMap): PlaceInText {
  const start = lines.positionAt(span.start);
  const end = lines.positionAt(span.end);
  return { startLine: start.line, startCharacter: start.character, endLine: end.line, endCharacter: end.character };
}

/** The chord that a page points at, by its bar's id; undefined where it is not there any more. */
export function addressOf({ lesson, score }: Analysis, bar: string, chord: number): ChordAddress | undefined {
  const dot = bar.lastIndexOf('.');
  const section = namesOf(lesson).indexOf(bar.slice(0, dot));
  const index = score.sections[section]?.bars.findIndex(({ number }) => `${number}` === bar.slice(dot + 1)) ?? -1;
  if (index < 0 || !lesson.sections[section].plan.bars[index]?.chords[chord]) return undefined;
  return { section, bar: index, chord };
}
