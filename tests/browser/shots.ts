import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { LineView } from '../../model/view/view.ts';
import { changeover, justStarted, offShift, pause, quiet, starved } from '../dashboard/views/running.ts';
import { question, stopped } from '../dashboard/views/stopped.ts';
import { long, lost, pressed, released, stale } from '../dashboard/views/trouble.ts';
import { openStage } from './stage.ts';

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

const output = join(import.meta.dirname, 'output');

async function main(asked: readonly string[]) {
  await mkdir(output, { recursive: true });
  const stage = await openStage(stopped);
  for (const shot of shots.filter(
    ({ name }) => asked.length === 0 || asked.some((part) => name.startsWith(part)),
  )) {
    stage.show(views[shot.view] ?? stopped);
    const page = await stage.browser.newPage({
      viewport: { width: shot.size[0], height: shot.size[1] },
      reducedMotion: 'reduce',
    });
    page.on('pageerror', (error) => console.error(shot.name, error.message));
    page.on('console', (message) => message.type() === 'error' && console.error(shot.name, message.text()));
    await page.goto(`${stage.address}${shot.path}`);
    await page.waitForSelector('main:not(.waiting), main.waiting li');
    for (const tap of shot.taps ?? []) await page.locator(tap).first().click();
    await page.evaluate(
      () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
    );
    await page.screenshot({ path: join(output, `${shot.name}.png`), fullPage: shot.whole ?? false });
    console.log(shot.name);
    await page.close();
  }
  await stage.end();
}

await main(process.argv.slice(2));
