/** From what the features say to what the protocol says. */
import {
  CodeActionKind,
  CompletionItemKind,
  DiagnosticSeverity,
  DiagnosticTag,
  FoldingRangeKind,
  InsertTextFormat,
  MarkupKind,
  SymbolKind,
  type CodeAction,
  type CompletionItem,
  type CompletionList,
  type Definition,
  type DefinitionLink,
  type Diagnostic,
  type DocumentSymbol,
  type FoldingRange,
  type Hover,
  type Range,
  type SymbolInformation,
} from 'vscode-languageserver';
import { allowing } from '../features/allow.ts';
import type { Completion, Completions } from '../features/completion.ts';
import { shapePage, type OfferedShape } from '../features/completion-voicings.ts';
import type { DefinitionLink as Link } from '../features/definition.ts';
import type { Fold } from '../features/folding.ts';
import type { Hover as HoverPage } from '../features/hover.ts';
import { figure, markdownOf, plainOf, type Block } from '../features/page.ts';
import type { LessonSymbol, SymbolKind as Kind } from '../features/symbols.ts';
import { ruleNamed } from '../rules/findings.ts';
import type { Finding, Fix, Severity } from '../util/finding.ts';
import type { Client } from './client.ts';
import { workspaceEdit } from './edits.ts';
import type { OpenLesson } from './lessons.ts';

/** Stands beside each finding in the editor's list. */
export const SOURCE = 'stringcourse';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

export function diagnosticOf(finding: Finding, lesson: OpenLesson, client: Client): Diagnostic {
  const { uri } = lesson.document;
  const fades = client.tags && ruleNamed(finding.code)?.fades;
  return {
    range: lesson.rangeOf(finding.span),
    severity: SEVERITIES[finding.severity],
    code: finding.code,
    source: SOURCE,
    // A client that pulls drops a whole report over an empty message.
    message: finding.message === '' ? finding.code : finding.message,
    ...(fades && { tags: [DiagnosticTag.Unnecessary] }),
    ...(client.related &&
      finding.related.length > 0 && {
        relatedInformation: finding.related.map(({ span, message }) => ({
          location: { uri, range: lesson.rangeOf(span) },
          message,
        })),
      }),
  };
}

/** One action a fix; what was surely meant is the one to take without asking. Behind them, that it is to be let be. */
export function actionsOf(
  finding: Finding,
  among: readonly Diagnostic[],
  lesson: OpenLesson,
  client: Client,
): readonly CodeAction[] {
  const { start } = lesson.rangeOf(finding.span);
  const diagnostics = among.filter(
    ({ code, range }) =>
      code === finding.code && range.start.line === start.line && range.start.character === start.character,
  );
  const action = (fix: Fix, isPreferred: boolean): CodeAction => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics,
    ...(isPreferred && { isPreferred }),
    edit: workspaceEdit([{ lesson, edits: fix.edits }], client),
  });
  const allow = allowing(lesson.analysis, finding);
  const sure = finding.fixes.length === 1 && (ruleNamed(finding.code)?.sure ?? false);
  return [...finding.fixes.map((fix) => action(fix, sure)), ...(allow ? [action(allow, false)] : [])];
}

export function hoverFrom({ span, page }: HoverPage, lesson: OpenLesson, { markdownHover }: Client): Hover {
  return { range: lesson.rangeOf(span), contents: markup(page, markdownHover) };
}

export const markup = (page: readonly Block[], markdown: boolean): { kind: MarkupKind; value: string } =>
  markdown
    ? { kind: MarkupKind.Markdown, value: markdownOf(page) }
    : { kind: MarkupKind.PlainText, value: plainOf(page) };

