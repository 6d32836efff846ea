/**
 * Serves the live preview to browsers on this machine: the page, the updates as server-sent events, and what the page says.
 * The address holds a secret token; whoever does not know it, or comes from another page or under another name, gets nothing.
 */
import { randomBytes, timingSafeEqual } from 'node:crypto';
import { createServer } from 'node:http';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { FromPage, ToPage } from '../protocol.ts';
import { messageOf } from './live-messages.ts';
import { CONTENT_SECURITY_POLICY } from './live-page.ts';
import type { Served } from './live-page.ts';

/** One open page. */
export interface Watcher {
  readonly send: (message: ToPage) => void;
}

export interface LiveServerOptions {
  readonly files: ReadonlyMap<string, Served>;
  /** A page has connected; what it says first is how wide it is. */
  readonly joined: (watcher: Watcher) => void;
  readonly left: (watcher: Watcher) => void;
  readonly said: (watcher: Watcher, message: FromPage) => void;
}

export interface LiveServer {
  /** With the token; ends in a slash. */
  readonly address: string;
  readonly close: () => Promise<void>;
}

const LOOPBACK = '127.0.0.1';
const TOKEN_BYTES = 24;
/** What a page says is a few words. In bytes. */
const LONGEST_MESSAGE = 10_000;
const MOST_WATCHERS = 32;
const ALIVE_EVERY_MS = 20_000;

interface Connection extends Watcher {
  readonly response: ServerResponse;
}

export async function startLiveServer(options: LiveServerOptions): Promise<LiveServer> {
  const token = randomBytes(TOKEN_BYTES).toString('base64url');
  /** By the name that each page gave itself. */
  const connections = new Map<string, Connection>();
  const server = createServer((request, response) => {
    try {
      answer(request, response, { token, connections, options, port: portOf(server) });
    } catch {
      refuse(response, 400);
    }
  });
  server.headersTimeout = 10_000;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, LOOPBACK, resolve);
  });
  // Proxies and sleeping laptops cut what is silent; a comment every while keeps the stream open.
  const alive = setInterval(() => {
    for (const { response } of connections.values()) response.write(': still here\n\n');
  }, ALIVE_EVERY_MS);
  return {
    address: `http://${LOOPBACK}:${portOf(server)}/${token}/`,
    close: () =>
      new Promise((resolve) => {
        clearInterval(alive);
        for (const { response } of connections.values()) response.end();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address ? address.port : 0;
}

interface Context {
  readonly token: string;
  readonly connections: Map<string, Connection>;
  readonly options: LiveServerOptions;
  readonly port: number;
}

function answer(request: IncomingMessage, response: ServerResponse, context: Context): void {
  response.setHeader('Content-Security-Policy', CONTENT_SECURITY_POLICY);
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cross-Origin-Resource-Policy', 'same-origin');
  response.setHeader('Cross-Origin-Opener-Policy', 'same-origin');
  response.setHeader('Cache-Control', 'no-store');
  // Another name in Host is a page elsewhere that had its own name led to this machine.
  const host = `${LOOPBACK}:${context.port}`;
  if (request.headers.host !== host) return refuse(response, 403);
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${host}`) return refuse(response, 403);
  const url = new URL(`http://${host}${request.url}`);
  const path = /^\/([^/]*)\/([^/]*)$/.exec(url.pathname);
  if (!path || !same(path[1], context.token)) return refuse(response, 404);
  const page = url.searchParams.get('page') ?? '';
  if (path[2] === 'events' && request.method === 'GET') return connect(request, response, page, context);
  if (path[2] === 'say' && request.method === 'POST') return listen(request, response, page, context);
  const file = context.options.files.get(path[2]);
  if (!file) return refuse(response, 404);
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(response, 405);
  response.writeHead(200, { 'Content-Type': file.type });
  response.end(request.method === 'HEAD' ? undefined : file.content);
}

function refuse(response: ServerResponse, status: number): void {
  response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8' });
  response.end('Not here.\n');
}

/** Takes as long for a wrong token as for the right one. */
function same(given: string, token: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(token)];
  return a.length === b.length && timingSafeEqual(a, b);
}

const isPageName = (name: string): boolean => /^[\w-]{1,64}$/.test(name);

function connect(request: IncomingMessage, response: ServerResponse, page: string, context: Context): void {
  const { connections, options } = context;
  if (!isPageName(page)) return refuse(response, 400);
  if (connections.size >= MOST_WATCHERS && !connections.has(page)) return refuse(response, 503);
  const before = connections.get(page);
  const connection: Connection = {
    response,
    send: (message) => void response.write(`data: ${JSON.stringify(message)}\n\n`),
  };
  connections.set(page, connection);
  // A page that lost its stream comes again under its name: the old stream is gone with all that was sent on it.
  if (before) {
    before.response.end();
    options.left(before);
  }
  response.writeHead(200, { 'Content-Type': 'text/event-stream; charset=utf-8' });
  response.write('retry: 1000\n\n');
  request.on('close', () => {
    if (connections.get(page) !== connection) return;
    connections.delete(page);
    options.left(connection);
  });
  options.joined(connection);
}

function listen(request: IncomingMessage, response: ServerResponse, page: string, context: Context): void {
  const connection = context.connections.get(page);
  if (!connection) return refuse(response, 409);
  const chunks: Buffer[] = [];
  let length = 0;
  request.on('data', (chunk: Buffer) => {
    length += chunk.length;
    if (length > LONGEST_MESSAGE) request.destroy();
    else chunks.push(chunk);
  });
  request.on('end', () => {
    const message = messageOf(Buffer.concat(chunks).toString('utf8'));
    if (!message) return refuse(response, 400);
    context.options.said(connection, message);
    response.writeHead(204);
    response.end();
  });
}
