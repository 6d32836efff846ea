/** How each lesson was looked at last, kept by the editor from one opening to the next; and how one is looked at first. */
import { workspace, type Memento, type Uri } from 'vscode';
import { PLAIN_VIEW, type KeptPage, type PreviewView, type Reading } from '../../../server/src/protocol.ts';

/** By the address of the lesson. */
type Kept = Readonly<Record<string, KeptPage>>;

const KEY = 'stringcourse.previews';
/** Lessons beyond these, the ones not looked at for longest, are shown from their beginning again. */
const MOST_KEPT = 100;

export class KeptPages {
  constructor(private readonly memory: Memento) {}

  of(lesson: Uri): KeptPage | undefined {
    return this.memory.get<Kept>(KEY)?.[`${lesson}`];
  }

  keep(lesson: Uri, page: KeptPage): void {
    const { [`${lesson}`]: _, ...others } = this.memory.get<Kept>(KEY) ?? {};
    const newest = [...Object.entries(others).slice(1 - MOST_KEPT), [`${lesson}`, page] as const];
    void this.memory.update(KEY, Object.fromEntries(newest));
  }
}

/** As the settings say. */
export function usualView(lesson: Uri): PreviewView {
  const settings = workspace.getConfiguration('stringcourse', lesson);
  return {
    reading: settings.get<Reading>('preview.reading', PLAIN_VIEW.reading),
    leftHanded: settings.get<boolean>('preview.leftHanded', PLAIN_VIEW.leftHanded),
    largePrint: settings.get<boolean>('preview.largePrint', PLAIN_VIEW.largePrint),
  };
}
