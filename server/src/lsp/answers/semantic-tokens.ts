/** Answers what each word is: of the whole lesson, of a range, or what has changed since the last answer. */
import type {
  SemanticTokens,
  SemanticTokensDelta,
  SemanticTokensDeltaParams,
  SemanticTokensParams,
  SemanticTokensRangeParams,
} from 'vscode-languageserver';
import { semanticTokensIn } from '../../features/semantic-tokens.ts';
import type { Span } from '../../util/span.ts';
import type { Answer } from '../desk.ts';
import type { OpenLesson } from '../lessons.ts';
import { refresher } from '../refresh.ts';
import { editsBetween, LEGEND, packed, SentTokens } from '../token-data.ts';

export const semanticTokens: Answer = {
  offers: ({ semanticTokens: takes }) => {
    if (!takes || !(takes.full || takes.range)) return {};
    const full = takes.full && (takes.delta ? { delta: true } : true);
    return { semanticTokensProvider: { legend: LEGEND, full, range: takes.range } };
  },
  listen(desk) {
    const { connection, about, client, lessons } = desk;
    const tokens = connection.languages.semanticTokens;
    const sent = new SentTokens();

    const dataIn = ({ analysis }: OpenLesson, span: Span = { start: 0, end: analysis.text.length }): number[] =>
      packed(semanticTokensIn(analysis, span), analysis.lines, client().encoding);
    const keep = (lesson: OpenLesson, data: readonly number[]): string =>
      sent.keep(lesson.document.uri, data, (uri) => lessons.get(uri) !== undefined);
    const whole = (lesson: OpenLesson): SemanticTokens => {
      const data = dataIn(lesson);
      return { resultId: keep(lesson, data), data };
    };

    tokens.on(about<SemanticTokensParams, SemanticTokens | null>('semantic tokens', whole, null));
    tokens.onDelta(
      about<SemanticTokensDeltaParams, SemanticTokens | SemanticTokensDelta | null>(
        'semantic tokens',
        (lesson, { previousResultId }) => {
          const before = sent.known(lesson.document.uri, previousResultId);
          if (!before) return whole(lesson);
          const data = dataIn(lesson);
          return { resultId: keep(lesson, data), edits: editsBetween(before, data) };
        },
        null,
      ),
    );
    tokens.onRange(
      about<SemanticTokensRangeParams, SemanticTokens | null>(
        'semantic tokens',
        (lesson, { range }) => ({
          data: dataIn(lesson, { start: lesson.offsetOf(range.start), end: lesson.offsetOf(range.end) }),
        }),
        null,
      ),
    );

    // A name may lead somewhere now that the file with its part is there.
    const refresh = refresher(desk, () => tokens.refresh());
    lessons.onLookedAtAgain(() => {
      if (client().semanticTokens?.refreshes) refresh();
    });
  },
};
