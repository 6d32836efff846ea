/** The findings of lessons that are not open: worked out when nothing else is to do, handed out or sent as the client wants them. */
import type {
  CancellationToken,
  Diagnostic,
  ResultProgressReporter,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
  WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Analysis } from '../../analyze.ts';
import type { Finding } from '../../util/finding.ts';
import type { Answer, Desk } from '../desk.ts';
import { diagnosticsOf } from '../diagnostics.ts';
import { known } from '../library-files.ts';
import type { OpenLesson } from '../lessons.ts';
import type { Weights } from '../settings.ts';

/** What is known already is told of so many lessons at once. */
const MOST_AT_ONCE = 100;

interface Report {
  /** What it was made from: the same lesson is not judged twice. */
  readonly lesson: OpenLesson;
  /** The settings that it was made by, as text. */
  readonly weights: string;
  readonly resultId: string;
  readonly items: readonly Diagnostic[];
  /** The items as text, to tell whether anything changed. */
  readonly written: string;
}

/** A lesson of the workspace that is not open, and its report; without one where it was written in meanwhile. */
interface Judged {
  readonly uri: string;
  readonly report?: Report;
  /** Whether that was known before it was asked for. */
  readonly wasKnown: boolean;
}

export const workspaceDiagnostics: Answer = {
  // Offered together with the findings of the file at hand.
  offers: () => ({}),
  listen(desk) {
    const { connection, across, client, lessons, settings, workspace } = desk;
    const closed = new ClosedLessons(desk);
    const sender = new Sender(desk, closed);
    let waiting: (() => void)[] = [];
    const changed = (): void => {
      // Once a lesson has been open, what the client has of it is not what was told here.
      for (const uri of lessons.uris) closed.forget(uri);
      if (!client().pulls) sender.sendAgain();
      for (const wake of waiting.splice(0)) wake();
    };
    workspace.onChange(changed);
    settings.onChanged(changed);
    connection.languages.diagnostics.onWorkspace((params, token, _, progress) => {
      const untilChanged = (): Promise<void> =>
        new Promise((wake) => {
          const calledBack = token.onCancellationRequested(() => wake());
          waiting.push(() => {
            calledBack.dispose();
            wake();
          });
        });
      return across<WorkspaceDiagnosticParams, WorkspaceDiagnosticReport>(
        'findings of the workspace',
        async ({ previousResultIds }) => {
          for (;;) {
            const report = await reportOn(closed, desk, previousResultIds, token, progress);
            const isNews = report.isNew || previousResultIds.length === 0;
            if (isNews || token.isCancellationRequested) return { items: report.items };
            // A client asks again as soon as it is answered: there is nothing to say before something has changed.
            await untilChanged();
          }
        },
        { items: [] },
      )(params, token);
    });
  },
};

/** `items` are those that were not handed out on the way; `isNew` says whether any tells what the client does not have. */
async function reportOn(
  closed: ClosedLessons,
  { workspace }: Desk,
  previous: WorkspaceDiagnosticParams['previousResultIds'],
  token: CancellationToken,
  progress: ResultProgressReporter<WorkspaceDiagnosticReport> | undefined,
): Promise<{ readonly items: WorkspaceDocumentDiagnosticReport[]; readonly isNew: boolean }> {
  let isNew = false;
  const before = new Map(previous.map(({ uri, value }) => [known(uri), { uri, value }]));
  let items: WorkspaceDocumentDiagnosticReport[] = [];
  const flush = (): void => {
    if (!progress || !isNew || items.length === 0) return;
    progress.report({ items });
    items = [];
  };
  for await (const { uri, report, wasKnown } of closed.each(() => token.isCancellationRequested)) {
    const { value } = before.get(known(uri)) ?? {};
    before.delete(known(uri));
    if (!report) continue;
    const { resultId } = report;
    isNew ||= resultId !== value;
    if (resultId === value) items.push({ kind: 'unchanged', uri, version: null, resultId });
    else items.push({ kind: 'full', uri, version: null, resultId, items: [...report.items] });
    if (!wasKnown || items.length >= MOST_AT_ONCE) flush();
  }
  // Of what is gone, or not told of any more, nothing is to stay.
  if (!token.isCancellationRequested) {
    const gone = [...before.values()].filter(({ uri }) => !workspace.isOpen(uri));
    isNew ||= gone.length > 0;
    for (const { uri } of gone) items.push({ kind: 'full', uri, version: null, items: [] });
  }
  flush();
  return { items, isNew };
}

/** For clients that do not ask. */
class Sender {
  /** What the client was sent last that was not empty, by address. */
  private readonly sent = new Map<string, { readonly uri: string; readonly resultId: string }>();
  private isWanted = false;
  private isSending = false;

