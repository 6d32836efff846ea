/** Answers with what can be done at a place: fixes of findings, and other ways to write the lesson. */
import {
  CodeActionKind,
  LSPErrorCodes,
  ResponseError,
  type CodeAction,
  type CodeActionParams,
  type Position,
  type Range,
} from 'vscode-languageserver';
import type { Action } from '../../features/actions/action.ts';
import { actionsAt, carriedOut } from '../../features/actions/registry.ts';
import type { Span } from '../../util/span.ts';
import { actionsOf } from '../convert.ts';
import type { AboutLesson, Answer, Desk } from '../desk.ts';
import { weighed } from '../diagnostics.ts';
import { workspaceEdit } from '../edits.ts';
import type { OpenLesson } from '../lessons.ts';

const KINDS = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorRewrite,
  CodeActionKind.RefactorExtract,
  CodeActionKind.RefactorInline,
  CodeActionKind.RefactorMove,
  `${CodeActionKind.SourceFixAll}.stringcourse`,
];

/** What finds an action again when a client asks for its edit. */
interface Chosen extends AboutLesson {
  readonly version: number;
  readonly chosen: Span;
  readonly id: string;
}

export const codeActions: Answer = {
  offers: ({ codeActions: takes, resolvesActions }) =>
    takes ? { codeActionProvider: { codeActionKinds: KINDS, ...(resolvesActions && { resolveProvider: true }) } } : {},
  listen(desk) {
    const { connection, about, client, settings } = desk;
    connection.onCodeAction(
      about<CodeActionParams, CodeAction[] | null>(
        'code actions',
        async (lesson, { range, context: { only, diagnostics } }) => {
          if (!client().codeActions) return null;
          const { severity } = await settings.whenKnown(lesson.document.uri);
          const fixes = (): readonly CodeAction[] =>
            weighed(lesson.analysis.findings, severity)
              .filter(({ span }) => touch(lesson.rangeOf(span), range))
              .flatMap((finding) => actionsOf(finding, diagnostics, lesson, client()));
          const chosen = { start: lesson.offsetOf(range.start), end: lesson.offsetOf(range.end) };
          const others = actionsAt(lesson.analysis, chosen, (kind) => isWanted(kind, only));
          return [
            ...(isWanted(CodeActionKind.QuickFix, only) ? fixes() : []),
            ...(await Promise.all(
              others.filter((one) => isOffered(one, desk)).map((one) => listed(one, chosen, lesson, desk)),
            )),
          ];
        },
        null,
      ),
    );
    connection.onCodeActionResolve(async (asked, token) => {
      const data = asked.data as Chosen;
      const answer = about<Chosen, CodeAction>(
        'code action',
        async (lesson) => {
          const { version, chosen, id } = data;
          const action = actionsAt(lesson.analysis, chosen).find((one) => one.id === id);
          if (!action || lesson.document.version !== version)
            throw new ResponseError(LSPErrorCodes.ContentModified, 'the lesson has changed');
          return { ...asked, edit: await editFor(action, lesson, desk) };
        },
        asked,
      );
      return answer(data, token);
    });
  },
};

function isOffered({ disabled, makesFile }: Action, { client }: Desk): boolean {
  const { showsDisabled, makesFiles } = client();
  return (disabled === undefined || showsDisabled) && (makesFile === undefined || makesFiles);
}

/** With its edit only where the client cannot ask for it later. */
async function listed(action: Action, chosen: Span, lesson: OpenLesson, desk: Desk): Promise<CodeAction> {
  const { id, kind, title, disabled } = action;
  if (disabled !== undefined) return { title, kind, disabled: { reason: disabled } };
  if (!desk.client().resolvesActions) return { title, kind, edit: await editFor(action, lesson, desk) };
  const { uri, version } = lesson.document;
  const data: Chosen = { textDocument: { uri }, version, chosen, id };
  return { title, kind, data };
}

async function editFor(action: Action, lesson: OpenLesson, { client }: Desk): Promise<CodeAction['edit']> {
  const { edits } = carriedOut(lesson.analysis, action);
  return workspaceEdit([{ lesson, edits }], client());
}

/** Whether a client that asks `only` for some kinds wants this one; what concerns the whole source it must ask for. */
const isWanted = (kind: string, only: readonly string[] | undefined): boolean =>
  only === undefined
    ? !kind.startsWith(CodeActionKind.Source)
    : only.some((one) => one === '' || one === kind || kind.startsWith(`${one}.`));

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

/** Whether two ranges share a place, be it only an edge. */
const touch = (a: Range, b: Range): boolean => !before(a.end, b.start) && !before(b.end, a.start);
