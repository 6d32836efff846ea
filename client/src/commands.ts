/** The commands that the extension adds to the editor. */
import { commands, Location, Position, Range, Uri, type Disposable } from 'vscode';
import type { Location as LspLocation, Position as LspPosition } from 'vscode-languageclient';
import type { SectionPlace } from '../../server/src/protocol.ts';
import { lessonAtHand } from './at-hand.ts';
import { exportLesson } from './export-lesson.ts';
import type { LessonServer } from './lesson-server.ts';
import { newLesson, newLessonFromSample, openSample } from './open-samples.ts';
import type { PreviewPanels } from './preview/preview-panels.ts';
import { transposeLesson } from './transpose-lesson.ts';

export function registerCommands(extension: Uri, server: LessonServer, previews: PreviewPanels): Disposable[] {
  /** `does` something with the lesson at hand, where there is one. */
  const about = (does: (lesson: Uri) => unknown) => (chosen?: unknown) => {
    const lesson = lessonAtHand(previews, chosen);
    return lesson && does(lesson);
  };
  return [
    // From above a section the command is told which section.
    commands.registerCommand('stringcourse.openPreview', (chosen?: unknown) =>
      isSection(chosen)
        ? previews.open(Uri.parse(chosen.uri), chosen)
        : about((lesson) => previews.open(lesson))(chosen),
    ),
    commands.registerCommand('stringcourse.play', (chosen?: unknown) =>
      isSection(chosen)
        ? previews.play(Uri.parse(chosen.uri), chosen.section)
        : about((lesson) => previews.play(lesson))(chosen),
    ),
    commands.registerCommand('stringcourse.stop', () => previews.stop()),
    commands.registerCommand(
      'stringcourse.exportLesson',
      about((lesson) => exportLesson(server, lesson)),
    ),
    commands.registerCommand(
      'stringcourse.transposeLesson',
      about((lesson) => transposeLesson(server, lesson)),
    ),
    commands.registerCommand('stringcourse.newLesson', newLesson),
    commands.registerCommand('stringcourse.newLessonFromSample', () => newLessonFromSample(extension)),
    commands.registerCommand('stringcourse.openSample', (chosen?: unknown) => openSample(extension, previews, chosen)),
    commands.registerCommand('stringcourse.showReferences', showReferences),
    commands.registerCommand('stringcourse.restartServer', () => server.restart()),
    commands.registerCommand('stringcourse.showOutput', () => server.showOutput()),
  ];
}

const isSection = (chosen: unknown): chosen is SectionPlace =>
  typeof (chosen as SectionPlace | undefined)?.uri === 'string' && !(chosen instanceof Uri);

/** The places of a name, in the editor's own view of references. */
async function showReferences(uri: string, position: LspPosition, places: readonly LspLocation[]): Promise<void> {
  const at = ({ line, character }: LspPosition): Position => new Position(line, character);
  const locations = places.map(
    ({ uri: file, range: { start, end } }) => new Location(Uri.parse(file), new Range(at(start), at(end))),
  );
  await commands.executeCommand('editor.action.showReferences', Uri.parse(uri), at(position), locations);
}
