/** What a teacher has set in their editor, lesson by lesson: asked of the client, or taken as the client sends it. */
import {
  DidChangeConfigurationNotification,
  type Connection,
  type InitializeParams,
  type ConfigurationItem,
} from 'vscode-languageserver';

/** The name under which every editor keeps them. */
export const SECTION = 'stringcourse';

/** What of the settings concerns the server; package.json names each of them, with what it says and the same default. */
export interface EditorSettings {
  /** What stands above sections and parts. */
  readonly codeLens: boolean;
  /** Whether lessons that are not open are judged too. */
  readonly workspaceDiagnostics: boolean;
  /** By the code of a finding, how much it is to weigh; those that are not named weigh what their rule says. */
  readonly severity: Weights;
  readonly inlayHints: {
    /** Behind a chord, what it sounds where that is not what its symbol says. */
    readonly soundingNames: boolean;
    /** Behind a contour that a section calls for, the frets that it becomes. */
    readonly contourFrets: boolean;
  };
}

/** `off`: not told at all. */
export const WEIGHTS = ['error', 'warning', 'information', 'hint', 'off'] as const;

export type Weights = Readonly<Record<string, (typeof WEIGHTS)[number]>>;

export const DEFAULTS: EditorSettings = {
  codeLens: true,
  workspaceDiagnostics: true,
  severity: {},
  inlayHints: { soundingNames: true, contourFrets: true },
};

/** Settings as any editor may send them: what is missing, or of another kind than it should be, is as by default. */
export function readSettings(sent: unknown): EditorSettings {
  const inlayHints = at(sent, 'inlayHints');
  const hints = DEFAULTS.inlayHints;
  return {
    codeLens: truth(at(sent, 'codeLens'), DEFAULTS.codeLens),
    workspaceDiagnostics: truth(at(sent, 'workspaceDiagnostics'), DEFAULTS.workspaceDiagnostics),
    severity: weights(at(sent, 'severity')),
    inlayHints: {
      soundingNames: truth(at(inlayHints, 'soundingNames'), hints.soundingNames),
      contourFrets: truth(at(inlayHints, 'contourFrets'), hints.contourFrets),
    },
  };
}

const at = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>)[key] : undefined;

/** In the order of the codes, so that equal ones are equal texts. */
function weights(value: unknown): Weights {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return {};
  const sorted = Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1));
  return Object.fromEntries(
    sorted.flatMap(([code, weight]) => {
      const known = WEIGHTS.find((one) => one === weight);
      return known ? [[code, known]] : [];
    }),
  );
}

const truth = (value: unknown, otherwise: boolean): boolean => (typeof value === 'boolean' ? value : otherwise);

/** Lessons whose settings are kept; beyond them those that were asked about first are asked about again. */
const MOST_KEPT = 4_000;

/** Whether a lesson is among those whose settings have changed. */
export type Concerned = (uri: string) => boolean;

/**
 * A client that can be asked is asked once for each lesson, since folders may be set differently. Another one sends the settings,
 * under {@link SECTION} or by themselves, in its initialisation options and whenever they change.
 */
export class SettingsOfLessons {
  private asks = false;
  private registers = false;
  private sent: EditorSettings = DEFAULTS;
  private readonly known = new Map<string, EditorSettings>();
  /** Lessons whose settings were taken to be the default, since nobody waited for the answer. */
  private readonly assumed = new Set<string>();
  private readonly asking = new Map<string, Promise<void>>();
  /** What the next question to the client is about: many lessons are one question. */
  private waiting: string[] = [];
  private question: Promise<void> | undefined;
  private changes = 0;
  private readonly listeners: ((concerned: Concerned) => void)[] = [];

  constructor(private readonly connection: Connection) {}

  /** Called once, with what the client says of itself. */
  introduced({ capabilities, initializationOptions }: InitializeParams): void {
    this.asks = capabilities?.workspace?.configuration ?? false;
    this.registers = capabilities?.workspace?.didChangeConfiguration?.dynamicRegistration ?? false;
    if (!this.asks) this.sent = ownOf(initializationOptions);
  }

  /** Called once, when the client may be spoken to. */
  listen(): void {
    this.connection.onDidChangeConfiguration(({ settings }) => this.changed(settings));
    const { type } = DidChangeConfigurationNotification;
    // A client that will not tell of changes is left with what it has said first.
    if (this.registers) this.connection.client.register(type, { section: SECTION }).catch(() => {});
  }

  /** As far as they are known: by default until the client has answered; where it answers otherwise, `onChanged` tells of it. */
  settingsOf(uri: string): EditorSettings {
    if (!this.asks) return this.sent;
    const known = this.known.get(uri);
    if (known) return known;
    this.assumed.add(uri);
    void this.askFor(uri);
    return DEFAULTS;
  }

  /** The same once they are known, and known anew where the client has said that something was set. */
  async whenKnown(uri: string): Promise<EditorSettings> {
    if (this.asks && (this.asking.has(uri) || !this.known.has(uri))) await this.askFor(uri);
    return this.known.get(uri) ?? this.sent;
  }

  /** `listener` is told when settings are others than was said of them before. */
  onChanged(listener: (concerned: Concerned) => void): void {
    this.listeners.push(listener);
  }

  /** A lesson was closed. */
  forget(uri: string): void {
    this.known.delete(uri);
    this.assumed.delete(uri);
  }

  private changed(settings: unknown): void {
    if (this.asks) {
      // Questions that are out already are asked again by themselves.
      this.changes++;
      for (const uri of this.known.keys()) void this.askFor(uri);
      return;
    }
    const before = this.sent;
    this.sent = ownOf(settings);
    if (!areEqual(before, this.sent)) this.tell(() => true);
  }

  private askFor(uri: string): Promise<void> {
    const asking = this.asking.get(uri);
    if (asking) return asking;
    this.waiting.push(uri);
    this.question ??= Promise.resolve().then(() => this.askNow());
    this.asking.set(uri, this.question);
    return this.question;
  }

  private async askNow(): Promise<void> {
    const uris = this.waiting;
    this.waiting = [];
    this.question = undefined;
    const items = uris.map((scopeUri): ConfigurationItem => ({ scopeUri, section: SECTION }));
    let answers: readonly unknown[];
    let asked: number;
    do {
      asked = this.changes;
      answers = await this.connection.workspace.getConfiguration(items).catch(() => []);
    } while (asked !== this.changes);
    const told = new Set<string>();
    for (const [i, uri] of uris.entries()) {
      const settings = readSettings(answers[i]);
      const before = this.known.get(uri) ?? (this.assumed.delete(uri) ? DEFAULTS : settings);
      if (!areEqual(before, settings)) told.add(uri);
      this.asking.delete(uri);
      this.keep(uri, settings);
    }
    if (told.size > 0) this.tell((uri) => told.has(uri));
  }

  private keep(uri: string, settings: EditorSettings): void {
    const [oldest] = this.known.keys();
    if (this.known.size >= MOST_KEPT && !this.known.has(uri)) this.known.delete(oldest);
    this.known.set(uri, settings);
  }

  private tell(concerned: Concerned): void {
    for (const listener of this.listeners) listener(concerned);
  }
}

/** Both are read by {@link readSettings}, and so have their keys in one order. */
const areEqual = (a: EditorSettings, b: EditorSettings): boolean => JSON.stringify(a) === JSON.stringify(b);

const ownOf = (sent: unknown): EditorSettings => readSettings(at(sent, SECTION) ?? sent);
