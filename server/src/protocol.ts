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
  readonly kind:
    | 'key'
    | 'meter'
    | 'tempo'
    | 'swing'
    | 'tuning'
    | 'capo'
    | 'level'
    | 'hand'
    | 'difficulty'
    | 'findings'
    | 'contents';
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
  /** The tempo that is written for the lesson, in beats a minute. */
  readonly tempo: number;
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

export interface SoundQuestion {
  readonly uri: string;
  /** The name of one of its variants; the lesson itself where nothing is said. */
  readonly variant?: string;
}

/** A step of the practice as it is played. */
export interface SoundStep {
  readonly title: string;
  /** Beats a minute, in the order played; one, or the rungs of a ladder. */
  readonly tempi: readonly number[];
  /** The tempo that is written for what it practises. */
  readonly perMinute: number;
  readonly minutes?: number;
  /** Index of its section; absent for the whole lesson. */
  readonly section?: number;
  /** Its bars, as they are counted in the section; both or neither. */
  readonly first?: number;
  readonly last?: number;
}

/** All that a page needs to play a lesson. */
export interface LessonSound {
  /** The version of the lesson that it was made from, which may be newer than what the page shows. */
  readonly version: number;
  readonly variant?: string;
  /** What is heard when: `SoundTimeline` in sound/timeline.ts. */
  readonly timeline: unknown;
  /** The tempo that is written for the lesson, in beats a minute. */
  readonly perMinute: number;
  /** The sections that the timeline speaks of: what the ids of their bars begin with, and their tempo. */
  readonly sections: readonly { readonly id: string; readonly perMinute: number }[];
  /** Parallel to the steps that are shown. */
  readonly practice: readonly SoundStep[];
}

/** Request: how a lesson sounds, a `LessonSound`; null where it is not open or has no such variant. Worked out when it is asked for. */
export const SOUND_OF = 'stringcourse/soundOf';

/** A question of our own about a lesson that is open. */
export interface AboutLesson {
  readonly textDocument: { readonly uri: string };
}

/** What a lesson is in one line, and what is told beside it. */
export interface LessonSummary {
  /** Of the lesson; empty where it has none. */
  readonly title: string;
  /** The mean of its bars, `3.1` of ten and `moderate`; absent where no shape is held. */
  readonly difficulty?: { readonly ofTen: string; readonly word: string };
  /** As the lesson says. */
  readonly minutes?: number;
  /** As written, without pick-ups. */
  readonly bars: number;
  /** How long its music lasts at its tempo, with repeats: `17 seconds`. */
  readonly sounds: string;
  /** Key, meter, tempo, tuning, capo, level and hand, in words. */
  readonly facts: readonly string[];
  readonly variants: readonly { readonly name: string; readonly title: string }[];
}

/** Request: the summary of a lesson; null where it is not open. Parameter: `AboutLesson`. */
export const SUMMARISE = 'stringcourse/summarise';

export type ExportFormat = 'tab' | 'svg' | 'json' | 'wav';

/** What a lesson can be written as, in the order in which it is offered; the ending is that of the file. */
export const EXPORT_FORMATS: readonly {
  readonly format: ExportFormat;
  readonly ending: string;
  readonly title: string;
  readonly says: string;
}[] = [
  { format: 'tab', ending: 'txt', title: 'Tab', says: 'Plain text, the prose between the tab' },
  { format: 'svg', ending: 'svg', title: 'Drawing', says: 'One SVG picture of the whole lesson' },
  { format: 'wav', ending: 'wav', title: 'Sound', says: 'What is heard, as a WAV file' },
  { format: 'json', ending: 'json', title: 'Data', says: 'What is played and what was found, as JSON' },
];

export interface ExportLesson extends AboutLesson {
  readonly to: ExportFormat;
  /** The name of one of its variants, which is then written instead. */
  readonly variant?: string;
}

export interface LessonExported {
  /** One line for the reader: why nothing can be written, or what is missing in what is. */
  readonly says?: string;
  readonly text?: string;
  /** Bytes, instead of a text: parts of one file, in order, each in base 64. */
  readonly parts?: readonly string[];
}

