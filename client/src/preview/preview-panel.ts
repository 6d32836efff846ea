/** One preview: carries what the server draws to the page, and what the page says to the server and the text. */
import { Position, Range, Selection, Uri, window, workspace, type TextEditor, type WebviewPanel } from 'vscode';
import {
  SOUND_OF,
  type ChangeChord,
  type FromPage,
  type LessonSound,
  type PlaceInText,
  type PreviewUpdate,
  type PreviewView,
  type SoundQuestion,
  type ToPage,
} from '../../../server/src/protocol.ts';
import { columnOf, editorOf } from '../lesson-documents.ts';
import type { LessonServer } from '../lesson-server.ts';
import { usualView, type KeptPages } from './kept-pages.ts';
import { completed, type KeptPreview } from './kept-preview.ts';
import { pageOf } from './page.ts';
import { SoundingMarks } from './sounding-marks.ts';

/** From 0, in UTF-16 units. */
export interface TextPlace {
  readonly line: number;
  readonly character: number;
}

export class PreviewPanel {
  private kept: KeptPreview | undefined;
  /** Why the picture is old, as long as it is. */
  private asleep: string | undefined;
  /** Of the page, in CSS pixels; undefined until it has said so. */
  private width: number | undefined;
  private view: PreviewView;
  /** What was asked to be shown before there was anything to show. */
  private sought: TextPlace | undefined;
  /** What is to be played once the page is there: a section, or the whole where it has no name. */
  private toPlay: { readonly section?: string } | undefined;
  private readonly marks: SoundingMarks;
  private isGone = false;
  private isAsking = false;
  private mustAskAgain = false;

  constructor(
    private readonly panel: WebviewPanel,
    private readonly lesson: Uri,
    extension: Uri,
    private readonly server: LessonServer,
    private readonly pages: KeptPages,
    private readonly onPlaying: (isPlaying: boolean) => void,
  ) {
    this.marks = new SoundingMarks(lesson);
    this.view = pages.of(lesson)?.view ?? usualView(lesson);
    panel.title = `Preview ${nameOf(lesson)}`;
    panel.iconPath = { light: iconOf(extension, 'light'), dark: iconOf(extension, 'dark') };
    panel.webview.onDidReceiveMessage((message: FromPage) => this.hear(message));
    panel.onDidChangeViewState(() => {
      // A hidden page is taken down, and asks again once it is back. Until then nobody looks.
      if (panel.visible) return;
      this.silence();
      this.server.unwatch(lesson);
    });
    panel.onDidDispose(() => {
      this.isGone = true;
      this.silence();
      this.marks.dispose();
      this.server.unwatch(lesson);
    });
    panel.webview.html = pageOf(panel.webview, extension, lesson);
  }

  get isActive(): boolean {
    return this.panel.active;
  }

  bringForward(): void {
    this.panel.reveal(undefined, true);
  }

  dispose(): void {
    this.panel.dispose();
  }

  /** The server can draw the lesson now. */
  wake(): void {
    if (this.width !== undefined) void this.watch();
  }

  /** A setting of the preview was changed: what it says holds from here on, whatever was chosen in the page. */
  settle(isChanged: (setting: string) => boolean): void {
    const usual = usualView(this.lesson);
    const { panel } = this.view;
    const view = {
      reading: isChanged('reading') ? usual.reading : this.view.reading,
      leftHanded: isChanged('leftHanded') ? usual.leftHanded : this.view.leftHanded,
      largePrint: isChanged('largePrint') ? usual.largePrint : this.view.largePrint,
      ...(panel && { panel }),
    };
    this.look(view);
  }

  sleep(reason: string): void {
    this.asleep = reason;
    this.say({ kind: 'asleep', reason });
  }

  show(update: PreviewUpdate): void {
    // What was asked for late may be answered by what is newer already. A lesson opened again counts from 1 again.
    if (this.kept && this.asleep === undefined && update.version < this.kept.version) return;
    const kept = completed(update, this.kept);
    if (!kept) {
      this.server.unwatch(this.lesson);
      void this.watch();
      return;
    }
    this.kept = kept;
    this.asleep = undefined;
    this.say({ kind: 'update', update });
  }

  /** Marks the bars at a place of the text and brings them into view, wherever the cursor is. */
  seek({ line, character }: TextPlace): void {
    if (this.kept && this.panel.visible) this.say({ kind: 'cursor', line, character });
    else this.sought = { line, character };
  }

