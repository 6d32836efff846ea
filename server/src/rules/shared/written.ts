/** What is hard for the hand in bars that are written out: one finding for each part of a section, with its bars. */
import type { Section } from '../../lesson/lesson.ts';
import type { WrittenTrouble } from '../../realise/score.ts';
import type { Severity } from '../../util/finding.ts';
import type { Span } from '../../util/span.ts';
import type { Context, Found } from '../rule.ts';
import { barsNamed } from './chords.ts';

export interface PlacedTrouble<T extends WrittenTrouble = WrittenTrouble> {
  readonly trouble: T;
  readonly section: Section;
  /** The bar's number. */
  readonly bar: number;
  /** The note in the text. */
  readonly span: Span;
}

/** So many of the places of one finding are shown. */
const MOST_SHOWN = 6;

/**
 * Findings for all troubles that `concerns` takes, one for each section and kind of part: at the worst note, by the weight that
 * `concerns` gives it. `say` gets the worst and where they are: `In bar 2`, `In bars 2 and 5, most of all here`.
 */
export function onceForPart<T extends WrittenTrouble>(
  { lesson, score }: Context,
  concerns: (trouble: WrittenTrouble) => { readonly weight: number; readonly trouble: T } | undefined,
  say: (worst: PlacedTrouble<T>, where: string) => { readonly message: string; readonly severity?: Severity },
): readonly Found[] {
  return lesson.sections.flatMap((section, index) =>
    (['written', 'melody'] as const).flatMap((voice): Found | readonly [] => {
      const found = score.sections[index].bars.flatMap(({ number, troubles }, bar) =>
        (troubles ?? []).flatMap((one) => {
          const place = section.places[bar]?.[voice === 'melody' ? 'melody' : 'tab'];
          const concerned = one.voice === voice && place ? concerns(one) : undefined;
          const span = place?.notes[one.note] ?? place?.span;
          return concerned && span ? [{ ...concerned, section, bar: number, span }] : [];
        }),
      );
      if (found.length === 0) return [];
      const worst = found.reduce((one, other) => (other.weight > one.weight ? other : one));
      const bars = [...new Set(found.map(({ bar }) => bar))];
      const where = bars.length === 1 ? `In bar ${bars[0]}` : `In ${barsNamed(bars)}, most of all in bar ${worst.bar}`;
      const others = found.filter((one) => one.span.start !== worst.span.start);
      return {
        span: worst.span,
        ...say(worst, where),
        related: others.slice(0, MOST_SHOWN).map(({ span, bar }) => ({ span, message: `Here too, in bar ${bar}.` })),
      };
    }),
  );
}
