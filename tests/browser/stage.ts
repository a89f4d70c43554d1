import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import { text as textOf } from 'node:stream/consumers';
import { chromium, type Page } from 'playwright-core';
import { Server } from 'socket.io';
import { buildDashboard, dashboardFolder, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { ClientToServer, EntryAnswer, NewEntry, ServerToClient } from '../../model/view/protocol.ts';
import type { LineView } from '../../model/view/view.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';

/** The built dashboard on loopback, fed with one fixed view: no gateway, no PLC, nothing that moves by itself. */
export interface Stage {
  readonly address: string;
  /**
   * An empty page of so many px. There is one, which is emptied each time it is asked for: a page of its own costs the
   * better part of a second.
   */
  readonly page: (width: number, height: number) => Promise<Page>;
  /** What the next page gets. */
  readonly show: (view: LineView) => void;
  /** What the next page gets, and every open one as well. */
  readonly tell: (view: LineView) => void;
  /** Entries that pages have sent. */
  readonly entries: readonly unknown[];
  /** What entries are answered from now on; undefined: they are taken. */
  readonly refuse: (answer: Refusal | undefined) => void;
  readonly end: () => Promise<void>;
}

type Refusal = Extract<EntryAnswer, { readonly ok: false }>;

const TYPES: { readonly [ending: string]: string } = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
};
/**
 * `answers`: what is answered under an address of the API; undefined where there is nothing. Text is a file. `sent`: the body of
 * what was posted. `takes`: the answer to an entry, where it is not simply taken.
 */
export async function openStage(
  first: LineView,
  answers: (path: string, asked: URLSearchParams, sent?: string) => unknown = () => undefined,
  takes: (entry: NewEntry) => EntryAnswer | undefined = () => undefined,
): Promise<Stage> {
  if (dashboardIsOld()) await buildDashboard();
  let current = first;
  const entries: unknown[] = [];
  let refusal: Refusal | undefined;
  const server = createServer(async (request, response) => {
    const { pathname: path, searchParams } = new URL(request.url ?? '/', 'http://localhost');
    if (path === '/healthz') {
      response.end(JSON.stringify({ status: 'ok', lines: [{ id: first.line.id }] }));
      return;
    }
    if (path.startsWith('/api/')) {
      const sent = request.method === 'POST' ? await textOf(request) : undefined;
      const answer = await answers(path, searchParams, sent);
      const isFile = typeof answer === 'string';
      response.writeHead(answer === undefined ? 404 : 200, {
        'content-type': isFile ? 'text/csv; charset=utf-8' : 'application/json',
      });
      response.end(isFile ? answer : JSON.stringify(answer ?? {}));
      return;
    }
    // an address may end with the number of an adjustment, such as 5.2
    const file = /^(\.\d+)?$/.test(extname(path)) ? '/index.html' : path;
    const body = await readFile(join(dashboardFolder, file)).catch(() => undefined);
    if (body === undefined) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      'content-security-policy':
        "default-src 'self'; style-src 'self' 'unsafe-inline'; connect-src 'self' ws:",
    });
    response.end(body);
  });
  const io = new Server<ClientToServer, ServerToClient>(server);
  io.on('connection', (socket) => {
    socket.on('join', ({ line }, answer) => {
      answer({ ok: true });
      socket.emit('whole', { line, number: 1, view: current });
    });
    socket.on('enter', ({ entry }, answer) => {
      entries.push(entry);
      answer(takes(entry) ?? refusal ?? { ok: true, position: entries.length });
    });
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const bound = server.address();
  const port = typeof bound === 'object' && bound !== null ? bound.port : 0;
  const browser = await chromium.launch({
    executablePath: chromiumPath(),
    args: chromiumFlags,
  });
  const page = await browser.newPage();
  return {
    address: `http://127.0.0.1:${port}`,
    page: async (width, height) => {
      page.removeAllListeners();
      if (page.url() !== 'about:blank') await page.evaluate('localStorage.clear()');
      await page.goto('about:blank');
      await page.setViewportSize({ width, height });
      return page;
    },
    show: (view) => {
      current = view;
    },
    tell: (view) => {
      current = view;
      io.emit('whole', { line: view.line.id, number: 1, view });
    },
    entries,
    refuse: (answer) => {
      refusal = answer;
    },
    end: async () => {
      await browser.close();
      await io.close();
    },
  };
}
