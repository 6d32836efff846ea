/** How hard and how long the lesson at hand is, in the status bar; what else there is to say of it when it is pointed at. */
import { MarkdownString, StatusBarAlignment, window, workspace, type Disposable, type TextDocument } from 'vscode';
import { SUMMARISE, type LessonSummary } from '../../server/src/protocol.ts';
import { isLesson } from './lesson-documents.ts';
import type { LessonServer } from './lesson-server.ts';
import { shortWords, spokenWords, tooltipLines } from './summary-words.ts';

/** Left of the line, the column and the language, which the editor puts at 100 and below. */
const PRIORITY = 101;

/** In Markdown, within a paragraph. */
const LINE_END = '  \n';

export class LessonStatus implements Disposable {
  private readonly item = window.createStatusBarItem('stringcourse.lesson', StatusBarAlignment.Right, PRIORITY);
  private readonly listeners: readonly Disposable[];
  private lesson: TextDocument | undefined;
  private isAsking = false;
  private mustAskAgain = false;

  constructor(private readonly server: LessonServer) {
    this.item.name = 'Lesson: Difficulty and Length';
    this.listeners = [
      this.item,
      window.onDidChangeActiveTextEditor(() => this.turn()),
      window.onDidChangeVisibleTextEditors(() => this.turn()),
      workspace.onDidChangeTextDocument(({ document }) => {
        if (document === this.lesson) void this.ask();
      }),
      server.onOpened((uri) => {
        if (`${uri}` === `${this.lesson?.uri}`) void this.ask();
      }),
      server.onStopped(() => this.item.hide()),
    ];
    this.turn();
  }

  dispose(): void {
    for (const listener of this.listeners) listener.dispose();
  }

  /** To the lesson in the editor with the focus; while a preview has it, the lesson stays that is still seen. */
  private turn(): void {
    const active = window.activeTextEditor?.document;
    const isSeen = window.visibleTextEditors.some(({ document }) => document === this.lesson);
    if (!active && isSeen) return;
    const lesson = active && isLesson(active) ? active : undefined;
    if (lesson === this.lesson) return;
    this.lesson = lesson;
    if (lesson) void this.ask();
    else this.item.hide();
  }

  /** One question at a time: while somebody writes, only the last version matters. The server waits for a pause by itself. */
  private async ask(): Promise<void> {
    this.mustAskAgain = true;
    if (this.isAsking) return;
    this.isAsking = true;
    while (this.mustAskAgain) {
      this.mustAskAgain = false;
      const { lesson } = this;
      if (!lesson) break;
      const summary = await this.server.ask<LessonSummary>(SUMMARISE, { textDocument: { uri: `${lesson.uri}` } });
      if (summary && lesson === this.lesson) this.show(summary, lesson);
    }
    this.isAsking = false;
  }

  private show(summary: LessonSummary, { uri }: TextDocument): void {
    const short = shortWords(summary);
    this.item.text = short;
    this.item.accessibilityInformation = { label: spokenWords(summary) };
    // Text, so that nothing that a lesson says becomes a link or a picture.
    const tooltip = new MarkdownString();
    for (const line of tooltipLines(summary)) tooltip.appendText(line).appendMarkdown(LINE_END);
    this.item.tooltip = tooltip;
    this.item.command = { command: 'stringcourse.openPreview', title: 'Open Preview Beside', arguments: [uri] };
    if (short === '') this.item.hide();
    else this.item.show();
  }
}
