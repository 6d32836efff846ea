/** Answers with the edit that makes what a reader chose in the preview: a voicing, or an open string of the map. */
import { ResponseError, LSPErrorCodes, type CancellationToken } from 'vscode-languageserver';
import { changeOf } from '../../features/chord-change.ts';
import { chordHere } from '../../features/preview-chord.ts';
import { addressOf } from '../../features/preview-places.ts';
import { CHANGE_CHORD, type ChangeChord, type ChordChanged } from '../../protocol.ts';
import type { AboutLesson, Answer } from '../desk.ts';
import { workspaceEdit } from '../edits.ts';

const GONE = 'The lesson has changed meanwhile: choose again.';

export const previewChanges: Answer = {
  offers: () => ({}),
  listen({ connection, about, client }) {
    const answer = about<ChangeChord & AboutLesson, ChordChanged | null>(
      'a change from the preview',
      (lesson, { version, bar, chord, change }) => {
        const { analysis, document } = lesson;
        if (document.version !== version) return { says: GONE };
        const address = addressOf(analysis, bar, chord);
        const here = address && chordHere(analysis, address);
        if (!here) return { says: GONE };
        const { says, edits } = changeOf(analysis, here, change);
        return edits.length === 0 ? { says } : { says, edit: workspaceEdit([{ lesson, edits }], client()) };
      },
      null,
    );
    connection.onRequest(CHANGE_CHORD, async (params: ChangeChord, token: CancellationToken) => {
      try {
        return await answer({ ...params, textDocument: { uri: params.uri } }, token);
      } catch (failure) {
        if (failure instanceof ResponseError && failure.code === LSPErrorCodes.ContentModified) return { says: GONE };
        throw failure;
      }
    });
  },
};
