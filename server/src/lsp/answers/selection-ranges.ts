/** Answers what grows around each cursor as more is selected. */
import { SelectionRange, type SelectionRangeParams } from 'vscode-languageserver';
import { selectionsAt } from '../../features/selection-ranges.ts';
import type { Answer } from '../desk.ts';

export const selectionRanges: Answer = {
  offers: ({ selectionRanges: takes }) => (takes ? { selectionRangeProvider: true } : {}),
  listen({ connection, about }) {
    connection.onSelectionRanges(
      about<SelectionRangeParams, SelectionRange[] | null>(
        'selection ranges',
        (lesson, { positions }) =>
          positions.map((position) => {
            const outwards = selectionsAt(lesson.analysis, lesson.offsetOf(position));
            return outwards.reduceRight<SelectionRange | undefined>(
              (parent, span) => SelectionRange.create(lesson.rangeOf(span), parent),
              undefined,
            )!;
          }),
        null,
      ),
    );
  },
};
