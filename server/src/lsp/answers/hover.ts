/** Answers what is shown where the pointer rests. */
import type { Hover, HoverParams } from 'vscode-languageserver';
import { hoverAt } from '../../features/hover.ts';
import { hoverFrom } from '../convert.ts';
import type { Answer } from '../desk.ts';

export const hover: Answer = {
  offers: () => ({ hoverProvider: true }),
  listen({ connection, about, client }) {
    connection.onHover(
      about<HoverParams, Hover | null>(
        'hover',
        (lesson, { position }) => {
          const found = hoverAt(lesson.analysis, lesson.offsetOf(position));
          return found ? hoverFrom(found, lesson, client()) : null;
        },
        null,
      ),
    );
  },
};
