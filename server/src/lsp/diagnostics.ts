/** The findings of open lessons as the client wants them: sent after each change, or handed out when it asks; never both. */
import type { Diagnostic, DocumentDiagnosticReport, PublishDiagnosticsParams } from 'vscode-languageserver';
import type { Finding } from '../util/finding.ts';
import type { Client } from './client.ts';
import { diagnosticOf } from './convert.ts';
import type { OpenLesson } from './lessons.ts';
import type { Weights } from './settings.ts';

interface Report {
  readonly lesson: OpenLesson;
  readonly weights: Weights;
  readonly resultId: string;
  readonly items: readonly Diagnostic[];
  /** The items as text, to tell whether anything changed. */
  readonly written: string;
}

/** For clients that ask. What was handed out last is kept by address, so that the same again is one word. */
export class DiagnosticReports {
  private readonly last = new Map<string, Report>();
  private count = 0;

  answer(lesson: OpenLesson, client: Client, weights: Weights, previous: string | undefined): DocumentDiagnosticReport {
    const { resultId, items } = this.reportOf(lesson, client, weights);
    return resultId === previous ? { kind: 'unchanged', resultId } : { kind: 'full', resultId, items: [...items] };
  }

  forget(uri: string): void {
    this.last.delete(uri);
  }

  private reportOf(lesson: OpenLesson, client: Client, weights: Weights): Report {
    const { uri } = lesson.document;
    const before = this.last.get(uri);
    if (before?.lesson === lesson && before.weights === weights) return before;
    const items = diagnosticsOf(lesson.findings, lesson, client, weights);
    const written = JSON.stringify(items);
    const resultId = before?.written === written ? before.resultId : `${++this.count}`;
    const report = { lesson, weights, resultId, items, written };
    this.last.set(uri, report);
    return report;
  }
}

/** For clients that are sent them: `findings` are the lesson’s, or what can be said of it at once. */
export const publication = (
  findings: readonly Finding[],
  lesson: OpenLesson,
  client: Client,
  weights: Weights,
): PublishDiagnosticsParams => ({
  uri: lesson.document.uri,
  version: lesson.document.version,
  diagnostics: diagnosticsOf(findings, lesson, client, weights),
});

/** Each as heavy as the settings want it; those that are off are left out. */
export function weighed(findings: readonly Finding[], weights: Weights): readonly Finding[] {
  return findings.flatMap((finding) => {
    // A code may have the name of what every object inherits.
    const weight = Object.hasOwn(weights, finding.code) ? weights[finding.code] : finding.severity;
    if (weight === 'off') return [];
    return weight === finding.severity ? [finding] : [{ ...finding, severity: weight }];
  });
}

export const diagnosticsOf = (
  findings: readonly Finding[],
  lesson: OpenLesson,
  client: Client,
  weights: Weights,
): Diagnostic[] => weighed(findings, weights).map((finding) => diagnosticOf(finding, lesson, client));
