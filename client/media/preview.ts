/** The page of the preview, in a panel of the editor or in a browser: shows what it is sent, says what was chosen. */
import type { PreviewUpdate, ToPage } from '../../server/src/protocol.ts';
import { Bars } from './bars.ts';
import { Blocks } from './blocks.ts';
import { keepPlace } from './place.ts';
import { chooseTransport } from './transport.ts';

const transport = chooseTransport();

const page = document.getElementById('preview') as HTMLElement;
const head = append(page, 'header', 'head');
const title = append(head, 'h1', 'lesson-title');
const facts = append(head, 'ul', 'facts');
const body = append(page, 'div', 'blocks');
const asleep = append(page, 'p', 'asleep');
asleep.setAttribute('role', 'status');

const blocks = new Blocks(body);
const bars = new Bars(body, (place) => transport.say({ kind: 'reveal', place }));

let isRestored = false;
let saidWidth = 0;
let isAskingAgain = false;

function append(parent: HTMLElement, name: string, className: string): HTMLElement {
  const element = document.createElement(name);
  element.className = className;
  parent.append(element);
  return element;
}

function hear(message: ToPage): void {
  switch (message.kind) {
    case 'update':
      show(message.update);
      break;
    case 'cursor':
      bars.follow(message);
      break;
    case 'asleep':
      document.body.dataset.asleep = '';
      asleep.textContent = message.reason;
      break;
  }
}

function show(update: PreviewUpdate): void {
  let isWhole = true;
  keepPlace(body, () => {
    title.textContent = update.title;
    facts.replaceChildren(...update.facts.map(({ kind, text }) => factOf(kind, text)));
    isWhole = blocks.show(update.blocks);
  });
  bars.renew(update.bars);
  delete document.body.dataset.asleep;
  asleep.textContent = '';
  document.body.dataset.version = `${update.version}`;
  if (!isRestored) window.scrollTo(0, transport.keptScroll);
  isRestored = true;
  // Asked once: should the answer not be whole either, asking on and on would help nobody.
  if (!isWhole && !isAskingAgain) transport.again();
  isAskingAgain = !isWhole;
}

function factOf(kind: string, text: string): HTMLElement {
  const fact = document.createElement('li');
  fact.className = 'fact';
  fact.dataset.kind = kind;
  fact.textContent = text;
  return fact;
}

/** Of the room that systems have, in whole CSS pixels. */
const width = (): number => Math.floor(body.clientWidth);

transport.listen(hear, () => {
  saidWidth = width();
  transport.say({ kind: 'ready', width: saidWidth });
});

/** Once a frame, however many steps a panel's edge is dragged in one. */
let isDue = false;
new ResizeObserver(() => {
  if (isDue || width() === saidWidth) return;
  isDue = true;
  requestAnimationFrame(() => {
    isDue = false;
    if (width() === saidWidth || width() === 0) return;
    saidWidth = width();
    transport.say({ kind: 'resized', width: saidWidth });
  });
}).observe(body);

let isKept = true;
window.addEventListener('scroll', () => {
  if (!isKept || !isRestored) return;
  isKept = false;
  requestAnimationFrame(() => {
    isKept = true;
    transport.keepScroll(window.scrollY);
  });
});
