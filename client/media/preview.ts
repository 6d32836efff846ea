/** The page of the preview, in a panel of the editor or in a browser: shows what it is sent, says what was chosen. */
import {
  PLAIN_VIEW,
  type PlaceInText,
  type PreviewBar,
  type PreviewUpdate,
  type PreviewView,
  type ToPage,
} from '../../server/src/protocol.ts';
import { Bars } from './bars.ts';
import { Blocks } from './blocks.ts';
import { Dock } from './dock.ts';
import { append } from './element.ts';
import { keepPlace, partAtTop, showPart } from './place.ts';
import { chordAt, idsAt, startOf, type Cursor } from './places.ts';
import { Playback } from './playback.ts';
import { Texts } from './texts.ts';
import { Toolbar } from './toolbar.ts';
import { chooseTransport } from './transport.ts';

const transport = chooseTransport();

const page = document.getElementById('preview') as HTMLElement;
const head = append(page, 'header', 'head');
const title = append(head, 'h1', 'lesson-title');
const facts = append(head, 'ul', 'facts');
const tools = new Toolbar(page, (look, says) => {
  lookIn({ ...look, ...(view.panel && { panel: view.panel }) });
  announce(says);
});
const body = append(page, 'div', 'blocks');

const dock = new Dock(document.body, {
  asked: (panel) => lookIn({ ...withoutPanel(view), ...(panel && { panel }) }),
  chosen: ({ bar, chord }, change) => transport.say({ kind: 'change', version, bar, chord, change }),
  heard: (words) => announce(words),
});
const playback = new Playback(dock.player, {
  said: (message) => transport.say(message),
  heard: (words) => announce(words),
  changed: () => keep(),
  barHere: () => cursor && idsAt(drawn, cursor)[0],
  sight: () => sight(),
});
const said = note('said');
const asleep = note('asleep');
const heard = note('heard');

/** What is brought into view must not lie under the buttons. */
function keepEdges(): void {
  const { style } = document.documentElement;
  for (const [name, element] of [
    ['--above', tools.element],
    ['--below', dock.element],
  ] as const) {
    const stays = getComputedStyle(element).position === 'sticky';
    style.setProperty(name, `${stays ? Math.ceil(element.getBoundingClientRect().height) : 0}px`);
  }
}

const sight = (): { readonly top: number; readonly bottom: number } => ({
  top: Math.max(0, tools.element.getBoundingClientRect().bottom),
  bottom: Math.min(window.innerHeight, dock.element.getBoundingClientRect().top),
});
const choose = (place: PlaceInText): void => {
  // In an editor the cursor comes back from there; a page by itself has no other.
  follow(startOf(place));
  transport.say({ kind: 'reveal', place });
};
const blocks = new Blocks(body);
const bars = new Bars(body, choose, sight);
const variantBars = new Bars(dock.body, choose, sight);
const texts = new Texts(body, choose, sight);

let view: PreviewView = transport.kept?.view ?? PLAIN_VIEW;
/** The view that was asked for last and has not come yet: what comes meanwhile is older. */
let wanted: string | undefined;
let version = 0;
let drawn: readonly PreviewBar[] = [];
let cursor = transport.kept?.cursor;
let part = transport.kept?.part;
let isRestored = false;
let saidWidth = 0;
let isAskingAgain = false;

/** A line that is read aloud when it changes. */
function note(className: string): HTMLElement {
  const line = append(dock.element, 'p', className);
  line.setAttribute('role', 'status');
  return line;
}

function announce(words: string): void {
  heard.textContent = words;
}

function hear(message: ToPage): void {
  switch (message.kind) {
    case 'update':
      show(message.update);
      break;
    case 'kept':
      // What this page kept itself is newer.
      if (transport.kept) break;
      part = message.kept.part;
      cursor ??= message.kept.cursor;
      playback.adopt(message.kept.listening);
      break;
    case 'sound':
      playback.take(message.sound);
      break;
    case 'play':
      void playback.command(message.section);
      break;
    case 'stop':
      playback.stop();
      break;
    case 'cursor':
      follow(message);
      break;
    case 'said':
      said.textContent = message.text;
      break;
    case 'asleep':
      document.body.dataset.asleep = '';
      asleep.textContent = message.reason;
      break;
  }
}

