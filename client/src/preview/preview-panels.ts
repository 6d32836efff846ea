/** All open previews: one panel a lesson, opened by command or restored when the editor comes back. */
import { commands, Uri, ViewColumn, window, workspace, type Disposable, type Memento, type WebviewPanel } from 'vscode';
import type { LessonServer } from '../lesson-server.ts';
import { KeptPages } from './kept-pages.ts';
import { pageOptions } from './page.ts';
import { PreviewPanel, type TextPlace } from './preview-panel.ts';

/** The kind of panel, as package.json names it among what wakes the extension. */
const PANEL = 'stringcourse.preview';
/** True while one of them plays, for the conditions in package.json. */
const IS_PLAYING = 'stringcourse.isPlaying';

export class PreviewPanels {
  private readonly panels = new Map<string, PreviewPanel>();
  private readonly listeners: readonly Disposable[];
  private readonly pages: KeptPages;
  /** The addresses of the lessons that are heard. */
  private readonly playing = new Set<string>();

  constructor(
    private readonly extension: Uri,
    private readonly server: LessonServer,
    memory: Memento,
  ) {
    this.pages = new KeptPages(memory);
    this.listeners = [
      window.registerWebviewPanelSerializer(PANEL, {
        deserializeWebviewPanel: (panel, state) => this.restore(panel, state),
      }),
      server.onUpdated((update) => this.panels.get(update.uri)?.show(update)),
      server.onOpened((uri) => this.panels.get(`${uri}`)?.wake()),
      server.onStopped(() => {
        for (const panel of this.panels.values()) panel.sleep('The language server has stopped: what you see is old.');
      }),
      workspace.onDidCloseTextDocument(({ uri }) =>
        this.panels.get(`${uri}`)?.sleep('The lesson was closed: what you see is old.'),
      ),
      workspace.onDidChangeConfiguration((event) => {
        for (const [uri, panel] of this.panels) {
          const isChanged = (name: string): boolean =>
            event.affectsConfiguration(`stringcourse.preview.${name}`, Uri.parse(uri));
          if (['reading', 'leftHanded', 'largePrint'].some(isChanged)) panel.settle(isChanged);
        }
      }),
      window.onDidChangeTextEditorSelection(({ textEditor }) =>
        this.panels.get(`${textEditor.document.uri}`)?.follow(textEditor),
      ),
    ];
  }

  /**
   * Beside the text and without taking the focus from it; where the lesson has a panel already, that one. `place`, where one is
   * given, is brought into view there.
   */
  open(lesson: Uri, place?: TextPlace): void {
    const open = this.panels.get(`${lesson}`);
    const column = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    if (open) open.bringForward();
    else this.add(window.createWebviewPanel(PANEL, 'Preview', column, pageOptions(this.extension)), lesson);
    if (place) this.panels.get(`${lesson}`)?.seek(place);
  }

  /** Opens the preview where it is not open, and plays in it: from a section on, or all of it. */
  play(lesson: Uri, section?: string): void {
    this.open(lesson);
    this.panels.get(`${lesson}`)?.play(section);
  }

  stop(): void {
    for (const panel of this.panels.values()) panel.stop();
  }

  /** The lesson whose preview has the focus. */
  get active(): Uri | undefined {
    for (const [uri, panel] of this.panels) if (panel.isActive) return Uri.parse(uri);
    return undefined;
  }

  dispose(): void {
    for (const listener of this.listeners) listener.dispose();
    for (const panel of this.panels.values()) panel.dispose();
  }

  private async restore(panel: WebviewPanel, state: unknown): Promise<void> {
    const uri = (state as { readonly uri?: unknown } | undefined)?.uri;
    if (typeof uri !== 'string' || this.panels.has(uri)) {
      panel.dispose();
      return;
    }
    const lesson = Uri.parse(uri, true);
    panel.webview.options = pageOptions(this.extension);
    this.add(panel, lesson);
    try {
      // The server draws open lessons only, and after a reload this one may lie in no tab that is shown.
      await workspace.openTextDocument(lesson);
    } catch {
      this.panels.get(uri)?.sleep('The lesson is not there any more.');
    }
  }

  private tell(key: string, isPlaying: boolean): void {
    const before = this.playing.size > 0;
    if (isPlaying) this.playing.add(key);
    else this.playing.delete(key);
    const now = this.playing.size > 0;
    if (now !== before) void commands.executeCommand('setContext', IS_PLAYING, now);
  }

  private add(panel: WebviewPanel, lesson: Uri): void {
    const key = `${lesson}`;
    this.panels.set(
      key,
      new PreviewPanel(panel, lesson, this.extension, this.server, this.pages, (isPlaying) =>
        this.tell(key, isPlaying),
      ),
    );
    panel.onDidDispose(() => this.panels.delete(key));
  }
}
