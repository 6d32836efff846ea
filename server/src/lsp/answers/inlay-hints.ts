/** Answers with what stands between the words without being of the text; what a hint says beyond that, when it is pointed at. */
import {
  InlayHintKind,
  LSPErrorCodes,
  ResponseError,
  type InlayHint,
  type InlayHintParams,
} from 'vscode-languageserver';
import { inlayHintPage, inlayHintsIn, type InlayHint as Hint } from '../../features/inlay-hints.ts';
import { markup } from '../convert.ts';
import type { Answer } from '../desk.ts';
import { refresher, withFiles } from '../refresh.ts';

/** What a hint keeps until it is pointed at. */
interface Unresolved {
  readonly uri: string;
  readonly version: number;
  readonly at: number;
  readonly kind: Hint['kind'];
}

const KINDS: Readonly<Record<Hint['kind'], InlayHintKind>> = {
  sounding: InlayHintKind.Type,
  frets: InlayHintKind.Parameter,
};

export const inlayHints: Answer = {
  offers: ({ inlayHints: takes, resolvesHints }) =>
    takes ? { inlayHintProvider: { resolveProvider: resolvesHints } } : {},
  listen(desk) {
    const { connection, about, client, lessons, settings, workspace } = desk;
    const { languages } = connection;
    languages.inlayHint.on(
      about<InlayHintParams, InlayHint[] | null>(
        'inlay hints',
        async (asked, { range }) => {
          const { uri, version } = asked.document;
          const { inlayHints: wanted } = await settings.whenKnown(uri);
          if (!wanted.soundingNames && !wanted.contourFrets) return [];
          const lesson = await withFiles(asked, workspace);
          const span = { start: lesson.offsetOf(range.start), end: lesson.offsetOf(range.end) };
          const { resolvesHints, markdownHover } = client();
          return inlayHintsIn(lesson.analysis, span, wanted).map((hint) => ({
            position: lesson.positionOf(hint.at),
            label: hint.label,
            kind: KINDS[hint.kind],
            paddingLeft: true,
            ...(resolvesHints
              ? { data: { uri, version, at: hint.at, kind: hint.kind } satisfies Unresolved }
              : { tooltip: markup(inlayHintPage(lesson.analysis, hint), markdownHover) }),
          }));
        },
        null,
      ),
    );
    languages.inlayHint.resolve(async (hint, token) => {
      const { uri, version, at, kind } = hint.data as Unresolved;
      const resolve = about(
        'inlay hint',
        (lesson): InlayHint => {
          if (lesson.document.version !== version)
            throw new ResponseError(LSPErrorCodes.ContentModified, 'the lesson has changed');
          return { ...hint, tooltip: markup(inlayHintPage(lesson.analysis, { at, kind }), client().markdownHover) };
        },
        hint,
      );
      return resolve({ textDocument: { uri } }, token);
    });

    const refresh = refresher(desk, () => languages.inlayHint.refresh());
    const askAgain = (): void => void (client().refreshesHints && refresh());
    settings.onChanged(askAgain);
    lessons.onLookedAtAgain(askAgain);
  },
};
