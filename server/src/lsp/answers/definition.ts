/** Answers where a name is given. */
import type { Definition, DefinitionLink, DefinitionParams } from 'vscode-languageserver';
import { definitionAt } from '../../features/definition.ts';
import { definitionFrom } from '../convert.ts';
import type { Answer } from '../desk.ts';

export const definition: Answer = {
  offers: () => ({ definitionProvider: true }),
  listen({ connection, about, client }) {
    connection.onDefinition(
      about<DefinitionParams, Definition | DefinitionLink[] | null>(
        'definition',
        (lesson, { position }) => {
          const link = definitionAt(lesson.analysis, lesson.offsetOf(position));
          return link ? definitionFrom(link, lesson, client()) : null;
        },
        null,
      ),
    );
  },
};
