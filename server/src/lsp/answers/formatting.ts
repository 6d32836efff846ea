/** Answers with the lesson, a part of it, or the line being typed, laid out. */
import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingParams,
  DocumentRangeFormattingParams,
  TextEdit,
} from 'vscode-languageserver';
import { formatEdits } from '../../syntax/format.ts';
import { formatRange, formatTyped, TYPED } from '../../syntax/format-range.ts';
import type { Answer } from '../desk.ts';
import { textEdits } from '../edits.ts';

export const formatting: Answer = {
  offers: () => ({
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: TYPED[0], moreTriggerCharacter: TYPED.slice(1) },
  }),
  listen({ connection, about }) {
    connection.onDocumentFormatting(
      about<DocumentFormattingParams, TextEdit[] | null>(
        'formatting',
        (lesson) => textEdits(formatEdits(lesson.document.text, lesson.analysis.document), lesson),
        null,
      ),
    );
    connection.onDocumentRangeFormatting(
      about<DocumentRangeFormattingParams, TextEdit[] | null>(
        'formatting of a range',
        (lesson, { range }) => {
          const span = { start: lesson.offsetOf(range.start), end: lesson.offsetOf(range.end) };
          return textEdits(formatRange(lesson.document.text, span, lesson.analysis.document), lesson);
        },
        null,
      ),
    );
    connection.onDocumentOnTypeFormatting(
      about<DocumentOnTypeFormattingParams, TextEdit[] | null>(
        'formatting while typing',
        (lesson, { position, ch }) =>
          textEdits(formatTyped(lesson.document.text, lesson.offsetOf(position), ch, lesson.analysis.document), lesson),
        null,
      ),
    );
  },
};
