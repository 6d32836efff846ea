/** The messages of our own between the language server and whoever shows the preview. Plain data; imports nothing. */

/** A place in a text: lines and UTF-16 columns from 0, whatever encoding the editor chose for other messages. */
export interface PlaceInText {
  readonly startLine: number;
  readonly startCharacter: number;
  readonly endLine: number;
  readonly endCharacter: number;
}

/** A part of the preview that is replaced as a whole: a heading, a system of bars, a row of shapes. */
export interface PreviewBlock {
  /** Stable while the part stays what it is: `verse/system/1`. */
  readonly id: string;
  /** Changes exactly when the drawing changes. */
  readonly hash: string;
  /** HTML or SVG, escaped by the server. Absent where the same watcher has been sent this hash under this id before. */
  readonly content?: string;
}

/** A bar that is drawn, as elements with `data-bar="<id>"` in the blocks. */
export interface PreviewBar {
  /** `verse.2`: section and number. */
  readonly id: string;
  /** Where it is written: what a click leads to. */
  readonly place: PlaceInText;
}

export interface PreviewFact {
  /** Which fact it is, for styling alone. */
  readonly kind: 'key' | 'meter' | 'tempo' | 'tuning' | 'capo' | 'level' | 'hand' | 'difficulty' | 'findings';
  readonly text: string;
}

/** The whole preview of one version of a lesson; blocks in the order in which they stand. */
export interface PreviewUpdate {
  readonly uri: string;
  /** The document's version this was computed from. */
  readonly version: number;
  readonly title: string;
  readonly facts: readonly PreviewFact[];
  readonly blocks: readonly PreviewBlock[];
  readonly bars: readonly PreviewBar[];
}

export interface WatchPreview {
  readonly uri: string;
  /** Width in CSS pixels that systems are to fit; drawn in to 280 to 2400. */
  readonly width: number;
}

/**
 * Request: start (or, with another width, go on) watching a lesson; answers with a full update, or null where the lesson
 * is not open. From then on the server sends `previewUpdated` after each change, with the blocks that changed.
 */
export const WATCH_PREVIEW = 'stringcourse/watchPreview';

/** Notification to the server: nobody looks at this lesson's preview any more. Parameter: `{ uri }`. */
export const UNWATCH_PREVIEW = 'stringcourse/unwatchPreview';

/**
 * Request to the client: the text of a file that a lesson speaks of, by its address; null where there is none. Asked only of
 * clients that say `readsFiles` in their initialisation options.
 */
export const READ_FILE = 'stringcourse/readFile';

/** Request to the client, under the same condition: the addresses of all lessons of the workspace. */
export const LIST_LESSONS = 'stringcourse/listLessons';

/** Notification to the client. Parameter: `PreviewUpdate`. */
export const PREVIEW_UPDATED = 'stringcourse/previewUpdated';

/** What the page inside the panel is told. */
export type ToPage =
  | { readonly kind: 'update'; readonly update: PreviewUpdate }
  /** The cursor's line and column; the page marks the bars written there and brings the first into view. */
  | { readonly kind: 'cursor'; readonly line: number; readonly character: number }
  /** The lesson was closed, or the server is gone; what is drawn stays, marked as old. */
  | { readonly kind: 'asleep'; readonly reason: string };

/** What the page inside the panel says. */
export type FromPage =
  | { readonly kind: 'ready'; readonly width: number }
  | { readonly kind: 'resized'; readonly width: number }
  /** A bar was chosen by mouse or keyboard. */
  | { readonly kind: 'reveal'; readonly place: PlaceInText };
