/** Answers which words lead to another file. A link is whole at once: its file had to be looked for to know that it is there. */
import type { DocumentLink, DocumentLinkParams } from 'vscode-languageserver';
import { linksOf } from '../../features/document-links.ts';
import type { Answer } from '../desk.ts';
import { encoded } from '../library-files.ts';
import { withFiles } from '../refresh.ts';

export const documentLinks: Answer = {
  offers: ({ documentLinks: takes }) => (takes ? { documentLinkProvider: {} } : {}),
  listen({ connection, about, client, workspace }) {
    connection.onDocumentLinks(
      about<DocumentLinkParams, DocumentLink[] | null>(
        'links',
        async (asked) => {
          const lesson = await withFiles(asked, workspace);
          return linksOf(lesson.analysis).map(({ span, to, says }) => ({
            range: lesson.rangeOf(span),
            target: encoded(`${lesson.root}${to}`),
            ...(client().linkTooltips && says !== '' && { tooltip: says }),
          }));
        },
        null,
      ),
    );
  },
};