function show(update: PreviewUpdate): void {
  let isWhole = true;
  version = update.version;
  drawn = update.bars;
  if (wanted === undefined || wanted === JSON.stringify(update.view)) {
    wanted = undefined;
    adopt(update.view);
  }
  keepPlace(body, sight().top, () => {
    title.textContent = update.title;
    facts.replaceChildren(...update.facts.map(({ kind, text }) => factOf(kind, text)));
    isWhole = blocks.show(update.blocks);
  });
  const wasOpen = dock.isOpen;
  isWhole = dock.show(update.panel) && isWhole;
  bars.renew(update.bars);
  // What is opened must not hide what it is about.
  if (dock.isOpen && !wasOpen) {
    keepEdges();
    bars.showMarked();
  }
  variantBars.renew(update.bars);
  texts.renew(update.texts);
  playback.renew(update);
  delete document.body.dataset.asleep;
  asleep.textContent = '';
  document.body.dataset.version = `${update.version}`;
  document.body.dataset.reading = update.view.reading;
  document.body.dataset.holds = update.blocks.some(({ id }) => id.startsWith('contents/')) ? 'contents' : 'music';
  if (!isRestored) restore();
  // The chord at the cursor may be another now, or be there at last.
  if (cursor) pointAt(cursor);
  // Asked once: should the answer not be whole either, asking on and on would help nobody.
  if (!isWhole && !isAskingAgain) transport.again();
  isAskingAgain = !isWhole;
}

/** The first drawing is seen as the last one was left. */
function restore(): void {
  isRestored = true;
  if (cursor) for (const shown of [bars, variantBars, texts]) shown.adopt(cursor);
  if (part) showPart(body, part);
}

function factOf(kind: string, text: string): HTMLElement {
  const fact = document.createElement('li');
  fact.className = 'fact';
  fact.dataset.kind = kind;
  fact.textContent = text;
  return fact;
}

/** Looks in another way from here on. */
function lookIn(next: PreviewView): void {
  adopt(next);
  wanted = JSON.stringify(next);
  transport.say({ kind: 'view', view: next });
  keep();
}

function adopt(next: PreviewView): void {
  view = next;
  tools.show(next);
  dock.set(next.panel);
  document.documentElement.classList.toggle('large', next.largePrint);
}

const withoutPanel = ({ reading, leftHanded, largePrint }: PreviewView): PreviewView => ({
  reading,
  leftHanded,
  largePrint,
});

function follow({ line, character }: Cursor): void {
  // What was said was about another place.
  if (cursor?.line !== line) said.textContent = '';
  cursor = { line, character };
  bars.follow(cursor);
  variantBars.follow(cursor);
  texts.follow(cursor);
  pointAt(cursor);
  keep();
}

/** Where the cursor is at no chord, what is open goes on about the last one. */
function pointAt(where: Cursor): void {
  const chord = chordAt(drawn, where);
  if (chord) dock.follow(chord);
}

let isKept = true;
/** Once a frame, however much changes in one. */
function keep(): void {
  if (!isKept || !isRestored) return;
  isKept = false;
  requestAnimationFrame(() => {
    isKept = true;
    const top = partAtTop(body, sight().top);
    const { listening } = playback;
    transport.keep({ view, ...(top && { part: top }), ...(cursor && { cursor }), listening });
  });
}

/** Of the room that systems have, in whole CSS pixels. */
const width = (): number => Math.floor(body.clientWidth);

playback.adopt(transport.kept?.listening);

transport.listen(hear, () => {
  saidWidth = width();
  transport.say({ kind: 'ready', width: saidWidth, ...(isRestored || transport.kept ? { view } : {}) });
});

/** Once a frame, however many steps a panel's edge is dragged in one. */
let isDue = false;
new ResizeObserver(() => {
  if (isDue || saidWidth === 0 || width() === saidWidth) return;
  isDue = true;
  requestAnimationFrame(() => {
    isDue = false;
    if (width() === saidWidth || width() === 0) return;
    saidWidth = width();
    transport.say({ kind: 'resized', width: saidWidth });
  });
}).observe(body);

new ResizeObserver(keepEdges).observe(dock.element);

window.addEventListener('scroll', keep);
