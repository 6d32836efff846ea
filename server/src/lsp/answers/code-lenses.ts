/** Answers with what stands above sections and parts; how often a part is used is counted when its line comes into view. */
import { CodeLensRefreshRequest, type CodeLens, type CodeLensParams, type Command } from 'vscode-languageserver';
import { lensesOf, usesTitle, type Lens } from '../../features/code-lenses.ts';
import { namedAt } from '../../features/occurrences.ts';
import { OPEN_PREVIEW, PLAY, SHOW_REFERENCES, type SectionPlace } from '../../protocol.ts';
import type { Client } from '../client.ts';
import type { Answer } from '../desk.ts';
import type { OpenLesson } from '../lessons.ts';
import { occurrencesEverywhere, usesOf } from '../occurrences.ts';

const COMMANDS: Readonly<Record<Lens['kind'], string>> = { play: PLAY, preview: OPEN_PREVIEW, uses: SHOW_REFERENCES };
const TITLES = { play: 'Play', preview: 'Preview' } as const;

/** What a lens keeps until it is counted. */
interface Uncounted {
  readonly uri: string;
}

export const codeLenses: Answer = {
  // What a lens does is a command of the client's own: without it there is nothing to choose.
  offers: (client) => (isOffered(client) ? { codeLensProvider: { resolveProvider: true } } : {}),
  listen({ connection, about, across, client, workspace, settings, idle }) {
    connection.onCodeLens(
      about<CodeLensParams, CodeLens[] | null>(
        'code lenses',
        async (asked) => {
          const { commands } = client();
          if (!(await settings.whenKnown(asked.document.uri)).codeLens) return [];
          // A section whose progression has not come yet has no bars to play.
          const lesson = (await workspace.lessonAt(asked.document.uri)) ?? asked;
          return lensesOf(lesson.analysis)
            .filter(({ kind }) => commands.has(COMMANDS[kind]))
            .map((lens) => lensFrom(lens, lesson));
        },
        null,
      ),
    );
    connection.onCodeLensResolve((lens, token) =>
      across<CodeLens, CodeLens>(
        'uses',
        async (asked) => {
          const { uri } = asked.data as Uncounted;
          const lesson = await workspace.lessonAt(uri);
          const found = lesson && namedAt(lesson.analysis, lesson.offsetOf(asked.range.start));
          if (!lesson || !found) return { ...asked, command: shows(uri, asked, []) };
          const isCancelled = (): boolean => token.isCancellationRequested;
          const uses = usesOf(await occurrencesEverywhere(found.named, lesson, workspace, isCancelled));
          return { ...asked, command: shows(uri, asked, uses) };
        },
        lens,
      )(lens, token),
    );

    // What is counted may be used in another file; once the writing stops, those in view are counted anew.
    let isAnnounced = false;
    const announce = (): void => {
      if (isAnnounced || !client().refreshesLenses || !isOffered(client())) return;
      isAnnounced = true;
      void idle().then(() => {
        isAnnounced = false;
        // A client that is about to leave does not answer any more.
        connection.sendRequest(CodeLensRefreshRequest.type).catch(() => {});
      });
    };
    workspace.onChange(announce);
    settings.onChanged(announce);
  },
};

const isOffered = ({ commands }: Client): boolean => Object.values(COMMANDS).some((one) => commands.has(one));

function lensFrom(lens: Lens, lesson: OpenLesson): CodeLens {
  const { uri } = lesson.document;
  const range = lesson.rangeOf(lens.span);
  if (lens.kind === 'uses') return { range, data: { uri } satisfies Uncounted };
  const { line, character } = lesson.analysis.lines.positionAt(lens.bar.start);
  const place: SectionPlace = { uri, section: lens.section, line, character };
  return { range, command: { title: TITLES[lens.kind], command: COMMANDS[lens.kind], arguments: [place] } };
}

const shows = (uri: string, { range }: CodeLens, uses: ReturnType<typeof usesOf>): Command => ({
  title: usesTitle(uses.length),
  command: SHOW_REFERENCES,
  arguments: [uri, range.start, uses],
});