  constructor(
    private readonly desk: Desk,
    private readonly closed: ClosedLessons,
  ) {}

  sendAgain(): void {
    this.isWanted = true;
    if (this.isSending) return;
    this.isSending = true;
    void this.send()
      .catch((failure: unknown) => this.desk.connection.console.error(`findings of the workspace: ${String(failure)}`))
      .finally(() => (this.isSending = false));
  }

  private async send(): Promise<void> {
    const { connection, workspace } = this.desk;
    while (this.isWanted) {
      this.isWanted = false;
      await this.desk.idle();
      const stay = new Set<string>();
      for await (const { uri, report } of this.closed.each(() => false)) {
        const key = known(uri);
        stay.add(key);
        if (!report || report.resultId === this.sent.get(key)?.resultId) continue;
        if (report.items.length > 0) this.sent.set(key, { uri, resultId: report.resultId });
        else if (!this.sent.delete(key)) continue;
        void connection.sendDiagnostics({ uri, diagnostics: [...report.items] });
      }
      for (const [key, { uri }] of this.sent) {
        if (stay.has(key)) continue;
        this.sent.delete(key);
        // What is open is sent by itself.
        if (!workspace.isOpen(uri)) void connection.sendDiagnostics({ uri, diagnostics: [] });
      }
    }
  }
}

/** Judges each lesson once, and again only when it, or a file that it speaks of, is another. */
class ClosedLessons {
  private readonly reports = new Map<string, Report>();
  private count = 0;

  constructor(private readonly desk: Desk) {}

  forget(uri: string): void {
    this.reports.delete(known(uri));
  }

  /** All lessons that are not open and are to be judged, one after the other as they are. */
  async *each(isCancelled: () => boolean): AsyncGenerator<Judged> {
    const { workspace, settings } = this.desk;
    const uris = (await workspace.uris()).filter((uri) => !workspace.isOpen(uri));
    // One question to the client for all of them.
    const wanted = await Promise.all(uris.map((uri) => settings.whenKnown(uri)));
    for (const [i, uri] of uris.entries()) {
      if (isCancelled()) return;
      // What is known already is told without a rest, but not for longer than anybody notices.
      if (i % MOST_AT_ONCE === MOST_AT_ONCE - 1) await this.desk.idle();
      const { workspaceDiagnostics: isWanted, severity } = wanted[i];
      if (isWanted) yield* this.judged(uri, severity, isCancelled);
    }
  }

  private async *judged(uri: string, weights: Weights, isCancelled: () => boolean): AsyncGenerator<Judged> {
    const { workspace, connection, client } = this.desk;
    const key = known(uri);
    const before = this.reports.get(key);
    const asked = JSON.stringify(weights);
    if (before?.weights === asked && (await workspace.textAt(uri)) === before.lesson) {
      yield { uri, report: before, wasKnown: true };
      return;
    }
    try {
      await this.desk.idle();
      const lesson = workspace.isOpen(uri) ? undefined : await workspace.lessonAt(uri);
      if (!lesson || workspace.isOpen(uri)) {
        this.reports.delete(key);
        return;
      }
      const findings = await this.findingsOf(lesson, () => isCancelled() || !workspace.isAsItWas(lesson));
      if (!findings) {
        yield { uri, wasKnown: false };
        return;
      }
      const items = diagnosticsOf(findings, lesson, client(), weights);
      const written = JSON.stringify(items);
      const resultId = before?.written === written ? before.resultId : `${++this.count}`;
      const report = { lesson, weights: asked, resultId, items, written };
      this.reports.set(key, report);
      yield { uri, report, wasKnown: false };
    } catch (failure) {
      connection.console.error(`findings of ${uri}: ${failure instanceof Error ? failure.stack : String(failure)}`);
      yield { uri, wasKnown: false };
    }
  }

  /** Undefined where it is dropped; what is typed meanwhile is read between one step and the next. */
  private async findingsOf(lesson: OpenLesson, isDropped: () => boolean): Promise<readonly Finding[] | undefined> {
    // Of a library all music at once would be too much: this analysis is let go when it is told.
    const once = lesson.next(lesson.document);
    const stepsOf = (one: Analysis): readonly (() => unknown)[] => [
      () => one.lesson,
      () => one.score,
      () => one.ownFindings,
    ];
    const { analysis } = once;
    for (const step of [...stepsOf(analysis), ...analysis.variants.flatMap(stepsOf)]) {
      await this.desk.idle();
      if (isDropped()) return undefined;
      step();
    }
    return once.findings;
  }
}
