/** Marks in the text of a lesson what its preview plays, as long as the text is the one that is played. */
import { Range, ThemeColor, window, workspace, type TextEditor, type Uri } from 'vscode';
import type { FromPage } from '../../../server/src/protocol.ts';

type Sounding = Extract<FromPage, { kind: 'sounding' }>;

export class SoundingMarks {
  // The colours of a word that is looked at: in themes of high contrast they are a frame.
  private readonly style = window.createTextEditorDecorationType({
    backgroundColor: new ThemeColor('editor.wordHighlightStrongBackground'),
    borderColor: new ThemeColor('editor.wordHighlightStrongBorder'),
    borderStyle: 'solid',
    borderWidth: '1px',
    borderRadius: '2px',
  });

  constructor(private readonly lesson: Uri) {}

  show({ version, spans }: Sounding): void {
    const settings = workspace.getConfiguration('stringcourse', this.lesson);
    const isWanted = settings.get<boolean>('preview.markSounding', true);
    for (const editor of this.editors) {
      const { document } = editor;
      // In a text that has changed since, the places are others. The page soon plays the new one.
      const isSame = isWanted && document.version === version;
      const ranges = (isSame ? spans : []).map(
        ({ start, end }) => new Range(document.positionAt(start), document.positionAt(end)),
      );
      editor.setDecorations(this.style, ranges);
    }
  }

  clear(): void {
    for (const editor of this.editors) editor.setDecorations(this.style, []);
  }

  dispose(): void {
    this.style.dispose();
  }

  private get editors(): readonly TextEditor[] {
    return window.visibleTextEditors.filter(({ document }) => `${document.uri}` === `${this.lesson}`);
  }
}
