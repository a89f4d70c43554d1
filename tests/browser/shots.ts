import { createServer } from 'node:http';
import { mkdir, readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { chromium } from 'playwright-core';
import { Server } from 'socket.io';
import { build } from 'vite';
import type { ClientToServer, ServerToClient } from '../../model/view/protocol.ts';
import type { LineView } from '../../model/view/view.ts';
import { changeover, justStarted, offShift, pause, quiet, starved } from '../dashboard/views/running.ts';
import { question, stopped } from '../dashboard/views/stopped.ts';
import { long, lost, pressed, released, stale } from '../dashboard/views/trouble.ts';

/**
 * Draws every screen from fixed views, for looking at: `node --import tsx tests/browser/shots.ts [name …]`.
 * Needs no gateway: a small server on loopback serves the built dashboard and one view.
 */
const views: { readonly [name: string]: LineView } = {
  changeover,
  justStarted,
  long,
  lost,
  offShift,
  pause,
  pressed,
  question,
  quiet,
  released,
  stale,
  starved,
  stopped,
};

interface Shot {
  readonly name: string;
  readonly view: string;
  readonly path: string;
  readonly size: readonly [number, number];
  readonly taps?: readonly string[];
  readonly whole?: true;
}
const WALL = [1920, 1080] as const;
const DESK = [1440, 900] as const;
const PHONE = [390, 844] as const;
const PANEL = [1280, 800] as const;

const shots: readonly Shot[] = [
  { name: 'wall', view: 'stopped', path: '/', size: WALL },
  { name: 'wall-dark', view: 'stopped', path: '/?theme=dark', size: WALL },
  ...[
    'quiet',
    'changeover',
    'pause',
    'starved',
    'justStarted',
    'offShift',
    'lost',
    'stale',
    'released',
    'long',
    'pressed',
  ].map((view) => ({ name: `wall-${view}`, view, path: '/wall', size: WALL })),
  { name: 'wall-pressed-dark', view: 'pressed', path: '/?theme=dark', size: WALL },
  { name: 'wall-lost-dark', view: 'lost', path: '/?theme=dark', size: WALL },
  ...['stopped', 'quiet', 'pressed', 'lost', 'long', 'justStarted'].map((view) => ({
    name: `desk-${view}`,
    view,
    path: '/',
    size: DESK,
    whole: true as const,
  })),
  { name: 'desk-stopped-dark', view: 'stopped', path: '/?theme=dark', size: DESK, whole: true },
  ...['stopped', 'quiet', 'pressed', 'lost', 'stale', 'long', 'question', 'offShift'].map((view) => ({
    name: `phone-${view}`,
    view,
    path: '/',
    size: PHONE,
    whole: true as const,
  })),
  { name: 'phone-stopped-dark', view: 'stopped', path: '/?theme=dark', size: PHONE, whole: true },
  ...[
    'quiet',
    'question',
    'pressed',
    'released',
    'stopped',
    'lost',
    'stale',
    'long',
    'justStarted',
    'changeover',
  ].map((view) => ({ name: `panel-${view}`, view, path: '/panel/front', size: PANEL })),
  { name: 'panel-question-dark', view: 'question', path: '/panel/front?theme=dark', size: PANEL },
  { name: 'panel-else', view: 'question', path: '/panel/front', size: PANEL, taps: ['.key.else'] },
  { name: 'panel-order', view: 'quiet', path: '/panel/front', size: PANEL, taps: ['.key.order'] },
  { name: 'panel-crew', view: 'quiet', path: '/panel/front', size: PANEL, taps: ['.key.order', '.key.row'] },
  {
    name: 'panel-number',
    view: 'quiet',
    path: '/panel/front',
    size: PANEL,
    taps: ['.key.order', '.key.another', '.key.digit >> nth=3'],
  },
  { name: 'panel-note', view: 'quiet', path: '/panel/front', size: PANEL, taps: ['.key.note'] },
  { name: 'panel-sent', view: 'quiet', path: '/panel/front', size: PANEL, taps: ['.key.note', '.key.word'] },
  { name: 'panel-nowhere', view: 'quiet', path: '/panel/middle', size: PANEL },
];

const root = join(import.meta.dirname, '../..');
const dist = join(root, 'dashboard/dist');
const output = join(import.meta.dirname, 'output');
const TYPES: { readonly [ending: string]: string } = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
};

let current: LineView = stopped;
const server = createServer(async (request, response) => {
  const path = new URL(request.url ?? '/', 'http://localhost').pathname;
  if (path === '/healthz') {
    response.end(JSON.stringify({ status: 'ok', lines: [{ id: 'line-3' }] }));
    return;
  }
  const file = extname(path) === '' ? '/index.html' : path;
  try {
    const body = await readFile(join(dist, file));
    response.writeHead(200, {
      'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      'content-security-policy':
        "default-src 'self'; style-src 'self' 'unsafe-inline'; connect-src 'self' ws:",
    });
    response.end(body);
  } catch {
    response.writeHead(404).end();
  }
});
const io = new Server<ClientToServer, ServerToClient>(server);
io.on('connection', (socket) => {
  socket.on('join', ({ line }, answer) => {
    answer({ ok: true });
    socket.emit('whole', { line, number: 1, view: current });
  });
  socket.on('enter', (_message, answer) => answer({ ok: true, position: 1 }));
});

async function main(asked: readonly string[]) {
  await mkdir(output, { recursive: true });
  await build({ configFile: join(root, 'dashboard/vite.config.ts'), logLevel: 'warn' });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  for (const shot of shots.filter(
    ({ name }) => asked.length === 0 || asked.some((part) => name.startsWith(part)),
  )) {
    current = views[shot.view] ?? stopped;
    const page = await browser.newPage({
      viewport: { width: shot.size[0], height: shot.size[1] },
      reducedMotion: 'reduce',
    });
    page.on('pageerror', (error) => console.error(shot.name, error.message));
    page.on('console', (message) => message.type() === 'error' && console.error(shot.name, message.text()));
    await page.goto(`http://127.0.0.1:${port}${shot.path}`);
    await page.waitForSelector('main:not(.waiting), main.waiting li');
    for (const tap of shot.taps ?? []) await page.locator(tap).first().click();
    await page.evaluate(
      () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
    );
    await page.screenshot({ path: join(output, `${shot.name}.png`), fullPage: shot.whole ?? false });
    console.log(shot.name);
    await page.close();
  }
  await browser.close();
  io.close();
}

await main(process.argv.slice(2));