  /** From a section on, or the whole; the page waits for the reader to touch it, if nobody has. */
  play(section: string | undefined): void {
    const what = section === undefined ? {} : { section };
    if (this.kept && this.panel.visible) this.say({ kind: 'play', ...what });
    else this.toPlay = what;
  }

  stop(): void {
    this.toPlay = undefined;
    this.say({ kind: 'stop' });
  }

  /** Tells the page where the cursor is. */
  follow(editor: TextEditor): void {
    const settings = workspace.getConfiguration('stringcourse', this.lesson);
    if (!settings.get<boolean>('preview.followCursor', true)) return;
    const { line, character } = editor.selection.active;
    this.say({ kind: 'cursor', line, character });
  }

  private hear(message: FromPage): void {
    switch (message.kind) {
      case 'ready':
        if (message.view) this.view = message.view;
        this.silence();
        this.fill();
        this.resize(message.width);
        break;
      case 'view':
        this.look(message.view);
        break;
      case 'keep':
        this.pages.keep(this.lesson, message.kept);
        break;
      case 'change': {
        const { version, bar, chord, change } = message;
        void this.change({ uri: `${this.lesson}`, version, bar, chord, change });
        break;
      }
      case 'sound':
        void this.sound(message.variant);
        break;
      case 'untouched':
        // With the focus there the space bar is enough.
        this.panel.reveal(undefined, false);
        break;
      case 'sounding':
        this.marks.show(message);
        this.onPlaying(message.isPlaying);
        break;
      case 'resized':
        this.resize(message.width);
        break;
      case 'reveal':
        void this.reveal(message.place);
        break;
    }
  }

  /** A page that has just been loaded knows nothing: it gets all that is there. */
  private fill(): void {
    const kept = this.pages.of(this.lesson);
    if (kept) this.say({ kind: 'kept', kept });
    if (this.kept) this.say({ kind: 'update', update: this.kept });
    if (this.asleep !== undefined) this.say({ kind: 'asleep', reason: this.asleep });
    if (this.toPlay) this.say({ kind: 'play', ...this.toPlay });
    this.toPlay = undefined;
  }

  private look(view: PreviewView): void {
    this.view = view;
    void this.watch();
  }

  /** Writes what was chosen into the text, as one step that can be undone, and tells the page. */
  private async change(change: ChangeChord): Promise<void> {
    const text = await this.server.change(change);
    this.say({ kind: 'said', text });
  }

  private async sound(variant: string | undefined): Promise<void> {
    const question: SoundQuestion = { uri: `${this.lesson}`, ...(variant !== undefined && { variant }) };
    const sound = await this.server.ask<LessonSound>(SOUND_OF, question);
    this.say({ kind: 'sound', sound: sound ?? null });
  }

  /** A page that is gone, or comes back, plays nothing. */
  private silence(): void {
    this.marks.clear();
    this.onPlaying(false);
  }

  private resize(width: number): void {
    this.width = width;
    void this.watch();
  }

  /** One question at a time: while a panel is being resized only the first and the last width matter. */
  private async watch(): Promise<void> {
    this.mustAskAgain = true;
    if (this.isAsking) return;
    this.isAsking = true;
    while (this.mustAskAgain && this.width !== undefined && !this.isGone) {
      this.mustAskAgain = false;
      const update = await this.server.watch(this.lesson, this.width, this.view);
      if (update) this.show(update);
      else if (!this.server.isRunning) this.sleep('The language server is not running.');
    }
    this.isAsking = false;
    const { sought } = this;
    const editor = editorOf(this.lesson);
    this.sought = undefined;
    if (sought) this.seek(sought);
    else if (editor) this.follow(editor);
  }

  /** The page's place in the text, selected, in the column where the text is. */
  private async reveal(place: PlaceInText): Promise<void> {
    const start = new Position(place.startLine, place.startCharacter);
    const end = new Position(place.endLine, place.endCharacter);
    // The cursor goes to the start, where typing changes the bar that was chosen.
    const editor = await window.showTextDocument(this.lesson, { viewColumn: columnOf(this.lesson) });
    editor.selection = new Selection(end, start);
    editor.revealRange(new Range(start, end));
  }

  private say(message: ToPage): void {
    if (!this.isGone) void this.panel.webview.postMessage(message);
  }
}

const nameOf = (uri: Uri): string => uri.path.slice(uri.path.lastIndexOf('/') + 1);

const iconOf = (extension: Uri, theme: 'light' | 'dark'): Uri =>
  Uri.joinPath(extension, 'client', 'icons', `lesson-${theme}.svg`);
