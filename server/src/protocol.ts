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
  /** Where each of its chords is written. */
  readonly chords: readonly PlaceInText[];
  /** Where prose speaks of it: `{verse.2.chord}`. */
  readonly told: readonly PlaceInText[];
}

/** A prose or a step of the practice that is shown, and where it is written. */
export interface PreviewText {
  /** The block that it is, or that it stands in. */
  readonly block: string;
  /** The element with `data-step` in the block; absent for the whole of it. */
  readonly step?: number;
  readonly place: PlaceInText;
}

export interface PreviewFact {
  /** Which fact it is, for styling alone. */
  readonly kind: 'key' | 'meter' | 'tempo' | 'tuning' | 'capo' | 'level' | 'hand' | 'difficulty' | 'findings';
  readonly text: string;
}

/** What stands in the place of each note: its fret, its interval over the chord, its name, or the finger that presses it. */
export type Reading = 'frets' | 'intervals' | 'notes' | 'fingers';

export const READINGS: readonly Reading[] = ['frets', 'intervals', 'notes', 'fingers'];

/** What can be opened below the music: at most one at a time, worked out only while it is open. */
export type PanelKind = 'neck' | 'voicings' | 'open-strings' | 'variants';

export const PANELS: readonly PanelKind[] = ['neck', 'voicings', 'open-strings', 'variants'];

/** A panel that somebody has open, and the chord that it is about. */
export interface PanelAsked {
  readonly kind: PanelKind;
  /** The id of the bar; absent where no chord was pointed at. */
  readonly bar?: string;
  /** Index of the chord in its bar, from 0. */
  readonly chord?: number;
  /** How many voicings are wanted at the most; the server has limits of its own. */
  readonly most?: number;
}

/** How a lesson is looked at. */
export interface PreviewView {
  readonly reading: Reading;
  /** Diagrams and necks for a player whose right hand presses the strings. */
  readonly leftHanded: boolean;
  readonly largePrint: boolean;
  readonly panel?: PanelAsked;
}

export const PLAIN_VIEW: PreviewView = { reading: 'frets', leftHanded: false, largePrint: false };

/** What an open panel shows. */
export interface PreviewPanel {
  readonly kind: PanelKind;
  /** `D in bar 2 of verse`. */
  readonly title: string;
  /** Keyed like the others, under ids of their own. */
  readonly blocks: readonly PreviewBlock[];
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
  readonly texts: readonly PreviewText[];
  /** As it was drawn. */
  readonly view: PreviewView;
  readonly panel?: PreviewPanel;
}

export interface WatchPreview {
  readonly uri: string;
  /** Width in CSS pixels that systems are to fit; drawn in to 280 to 2400. */
  readonly width: number;
  /** {@link PLAIN_VIEW} where nothing is said. */
  readonly view?: PreviewView;
}

/**
 * Request: start watching a lesson, or go on in another width or view; answers with an update, or null where the lesson is not
 * open. It is a full one at first and in another width, reading, hand or print; another panel leaves what was sent. From then on the server sends `previewUpdated` after each change, with the blocks that changed.
 */
export const WATCH_PREVIEW = 'stringcourse/watchPreview';

/** Notification to the server: nobody looks at this lesson's preview any more. Parameter: `{ uri }`. */
export const UNWATCH_PREVIEW = 'stringcourse/unwatchPreview';

/** What is to be written for one chord of the preview. */
export type PreviewChange =
  /** These frets, `x-x-4-0-3-5`, behind the chord: as a position where that says it, else in full. */
  | { readonly kind: 'pin'; readonly frets: string }
  /** No pin: the choice is the engine's again. */
  | { readonly kind: 'unpin' }
  /** A string, in the player's numbers, that rings open beside the chord's shape from here on, or no longer. */
  | { readonly kind: 'open'; readonly string: number; readonly rings: boolean };

export interface ChangeChord {
  readonly uri: string;
  /** The version of the lesson that the change was chosen in. */
  readonly version: number;
  readonly bar: string;
  /** Index in the bar. */
  readonly chord: number;
  readonly change: PreviewChange;
}

export interface ChordChanged {
  /** What is written, or why nothing can be: one line for the reader. */
  readonly says: string;
  /** LSP's WorkspaceEdit, with the version that it is for; absent where nothing can be written. */
  readonly edit?: unknown;
}

/** Request: the edit that makes a change chosen in the preview; null where the lesson is not open or has changed since. */
export const CHANGE_CHORD = 'stringcourse/changeChord';

/**
 * Request to the client: the text of a file that a lesson speaks of, by its address; null where there is none. Asked only of
 * clients that say `readsFiles` in their initialisation options.
 */
export const READ_FILE = 'stringcourse/readFile';

/** Request to the client, under the same condition: the addresses of all lessons of the workspace. */
export const LIST_LESSONS = 'stringcourse/listLessons';

/** Notification to the client. Parameter: `PreviewUpdate`. */
export const PREVIEW_UPDATED = 'stringcourse/previewUpdated';

/** What a page keeps of a lesson over a reload, and from one opening to the next. */
export interface KeptPage {
  readonly view: PreviewView;
  /** The part that stood at the top, and by how many pixels its upper edge lay below the top. */
  readonly part?: { readonly block: string; readonly top: number };
  /** Where in the text the reader was last. */
  readonly cursor?: { readonly line: number; readonly character: number };
}

/** What the page inside the panel is told. */
export type ToPage =
  | { readonly kind: 'update'; readonly update: PreviewUpdate }
  /** How the lesson was looked at when it was last open, told before the first update. */
  | { readonly kind: 'kept'; readonly kept: KeptPage }
  /** The cursor's line and column; the page marks the bars written there and brings the first into view. */
  | { readonly kind: 'cursor'; readonly line: number; readonly character: number }
  /** One line about what was asked for: what was written, or why it was not. */
  | { readonly kind: 'said'; readonly text: string }
  /** The lesson was closed, or the server is gone; what is drawn stays, marked as old. */
  | { readonly kind: 'asleep'; readonly reason: string };

/** What the page inside the panel says. */
export type FromPage =
  /** A page that has just been loaded; `view` is what it kept over a reload. */
  | { readonly kind: 'ready'; readonly width: number; readonly view?: PreviewView }
  | { readonly kind: 'resized'; readonly width: number }
  /** Looks in another way, or opens, closes or moves a panel. */
  | { readonly kind: 'view'; readonly view: PreviewView }
  | { readonly kind: 'keep'; readonly kept: KeptPage }
  /** A voicing or a cell of the map was chosen, in the version that is shown. */
  | {
      readonly kind: 'change';
      readonly version: number;
      readonly bar: string;
      readonly chord: number;
      readonly change: PreviewChange;
    }
  /** A bar was chosen by mouse or keyboard. */
  | { readonly kind: 'reveal'; readonly place: PlaceInText };
