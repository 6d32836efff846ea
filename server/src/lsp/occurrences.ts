/** Every place of a name over the workspace, for whichever answer asks. */
import type { Location } from 'vscode-languageserver';
import { occurrencesIn, type Named, type Occurrence } from '../features/occurrences.ts';
import type { OpenLesson } from './lessons.ts';
import type { Workspace } from './workspace.ts';

export interface Found {
  readonly lesson: OpenLesson;
  /** At least one, in the order of the text. */
  readonly occurrences: readonly Occurrence[];
}

/** In the lesson itself and in every other that speaks of the same; a name of a text that stands alone is nowhere else. */
export async function occurrencesEverywhere(
  named: Named,
  lesson: OpenLesson,
  workspace: Workspace,
  isCancelled: () => boolean = () => false,
): Promise<readonly Found[]> {
  const others =
    named.path === undefined
      ? []
      : (await workspace.everyLesson(isCancelled)).filter(
          (one) => one.document.uri !== lesson.document.uri && one.root === lesson.root,
        );
  return [lesson, ...others].flatMap((one) => {
    const occurrences = occurrencesIn(one.analysis, named);
    return occurrences.length > 0 ? { lesson: one, occurrences } : [];
  });
}

/** The places where a name is used, and not given. */
export const usesOf = (found: readonly Found[]): readonly Location[] =>
  found.flatMap(({ lesson, occurrences }) =>
    occurrences
      .filter(({ gives }) => !gives)
      .map(({ span }) => ({ uri: lesson.document.uri, range: lesson.rangeOf(span) })),
  );
