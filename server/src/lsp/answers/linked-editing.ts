/** Answers which places are written in together with the one at the cursor. */
import type { LinkedEditingRangeParams, LinkedEditingRanges } from 'vscode-languageserver';
import { linkedAt, NAME_PATTERN } from '../../features/linked-editing.ts';
import type { Answer } from '../desk.ts';

export const linkedEditing: Answer = {
  offers: ({ linkedEditing: takes }) => (takes ? { linkedEditingRangeProvider: true } : {}),
  listen({ connection, about }) {
    connection.languages.onLinkedEditingRange(
      about<LinkedEditingRangeParams, LinkedEditingRanges | null>(
        'linked editing',
        (lesson, { position }) => {
          const places = linkedAt(lesson.analysis, lesson.offsetOf(position));
          return places ? { ranges: places.map((span) => lesson.rangeOf(span)), wordPattern: NAME_PATTERN } : null;
        },
        null,
      ),
    );
  },
};
