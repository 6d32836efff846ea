/** How the page talks to whoever draws the lesson: the editor around it, or the program that serves it to a browser. */
import type { FromPage, ToPage } from '../../server/src/protocol.ts';

export interface Transport {
  /** `met` is called whenever the other side is there, at first and again; only then does it hear. */
  listen(hear: (message: ToPage) => void, met: () => void): void;
  say(message: FromPage): void;
  /** Begins anew, as if the page had just been loaded: everything is sent again. */
  again(): void;
  /** Keeps and gives back how far the page was scrolled, over a reload. In CSS pixels. */
  keepScroll(top: number): void;
  readonly keptScroll: number;
}

/** What the editor gives to a page inside a panel. */
interface PanelHost {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare const acquireVsCodeApi: (() => PanelHost) | undefined;

export const chooseTransport = (): Transport =>
  typeof acquireVsCodeApi === 'function' ? panelTransport(acquireVsCodeApi()) : eventTransport();

function panelTransport(host: PanelHost): Transport {
  const state = host.getState() as { readonly uri?: string; readonly scroll?: number } | undefined;
  const { uri } = document.body.dataset;
  let greet = (): void => {};
  return {
    listen: (hear, met) => {
      greet = met;
      window.addEventListener('message', (event: MessageEvent<ToPage>) => hear(event.data));
      // What is kept names the lesson even if nothing is ever scrolled: it is what restores the panel.
      host.setState({ uri, scroll: state?.scroll ?? 0 });
      met();
    },
    say: (message) => host.postMessage(message),
    again: () => greet(),
    keepScroll: (top) => host.setState({ uri, scroll: top }),
    keptScroll: state?.scroll ?? 0,
  };
}

const SCROLL = 'stringcourse.scroll';

/** Server-sent events one way, small posts the other; the name tells apart the pages that one browser has open. */
function eventTransport(): Transport {
  const name = crypto.randomUUID();
  let open = (): void => {};
  return {
    listen: (hear, met) => {
      let source: EventSource | undefined;
      open = () => {
        source?.close();
        source = new EventSource(`events?page=${name}`);
        source.onopen = met;
        source.onmessage = (event: MessageEvent<string>) => hear(JSON.parse(event.data) as ToPage);
        source.onerror = () =>
          hear({ kind: 'asleep', reason: 'The program behind this page has ended: what you see is old.' });
      };
      open();
    },
    say: (message) => void post(`say?page=${name}`, message),
    again: () => open(),
    keepScroll: (top) => sessionStorage.setItem(SCROLL, `${top}`),
    keptScroll: Number(sessionStorage.getItem(SCROLL) ?? 0),
  };
}

async function post(address: string, message: FromPage): Promise<void> {
  try {
    await fetch(address, { method: 'POST', body: JSON.stringify(message) });
  } catch {
    // The program has ended, which the stream of events tells the reader; there is nobody to say this to.
  }
}
