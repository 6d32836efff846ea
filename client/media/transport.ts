/** How the page talks to whoever draws the lesson: the editor around it, or the program that serves it to a browser. */
import type { FromPage, KeptPage, ToPage } from '../../server/src/protocol.ts';

export interface Transport {
  /** `met` is called whenever the other side is there, at first and again; only then does it hear. */
  listen(hear: (message: ToPage) => void, met: () => void): void;
  say(message: FromPage): void;
  /** Begins anew, as if the page had just been loaded: everything is sent again. */
  again(): void;
  /** Keeps how the reader looks at the lesson, over a reload. */
  keep(kept: KeptPage): void;
  /** What was kept when the page was loaded. */
  readonly kept: KeptPage | undefined;
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
  const state = host.getState() as { readonly kept?: KeptPage } | undefined;
  const { uri } = document.body.dataset;
  let greet = (): void => {};
  return {
    listen: (hear, met) => {
      greet = met;
      window.addEventListener('message', (event: MessageEvent<ToPage>) => hear(event.data));
      // What is kept names the lesson even if nothing is ever changed: it is what restores the panel.
      host.setState({ uri, ...(state?.kept && { kept: state.kept }) });
      met();
    },
    say: (message) => host.postMessage(message),
    again: () => greet(),
    keep: (kept) => {
      host.setState({ uri, kept });
      // The editor keeps it for the day on which the panel is opened anew.
      host.postMessage({ kind: 'keep', kept } satisfies FromPage);
    },
    kept: state?.kept,
  };
}

const KEPT = 'stringcourse.kept';

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
    // There is no text beside a page in a browser whose words could be marked.
    say: (message) => void (message.kind === 'sounding' || post(`say?page=${name}`, message)),
    again: () => open(),
    keep: (kept) => sessionStorage.setItem(KEPT, JSON.stringify(kept)),
    kept: keptIn(sessionStorage.getItem(KEPT)),
  };
}

function keptIn(text: string | null): KeptPage | undefined {
  return text === null ? undefined : (JSON.parse(text) as KeptPage);
}

async function post(address: string, message: FromPage): Promise<void> {
  try {
    await fetch(address, { method: 'POST', body: JSON.stringify(message) });
  } catch {
    // The program has ended, which the stream of events tells the reader; there is nobody to say this to.
  }
}
