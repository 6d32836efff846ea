/** Answers with what can be done at a place: fixes of findings, and rewritings of the lesson. */
import {
  CodeActionKind,
  type CodeAction,
  type CodeActionParams,
  type Position,
  type Range,
} from 'vscode-languageserver';
import { transposeActions } from '../../features/transpose.ts';
import { actionsOf, rewriteOf } from '../convert.ts';
import type { Answer } from '../desk.ts';

export const codeActions: Answer = {
  offers: ({ codeActions: takes }) =>
    takes ? { codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] } } : {},
  listen({ connection, about, client }) {
    connection.onCodeAction(
      about<CodeActionParams, CodeAction[] | null>(
        'code actions',
        (lesson, { range, context: { only, diagnostics } }) => {
          if (!client().codeActions) return null;
          const fixes = (): readonly CodeAction[] =>
            lesson.analysis.findings
              .filter(({ span }) => touch(lesson.rangeOf(span), range))
              .flatMap((finding) => actionsOf(finding, diagnostics, lesson, client()));
          const rewrites = (): readonly CodeAction[] => {
            const chosen = { start: lesson.offsetOf(range.start), end: lesson.offsetOf(range.end) };
            return transposeActions(lesson.analysis, chosen).map((action) => rewriteOf(action, lesson, client()));
          };
          return [
            ...(wanted(CodeActionKind.QuickFix, only) ? fixes() : []),
            ...(wanted(CodeActionKind.RefactorRewrite, only) ? rewrites() : []),
          ];
        },
        null,
      ),
    );
  },
};

/** Whether a client that asks `only` for some kinds wants this one: `refactor` stands for all that begin so. */
const wanted = (kind: string, only: readonly string[] | undefined): boolean =>
  only === undefined || only.some((one) => one === '' || one === kind || kind.startsWith(`${one}.`));

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

/** Whether two ranges share a place, be it only an edge. */
const touch = (a: Range, b: Range): boolean => !before(a.end, b.start) && !before(b.end, a.start);