/** Request: a lesson as a file of another kind; null where it is not open. Nothing is written by the server. */
export const EXPORT_LESSON = 'stringcourse/exportLesson';

/** Another key that a lesson can be taken to. */
export interface KeyChoice {
  /** `Transpose to A major`. */
  readonly title: string;
}

export interface KeyChoices {
  /** The version of the lesson that they are for. */
  readonly version: number;
  readonly choices: readonly KeyChoice[];
}

/** Request: the keys that a lesson can be taken to, the nearest first; null where it is not open. Parameter: `AboutLesson`. */
export const LIST_KEYS = 'stringcourse/listKeys';

export interface AboutKey extends AboutLesson {
  readonly version: number;
  /** Index in the choices of that version. */
  readonly choice: number;
}

/** Request: what the open strings win and lose in that key, in one line; null where the lesson has changed since. */
export const COLOURS_OF_KEY = 'stringcourse/coloursOfKey';

/** Request: the edit that takes the lesson there, as `ChordChanged`; null where it is not open. */
export const TAKE_TO_KEY = 'stringcourse/takeToKey';

/**
 * Request to the client: the text of a file that a lesson speaks of, by its address; null where there is none. Asked only of
 * clients that say `readsFiles` in their initialisation options.
 */
export const READ_FILE = 'stringcourse/readFile';

/** Request to the client, under the same condition: the addresses of all lessons of the workspace. */
export const LIST_LESSONS = 'stringcourse/listLessons';

/**
 * Commands of the client that the server puts above sections and parts, where the client lists them as `commands` in its
 * initialisation options. The first two are given a `SectionPlace`; the last what `textDocument/references` answers with: the
 * address, a position, and the locations.
 */
export const OPEN_PREVIEW = 'stringcourse.openPreview';
export const PLAY = 'stringcourse.play';
export const SHOW_REFERENCES = 'stringcourse.showReferences';

/** A section of a lesson, and where its first bar is written. */
export interface SectionPlace {
  readonly uri: string;
  readonly section: string;
  /** From 0, in UTF-16 units. */
  readonly line: number;
  readonly character: number;
}

/** Notification to the client. Parameter: `PreviewUpdate`. */
export const PREVIEW_UPDATED = 'stringcourse/previewUpdated';

/** What a page keeps of a lesson over a reload, and from one opening to the next. */
export interface KeptPage {
  readonly view: PreviewView;
  /** The part that stood at the top, and by how many pixels its upper edge lay below the top. */
  readonly part?: { readonly block: string; readonly top: number };
  /** Where in the text the reader was last. */
  readonly cursor?: { readonly line: number; readonly character: number };
  readonly listening?: Listening;
}

/** How a lesson is listened to. */
export interface Listening {
  /** 1 is the tempo that is written, 0.5 half of it. */
  readonly speed: number;
  /** 0 to 1. */
  readonly volume: number;
  readonly isCountedIn: boolean;
  readonly isMetronomeHeard: boolean;
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
  /** How the lesson sounds, as the page asked; null where that cannot be told. */
  | { readonly kind: 'sound'; readonly sound: LessonSound | null }
  /** To be heard, from a section on where one is named by its id; it begins once the reader has touched the page. */
  | { readonly kind: 'play'; readonly section?: string }
  | { readonly kind: 'stop' }
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
  /** Somebody wants to hear the lesson, or one of its variants. */
  | { readonly kind: 'sound'; readonly variant?: string }
  /** Asked to play, it must be touched by the reader first: no page makes a sound before. */
  | { readonly kind: 'untouched' }
  /** Other notes sound now, or none: where in the text of that version they are written, in UTF-16 units from its start. */
  | {
      readonly kind: 'sounding';
      readonly version: number;
      readonly isPlaying: boolean;
      readonly spans: readonly { readonly start: number; readonly end: number }[];
    }
  /** A bar was chosen by mouse or keyboard. */
  | { readonly kind: 'reveal'; readonly place: PlaceInText };
