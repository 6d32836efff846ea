/** Answers where in the whole library something has a name like what is typed. */
import {
  SymbolKind,
  type SymbolInformation,
  type WorkspaceSymbol,
  type WorkspaceSymbolParams,
} from 'vscode-languageserver';
import { namedThings, rankOf, type NamedThing } from '../../features/workspace-symbols.ts';
import type { Answer } from '../desk.ts';
import type { LineDocument } from '../documents.ts';
import type { OpenLesson } from '../lessons.ts';

/** More than anybody reads; whoever types on gets others. */
const MOST_FOUND = 200;

const KINDS: Readonly<Record<NamedThing['kind'], SymbolKind>> = {
  lesson: SymbolKind.File,
  section: SymbolKind.Module,
  part: SymbolKind.Class,
};

/** Which of a text's names it was, for a client that asks for its range later. */
interface Which {
  readonly index: number;
  readonly name: string;
}

interface Candidate extends Which {
  readonly thing: NamedThing;
  readonly lesson: OpenLesson;
  readonly rank: number;
  readonly isOpen: boolean;
}

/** By text: what is saved is read once, and again only when another text is. */
const known = new WeakMap<LineDocument, readonly NamedThing[]>();

export const workspaceSymbols: Answer = {
  offers: ({ lazySymbols }) => ({ workspaceSymbolProvider: lazySymbols ? { resolveProvider: true } : true }),
  listen({ connection, across, client, workspace }) {
    connection.onWorkspaceSymbol(
      across<WorkspaceSymbolParams, SymbolInformation[] | WorkspaceSymbol[] | null>(
        'symbols of the workspace',
        async ({ query }, token) => {
          const lessons = await workspace.everyText(() => token.isCancellationRequested);
          const found = lessons.flatMap((lesson) => candidatesIn(lesson, query, workspace.isOpen(lesson.document.uri)));
          const nearest = found.sort(inOrder).slice(0, MOST_FOUND);
          return client().lazySymbols ? nearest.map(lazySymbol) : nearest.map(wholeSymbol);
        },
        null,
      ),
    );
    connection.onWorkspaceSymbolResolve((symbol, token) =>
      across<WorkspaceSymbol, WorkspaceSymbol>(
        'a symbol of the workspace',
        async (asked) => {
          const { uri } = asked.location;
          const { index, name } = asked.data as Which;
          const lesson = await workspace.textAt(uri);
          const things = lesson ? thingsIn(lesson) : [];
          // The text may have changed since.
          const thing = things[index]?.name === name ? things[index] : things.find((one) => one.name === name);
          const start = { line: 0, character: 0 };
          const range = lesson && thing ? lesson.rangeOf(thing.span) : { start, end: start };
          return { ...asked, location: { uri, range } };
        },
        symbol,
      )(symbol, token),
    );
  },
};

function thingsIn({ document, analysis }: OpenLesson): readonly NamedThing[] {
  let things = known.get(document);
  if (!things) known.set(document, (things = namedThings(analysis.document)));
  return things;
}

const candidatesIn = (lesson: OpenLesson, query: string, isOpen: boolean): readonly Candidate[] =>
  thingsIn(lesson).flatMap((thing, index) => {
    const rank = rankOf(thing.name, query);
    return rank === undefined ? [] : { thing, index, name: thing.name, lesson, rank, isOpen };
  });

/** The nearest first; among equals those of open texts, then shorter names, then as they stand in the library. */
function inOrder(a: Candidate, b: Candidate): number {
  return (
    a.rank - b.rank ||
    Number(b.isOpen) - Number(a.isOpen) ||
    a.name.length - b.name.length ||
    (a.name < b.name ? -1 : a.name > b.name ? 1 : 0)
  );
}

const symbolOf = ({ thing, lesson }: Candidate): Pick<SymbolInformation, 'name' | 'kind' | 'containerName'> => {
  const title = thingsIn(lesson).find(({ kind }) => kind === 'lesson');
  const { uri } = lesson.document;
  const container = title && title !== thing ? title.name : uri.slice(uri.lastIndexOf('/') + 1);
  return { name: thing.name, kind: KINDS[thing.kind], containerName: container };
};

const lazySymbol = (candidate: Candidate): WorkspaceSymbol => ({
  ...symbolOf(candidate),
  location: { uri: candidate.lesson.document.uri },
  data: { index: candidate.index, name: candidate.name } satisfies Which,
});

const wholeSymbol = (candidate: Candidate): SymbolInformation => ({
  ...symbolOf(candidate),
  location: { uri: candidate.lesson.document.uri, range: candidate.lesson.rangeOf(candidate.thing.span) },
});
