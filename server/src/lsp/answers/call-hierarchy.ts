/** Answers who uses a lesson or a part, and what it uses, file by file. */
import {
  SymbolKind,
  type CallHierarchyIncomingCall,
  type CallHierarchyIncomingCallsParams,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type CallHierarchyOutgoingCallsParams,
  type CallHierarchyPrepareParams,
  type CancellationToken,
} from 'vscode-languageserver';
import { calleeAt, callsIn, callsOf, signOf, type Callee, type CallSign } from '../../features/call-hierarchy.ts';
import type { Answer } from '../desk.ts';
import { encoded } from '../library-files.ts';
import type { OpenLesson } from '../lessons.ts';
import type { Workspace } from '../workspace.ts';

const KINDS: Readonly<Record<CallSign['kind'], SymbolKind>> = {
  lesson: SymbolKind.File,
  section: SymbolKind.Module,
  part: SymbolKind.Class,
};

type Part = Callee['part'];

export const callHierarchy: Answer = {
  offers: () => ({ callHierarchyProvider: true }),
  listen({ connection, about, across, workspace }) {
    connection.languages.callHierarchy.onPrepare(
      about<CallHierarchyPrepareParams, CallHierarchyItem[] | null>(
        'call hierarchy',
        async (asked, { position }) => {
          const lesson = (await workspace.lessonAt(asked.document.uri)) ?? asked;
          const callee = calleeAt(lesson.analysis, lesson.offsetOf(position));
          const item = callee && (await itemFor(callee, lesson, workspace));
          return item ? [item] : null;
        },
        null,
      ),
    );
    connection.languages.callHierarchy.onIncomingCalls(
      across<CallHierarchyIncomingCallsParams, CallHierarchyIncomingCall[] | null>(
        'who uses it',
        async ({ item }, token) => {
          const lesson = await workspace.lessonAt(item.uri);
          if (!lesson) return null;
          const callee = { path: lesson.analysis.files.path, part: item.data as Part };
          return (await beside(lesson, workspace, token)).flatMap((one) => {
            const spans = callsIn(one.analysis, callee);
            const from = spans.length > 0 && itemOf(one, undefined);
            return from ? { from, fromRanges: spans.map((span) => one.rangeOf(span)) } : [];
          });
        },
        null,
      ),
    );
    connection.languages.callHierarchy.onOutgoingCalls(
      across<CallHierarchyOutgoingCallsParams, CallHierarchyOutgoingCall[] | null>(
        'what it uses',
        async ({ item }) => {
          const lesson = await workspace.lessonAt(item.uri);
          if (!lesson) return null;
          const calls: CallHierarchyOutgoingCall[] = [];
          for (const { to: callee, spans } of callsOf(lesson.analysis, item.data as Part)) {
            const to = await itemFor(callee, lesson, workspace);
            if (to) calls.push({ to, fromRanges: spans.map((span) => lesson.rangeOf(span)) });
          }
          return calls;
        },
        null,
      ),
    );
  },
};

/** The lesson itself, and all that can use what is in it. */
async function beside(
  lesson: OpenLesson,
  workspace: Workspace,
  token: CancellationToken,
): Promise<readonly OpenLesson[]> {
  if (lesson.root === undefined) return [lesson];
  return (await workspace.everyLesson(() => token.isCancellationRequested)).filter((one) => one.root === lesson.root);
}

/** What a lesson speaks of, in the file where it is given. */
async function itemFor(
  { path, part }: Callee,
  lesson: OpenLesson,
  workspace: Workspace,
): Promise<CallHierarchyItem | undefined> {
  const isHere = path === lesson.analysis.files.path;
  const file = isHere ? lesson : await workspace.lessonAt(encoded(`${lesson.root}${path}`));
  return file && itemOf(file, part);
}

function itemOf(lesson: OpenLesson, part: Part): CallHierarchyItem | undefined {
  const sign = signOf(lesson.analysis, part);
  return (
    sign && {
      name: sign.name,
      kind: KINDS[sign.kind],
      detail: sign.detail,
      uri: lesson.document.uri,
      range: lesson.rangeOf(sign.whole),
      selectionRange: lesson.rangeOf(sign.named),
      ...(part && { data: part }),
    }
  );
}