export function definitionFrom(
  { from, name, whole, elsewhere }: Link,
  lesson: OpenLesson,
  { definitionLinks }: Client,
): Definition | DefinitionLink[] {
  const other = elsewhere && lesson.placeIn(elsewhere.path, elsewhere.span);
  const { uri, range } = other ?? { uri: lesson.document.uri, range: lesson.rangeOf(name) };
  if (!definitionLinks) return { uri, range };
  return [
    {
      originSelectionRange: lesson.rangeOf(from),
      targetUri: uri,
      targetRange: other ? range : lesson.rangeOf(whole),
      targetSelectionRange: range,
    },
  ];
}

export const foldFrom = ({ startLine, endLine, kind }: Fold): FoldingRange => ({
  startLine,
  endLine,
  ...(kind === 'comment' && { kind: FoldingRangeKind.Comment }),
});

const SYMBOLS: Readonly<Record<Kind, SymbolKind>> = {
  lesson: SymbolKind.File,
  settings: SymbolKind.Namespace,
  setting: SymbolKind.Property,
  part: SymbolKind.Class,
  section: SymbolKind.Module,
  bar: SymbolKind.Field,
  line: SymbolKind.Property,
  claims: SymbolKind.Namespace,
  claim: SymbolKind.Boolean,
  prose: SymbolKind.String,
  plan: SymbolKind.Array,
};

export function symbolFrom(symbol: LessonSymbol, lesson: OpenLesson): DocumentSymbol {
  const { name, detail, kind, whole, named, children } = symbol;
  return {
    name,
    detail,
    kind: SYMBOLS[kind],
    range: lesson.rangeOf(whole),
    selectionRange: lesson.rangeOf(named),
    children: children.map((child) => symbolFrom(child, lesson)),
  };
}

/** For clients that know no trees: each symbol with the name of the one that holds it. */
export function flatSymbols(
  symbols: readonly LessonSymbol[],
  lesson: OpenLesson,
  containerName?: string,
): SymbolInformation[] {
  const { uri } = lesson.document;
  return symbols.flatMap(({ name, kind, whole, children }) => [
    {
      name,
      kind: SYMBOLS[kind],
      location: { uri, range: lesson.rangeOf(whole) },
      ...(containerName !== undefined && { containerName }),
    },
    ...flatSymbols(children, lesson, name),
  ]);
}

const ITEMS: Readonly<Record<Completion['kind'], CompletionItemKind>> = {
  keyword: CompletionItemKind.Keyword,
  name: CompletionItemKind.Reference,
  chord: CompletionItemKind.Constant,
  value: CompletionItemKind.Value,
};

export function completionsFrom({ span, items }: Completions, lesson: OpenLesson, client: Client): CompletionList {
  const range = lesson.rangeOf(span);
  // Our order holds: the likeliest first, and not the alphabet.
  const digits = `${items.length}`.length;
  return {
    isIncomplete: false,
    items: items.map((item, i) => itemFrom(item, range, `${i}`.padStart(digits, '0'), lesson, client)),
  };
}

/** What finds the voicing of an item again when somebody looks at it. */
export interface OfferedItem {
  readonly textDocument: { readonly uri: string };
  readonly shape: OfferedShape;
}

function itemFrom(
  item: Completion,
  range: Range,
  sortText: string,
  lesson: OpenLesson,
  client: Client,
): CompletionItem {
  const { shape } = item;
  const later = shape !== undefined && client.resolvesCompletions;
  const data: OfferedItem | undefined = later ? { textDocument: { uri: lesson.document.uri }, shape } : undefined;
  const snippet = item.snippet && client.snippets;
  const newText = item.snippet && !snippet ? item.label : item.insert;
  const shown = shape && !later ? shapePage(lesson.analysis, shape) : [];
  const page = item.example === undefined ? shown : [figure(item.example)];
  return {
    label: item.label,
    ...(shape && client.labelDetails && { labelDetails: { description: item.detail } }),
    ...(data && { data }),
    kind: ITEMS[item.kind],
    ...(item.detail !== '' && { detail: item.detail }),
    ...(page.length > 0 && { documentation: markup(page, client.markdownCompletion) }),
    sortText,
    insertTextFormat: snippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range, newText },
  };
}
