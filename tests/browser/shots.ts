import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { type ViewName, views } from '../dashboard/views/views.ts';
import { openStage } from './stage.ts';

interface Shot {
  readonly name: string;
  readonly view: ViewName;
  readonly path: string;
  readonly size: readonly [number, number];
  readonly taps?: readonly string[];
  readonly whole?: true;
}
const WALL = [1920, 1080] as const;
const DESK = [1440, 900] as const;
const PHONE = [390, 844] as const;
const PANEL = [1280, 800] as const;

function walls(...views: readonly ViewName[]): Shot[] {
  return views.map((view) => ({ name: `wall-${view}`, view, path: '/wall', size: WALL }));
}

function desks(...views: readonly ViewName[]): Shot[] {
  return views.map((view) => ({ name: `desk-${view}`, view, path: '/', size: DESK, whole: true }));
}

function phones(...views: readonly ViewName[]): Shot[] {
  return views.map((view) => ({ name: `phone-${view}`, view, path: '/', size: PHONE, whole: true }));
}

function panels(...views: readonly ViewName[]): Shot[] {
  return views.map((view) => tapped(view, view));
}

/** A panel after somebody has tapped what `taps` select. */
function tapped(name: string, view: ViewName, ...taps: readonly string[]): Shot {
  return { name: `panel-${name}`, view, path: '/panel/front', size: PANEL, taps };
}

function dark(shots: readonly Shot[]): Shot[] {
  return shots.map((shot) => ({ ...shot, name: `${shot.name}-dark`, path: `${shot.path}?theme=dark` }));
}

/** What a person opens on a panel at rest. */
const opened = [
  tapped('order', 'quiet', '.key.order'),
  tapped('crew', 'quiet', '.key.order', '.key.row'),
  tapped('number', 'quiet', '.key.order', '.key.another', digit(3), digit(3), digit(6), digit(4)),
  tapped('handed', 'quiet', '.key.order', '.key.handed', digit(4), digit(2), digit(8), digit(7)),
  tapped('doubted', 'quiet', '.key.order', '.key.handed', digit(8), digit(8), '.key.take'),
  tapped('note', 'quiet', '.key.note'),
];

/** The key in this place of the keypad, counted from 0. */
function digit(place: number): string {
  return `.key.digit >> nth=${place}`;
}

const shots: readonly Shot[] = [
  { name: 'wall', view: 'stopped', path: '/', size: WALL },
  { name: 'wall-dark', view: 'stopped', path: '/?theme=dark', size: WALL },
  ...walls('quiet', 'changeover', 'pause', 'starved', 'justStarted', 'offShift'),
  ...walls('lost', 'stale', 'released', 'long', 'pressed'),
  ...dark(walls('pressed', 'lost')),
  ...desks('stopped', 'quiet', 'pressed', 'lost', 'long', 'justStarted', 'changeover'),
  ...dark(desks('stopped', 'quiet')),
  ...phones('stopped', 'quiet', 'pressed', 'lost', 'stale', 'long', 'question', 'offShift', 'changeover'),
  ...dark(phones('stopped', 'quiet')),
  ...panels('quiet', 'question', 'pressed', 'released', 'stopped', 'lost', 'stale', 'long'),
  ...panels('justStarted', 'changeover'),
  ...dark(panels('quiet', 'question', 'pressed', 'released', 'stopped', 'lost')),
  ...opened,
  ...dark(opened),
  tapped('stopped-order', 'stopped', '.key.order'),
  tapped('stopped-note', 'stopped', '.key.note'),
  tapped('stopped-crew', 'stopped', '.key.order', '.key.crewonly'),
  tapped('lost-order', 'lost', '.key.order'),
  tapped('else', 'question', '.key.else'),
  tapped('sent', 'quiet', '.key.note', '.key.word'),
  { name: 'panel-nowhere', view: 'quiet', path: '/panel/middle', size: PANEL },
];

const output = join(import.meta.dirname, 'output');

/**
 * Draws every screen from fixed views, for looking at: `node --import tsx tests/browser/shots.ts [name …]`.
 * Needs no gateway: a small server on loopback serves the built dashboard and one view.
 */
async function main(asked: readonly string[]) {
  await mkdir(output, { recursive: true });
  const stage = await openStage(views.stopped);
  for (const shot of shots.filter(
    ({ name }) => asked.length === 0 || asked.some((part) => name.startsWith(part)),
  )) {
    stage.show(views[shot.view]);
    const page = await stage.page(shot.size[0], shot.size[1]);
    await page.emulateMedia({ reducedMotion: 'reduce' });
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
  }
  await stage.end();
}

await main(process.argv.slice(2));
