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
import { coloursByKey } from '../../features/actions/transpose.ts';
import { LIBRARY_FILE } from '../../lesson/library.ts';
import type { Span } from '../../util/span.ts';
import { actionsOf } from '../convert.ts';
import type { AboutLesson, Answer, Desk } from '../desk.ts';
import { weighed } from '../diagnostics.ts';
import { editWithFile, workspaceEdit } from '../edits.ts';
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
          if (others.some(({ kind }) => kind === 'refactor.rewrite.key')) void workOutColours(lesson, desk);
          return [
            ...(isWanted(CodeActionKind.QuickFix, only) ? fixes() : []),
            ...(await listOf(others, chosen, lesson, desk)),
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

/** Between all else: when somebody looks again, the titles say what other keys win and lose. */
async function workOutColours(lesson: OpenLesson, { connection, idle, lessons }: Desk): Promise<void> {
  try {
    for (const step of coloursByKey(lesson.analysis)) {
      await idle();
      if (lessons.get(lesson.document.uri) !== lesson) return step;
    }
  } catch (failure) {
    connection.console.error(`colours of other keys: ${String(failure)}`);
  }
}

async function listOf(actions: readonly Action[], chosen: Span, lesson: OpenLesson, desk: Desk): Promise<CodeAction[]> {
  const { showsDisabled, makesFiles, resolvesActions } = desk.client();
  const list: CodeAction[] = [];
  for (const action of actions) {
    const { id, kind, title, disabled, makesFile } = action;
    if (makesFile !== undefined && !makesFiles) continue;
    const { uri, version } = lesson.document;
    const data: Chosen = { textDocument: { uri }, version, chosen, id };
    if (disabled !== undefined) {
      if (showsDisabled) list.push({ title, kind, disabled: { reason: disabled } });
    } else if (resolvesActions) list.push({ title, kind, data });
    else {
      // A client that cannot ask for it later gets the edit at once, and what cannot be done is no action.
      const edit = await editFor(action, lesson, desk).catch(() => undefined);
      if (edit) list.push({ title, kind, edit });
    }
  }
  return list;
}

async function editFor(action: Action, lesson: OpenLesson, desk: Desk): Promise<CodeAction['edit']> {
  const client = desk.client();
  if (action.makesFile === undefined)
    return workspaceEdit([{ lesson, edits: carriedOut(lesson.analysis, action).edits }], client);
  const readers = await readersOf(action.makesFile, lesson, desk);
  if (readers > 0) {
    const why = `${readers === 1 ? 'Another lesson uses' : `${readers} other lessons use`} ${action.makesFile} from this file, and would lose it.`;
    throw new ResponseError(LSPErrorCodes.RequestFailed, why);
  }
  const name = await freeName(action.makesFile, lesson, desk);
  const { edits, newFile } = carriedOut(lesson.analysis, action, name);
  return editWithFile(
    { lesson, edits },
    { uri: `${folderOf(lesson)}${encodeURIComponent(name)}`, text: newFile ?? '' },
    client,
  );
}

/** How many other lessons use a part of that name from this one. */
async function readersOf(
  name: string,
  { document: { uri }, analysis: { files } }: OpenLesson,
  { workspace }: Desk,
): Promise<number> {
  const others = (await workspace.everyLesson()).filter((one) => one.document.uri !== uri);
  return others.filter(({ analysis: { lesson } }) =>
    lesson.imports.some(({ to, brought }) => to === files.path && brought.some((part) => part.name === name)),
  ).length;
}

/** Names tried for a new file, before the last is taken whatever there is: the client makes none in the place of another. */
const MOST_NAMES = 40;

/** `lamp.lesson`, or `lamp-2.lesson` where there is one. */
async function freeName(wanted: string, lesson: OpenLesson, { files }: Desk): Promise<string> {
  let name = '';
  for (let number = 1; number <= MOST_NAMES; number++) {
    name = `${wanted}${number === 1 ? '' : `-${number}`}.lesson`;
    if (name !== LIBRARY_FILE && (await files.load(`${folderOf(lesson)}${name}`)) === null) break;
  }
  return name;
}

const folderOf = ({ document: { uri } }: OpenLesson): string => uri.slice(0, uri.lastIndexOf('/') + 1);

/** Whether a client that asks `only` for some kinds wants this one; what concerns the whole source it must ask for. */
const isWanted = (kind: string, only: readonly string[] | undefined): boolean =>
  only === undefined
    ? !kind.startsWith(CodeActionKind.Source)
    : only.some((one) => one === '' || one === kind || kind.startsWith(`${one}.`));

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

/** Whether two ranges share a place, be it only an edge. */
const touch = (a: Range, b: Range): boolean => !before(a.end, b.start) && !before(b.end, a.start);
