/** The live preview's server: who is let in, and what is said both ways. */
import assert from 'node:assert/strict';
import { request } from 'node:http';
import type { IncomingHttpHeaders } from 'node:http';
import { messageOf } from '../../server/src/cli/live-messages.ts';
import { startLiveServer } from '../../server/src/cli/live-server.ts';
import type { LiveServer, Watcher } from '../../server/src/cli/live-server.ts';
import type { FromPage } from '../../server/src/protocol.ts';

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

function ask(
  address: string,
  more: { readonly method?: string; readonly headers?: Record<string, string>; readonly body?: string } = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(address, { method: more.method ?? 'GET', headers: more.headers }, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (chunk: string) => (body += chunk));
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    asked.on('error', reject);
    asked.end(more.body);
  });
}

/** Opens the stream of events; resolves with the first message. */
function firstEvent(address: string): Promise<{ readonly message: unknown; readonly close: () => void }> {
  return new Promise((resolve, reject) => {
    const asked = request(address, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (chunk: string) => {
        body += chunk;
        const data = /^data: (.*)\n\n/m.exec(body);
        if (data) resolve({ message: JSON.parse(data[1]), close: () => asked.destroy() });
      });
      response.on('error', () => {});
    });
    asked.on('error', reject);
    asked.end();
  });
}

describe('The server of the live preview', () => {
  let server: LiveServer;
  const heard: FromPage[] = [];
  const joined: Watcher[] = [];

  before(async () => {
    server = await startLiveServer({
      files: new Map([['', { type: 'text/html; charset=utf-8', content: '<!doctype html>' }]]),
      joined: (watcher) => {
        joined.push(watcher);
        watcher.send({ kind: 'asleep', reason: 'hello' });
      },
      left: () => {},
      said: (_, message) => heard.push(message),
    });
  });
  after(() => server.close());

  it('listens on the loopback address alone, behind a long token', () => {
    assert.match(server.address, /^http:\/\/127\.0\.0\.1:\d+\/[\w-]{32}\/$/);
  });

  it('serves the page under a strict policy', async () => {
    const { status, headers, body } = await ask(server.address);
    assert.equal(status, 200);
    assert.equal(body, '<!doctype html>');
    const policy = String(headers['content-security-policy']);
    assert.match(policy, /default-src 'none'/);
    assert.match(policy, /frame-ancestors 'none'/);
    assert.doesNotMatch(policy, /unsafe|\*|http/);
    assert.match(policy, /script-src 'self' blob:;/, 'the thread of the sound is loaded from a blob');
    assert.equal(headers['cache-control'], 'no-store');
    assert.equal(headers['x-content-type-options'], 'nosniff');
  });

  it('gives nothing without the right token', async () => {
    const { origin } = new URL(server.address);
    const wrong = server.address.replace(/\/[\w-]{32}\/$/, `/${'x'.repeat(32)}/`);
    for (const address of [`${origin}/`, `${origin}/preview.css`, wrong, `${origin}//`, `${server.address}../`])
      assert.equal((await ask(address)).status, 404, address);
  });

  it('gives nothing to another host name or to a page from elsewhere', async () => {
    const port = new URL(server.address).port;
    for (const host of ['evil.example', `evil.example:${port}`, `localhost:${port}`, '127.0.0.1'])
      assert.equal((await ask(server.address, { headers: { host } })).status, 403, host);
    for (const origin of ['http://evil.example', 'null', `http://localhost:${port}`])
      assert.equal((await ask(server.address, { headers: { origin } })).status, 403, origin);
    const own = new URL(server.address).origin;
    assert.equal((await ask(server.address, { headers: { origin: own } })).status, 200);
  });

  it('sends events, and hears what that page says', async () => {
    const { message, close } = await firstEvent(`${server.address}events?page=one`);
    assert.deepEqual(message, { kind: 'asleep', reason: 'hello' });
    assert.equal(joined.length, 1);
    const say = (body: string, page = 'one'): Promise<Answer> =>
      ask(`${server.address}say?page=${page}`, { method: 'POST', body });
    assert.equal((await say('{"kind":"ready","width":700}')).status, 204);
    assert.deepEqual(heard, [{ kind: 'ready', width: 700 }]);
    assert.equal((await say('{"kind":"ready","width":700}', 'nobody')).status, 409);
    assert.equal((await say('{"kind":"ready","width":"wide"}')).status, 400);
    assert.equal((await say('nonsense')).status, 400);
    assert.equal(heard.length, 1);
    close();
  });

  it('refuses other ways of asking, and pages without a proper name', async () => {
    assert.equal((await ask(server.address, { method: 'POST', body: 'x' })).status, 405);
    assert.equal((await ask(`${server.address}say?page=one`)).status, 404);
    assert.equal((await ask(`${server.address}events`)).status, 400);
    assert.equal((await ask(`${server.address}events?page=${'x'.repeat(65)}`)).status, 400);
  });

  it('reads only what a page may say', () => {
    const place = { startLine: 1, startCharacter: 0, endLine: 1, endCharacter: 4 };
    assert.deepEqual(messageOf(JSON.stringify({ kind: 'reveal', place, more: 1 })), { kind: 'reveal', place });
    for (const wrong of ['null', '[]', '{"kind":"reveal"}', '{"kind":"quit"}', '{"kind":"resized","width":null}'])
      assert.equal(messageOf(wrong), undefined, wrong);
    assert.equal(messageOf(JSON.stringify({ kind: 'reveal', place: { ...place, endLine: -1 } })), undefined);
    const view = {
      reading: 'notes',
      leftHanded: true,
      largePrint: false,
      panel: { kind: 'neck', bar: 'verse.2', chord: 0 },
    };
    for (const kind of ['view', 'ready']) {
      const message = { kind, ...(kind === 'ready' && { width: 700 }), view };
      assert.deepEqual(messageOf(JSON.stringify(message)), message);
    }
    for (const wrong of [
      { ...view, reading: 'colours' },
      { ...view, leftHanded: 1 },
      { ...view, panel: { kind: 'neck', chord: -1 } },
      { ...view, panel: { kind: 'neck', bar: 'x'.repeat(300) } },
    ])
      assert.equal(messageOf(JSON.stringify({ kind: 'view', view: wrong })), undefined);
    const change = { kind: 'change', version: 3, bar: 'verse.2', chord: 0, change: { kind: 'pin', frets: '320003' } };
    for (const message of [{ kind: 'sound' }, { kind: 'sound', variant: 'gentle' }])
      assert.deepEqual(messageOf(JSON.stringify(message)), message);
    assert.equal(messageOf(JSON.stringify({ kind: 'sound', variant: 3 })), undefined);
    assert.deepEqual(messageOf(JSON.stringify(change)), change);
    assert.equal(messageOf(JSON.stringify({ ...change, change: { kind: 'open', string: 'six' } })), undefined);
  });
});
