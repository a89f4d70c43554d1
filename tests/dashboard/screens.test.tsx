import { describe, expect, it } from 'vitest';
import type { Route } from '../../dashboard/app/route.ts';
import type { LineView } from '../../model/view/view.ts';
import { drawn } from './drawn.tsx';
import { views } from './views/views.ts';

const { changeover, lost, pressed, question, quiet, released, stopped } = views;
const wall: Route = { kind: 'line', layout: 'wall' };
const desk: Route = { kind: 'line', layout: 'desk' };
const phone: Route = { kind: 'line', layout: 'phone' };
const panel: Route = { kind: 'panel', position: 'front' };
const routes: readonly (readonly [string, Route])[] = [
  ['wall', wall],
  ['desk', desk],
  ['phone', phone],
  ['panel', panel],
];

// The theme switch asks the page which look it has; there is no page here.
Object.assign(globalThis, { document: { documentElement: { dataset: {} } } });

/** Its words as they would be read. */
function read(route: Route, view: LineView | undefined, silent = 0): string {
  return drawn(route, view, silent)
    .replace(/<svg[^>]*><!--[\s\S]*?<\/svg>/g, ' ')
    .replace(/<title>[\s\S]*?<\/title>/g, '')
    .replace(/<\/?(?:tspan|b|small|data)\b[^>]*>/g, '')
    .replace(/<[^>]+>/g, '\n')
    .replaceAll('&#x27;', '’');
}

describe.each(Object.entries(views))('drawn from the view %s', (_name, view) => {
  it.each(routes)('the %s leaves no hole in its words and never calls anything safe', (_layout, route) => {
    const words = read(route, view);
    expect(words).not.toMatch(/undefined|NaN|\[object|Infinity|null/);
    expect(words.replaceAll('cannot tell whether the machine is safe', '').match(/\bsafe\b/g)).toBeNull();
    expect(words.length).toBeGreaterThan(200);
  });

  it.each(routes)('the %s shows the age of the reading', (_layout, route) => {
    const always = read(route, view);
    const asksOnly =
      route.kind === 'panel' &&
      (view.question !== undefined || view.matters.some(({ kind }) => kind === 'whichButton'));
    if (!asksOnly) expect(always).toMatch(/read\s+(from the PLC )?\d+ (s|min)/);
  });
});

describe('the Line screen says', () => {
  it('what stopped it, for how long, where, and how often', () => {
    const words = read(wall, stopped);
    expect(words).toContain('Stopped 2 min 14 s');
    expect(words).toContain('Tuck jam at bottom major flap,');
    expect(words).toContain('third in 20 minutes');
  });

  it('a place once, where the reason names it itself', () => {
    const head = {
      ...stopped.head,
      reason: { name: 'stopped at loading', station: 'loading', stopKind: 'operator' },
      nth: 1,
    } as LineView['head'];
    const words = read(wall, { ...stopped, head });
    expect(words).toContain('Stopped at loading');
    expect(words).not.toContain('at loading at loading');
  });

  it('[LO2] the sum of cartons lost without a rest', () => {
    expect(read(wall, stopped)).toContain('1,333 lost = 10,218 planned so far − 8,885 good');
    expect(read(phone, stopped)).toContain('10,218 planned so far − 8,885 good');
  });

  it('that a stop device is latched in, what it reads, what came before, and what is still to come', () => {
    const words = read(wall, pressed);
    for (const said of [
      'Emergency stop latched in',
      'Loading front, pressed 10:40:10,',
      'not released',
      'latched in now',
      '41 s',
      'guard door 3, reads closed, uncertain',
      'first fault: flap not closed at top major flap',
      '+4.8 s',
      '4.8 s on',
      'first good carton',
    ]) {
      expect(words).toContain(said);
    }
    expect(words).toContain('isolate, lock out');
  });

  it('that it was released but not reset', () => {
    expect(read(wall, released)).toContain('Loading front released 10:42:01,');
    expect(read(panel, released)).toContain('not reset yet');
  });

  it('that the PLC is silent, in words of its own', () => {
    const words = read(wall, lost);
    expect(words).toContain('Not seen for 3 min');
    expect(words).toContain('Nothing read since 09:24:02,');
    expect(words).toContain('no data');
    expect(words).not.toContain('gateway');
  });

  it('that the gateway is silent, by its own clock', () => {
    expect(read(wall, stopped, 5_000)).toContain('The gateway does not answer, shown as of 10:42:13');
    const words = read(wall, stopped, 185_000);
    expect(words).toContain('Not seen for 3 min');
    expect(words).toContain('gateway does not answer');
    expect(words).toContain('since 10:42:14');
    expect(words).not.toContain('Stopped 2 min');
  });

  it('stops counting a stop when nothing is seen', () => {
    expect(read(wall, stopped, 2_000)).toContain('Stopped 2 min 16 s');
    expect(read(wall, stopped, 30_000)).toContain('Stopped 2 min 13 s');
  });

  it('nothing about stop devices that nobody has read for a minute', () => {
    const words = read(wall, pressed, 70_000);
    expect(words).not.toContain('latched in now');
    expect(words).not.toMatch(/reads (pressed|released|closed|open)/);
    expect(words).toContain('guard door 1, not known');
    expect(drawn(wall, pressed, 70_000).replace(/<symbol[\s\S]*?<\/symbol>/g, '')).not.toContain(
      'fill="var(--emergency)"',
    );
  });

  it('that it waits for a first view', () => {
    expect(read(wall, undefined)).toContain('Waiting for the gateway’s first view');
  });

  it('nothing that asks, on a wall', () => {
    expect(drawn(wall, question)).not.toMatch(/<button|<input|<select|<a /);
  });
});

describe('the line-side panel', () => {
  it('turns into one question with four answers, something else and not now', () => {
    const words = read(panel, question);
    expect(words).toContain('Stopped 38 s, loading');
    for (const said of [
      'Why did it stop?',
      'no sachets',
      '12 times at loading in 30 days',
      'carton fouled',
      'sachet fell',
      'flap in the way',
      'something else',
      'not now',
    ]) {
      expect(words).toContain(said);
    }
  });

  it('shows its own position’s pockets and nobody else’s', () => {
    const words = read(panel, quiet);
    expect(words).toContain('2 pockets not loaded here in the last 100, 17 this shift');
    expect(words).not.toContain('loading back');
  });

  it('never asks why a device was pressed, and shows the five steps', () => {
    const words = read(panel, pressed);
    expect(words).not.toContain('Why');
    for (const step of ['pressed', 'released', 'reset', 'restarted', 'first good carton'])
      expect(words).toContain(step);
    expect(words).toContain('333 first');
  });

  it('says which positions there are when its own is not one of them', () => {
    expect(read({ kind: 'panel', position: 'middle' }, quiet)).toContain('no loading position “middle”');
  });
});

describe('orders', () => {
  it('what was handed over can be entered on a desk only where an order has ended, and is set beside what was counted', () => {
    expect(read(desk, stopped)).not.toContain('handed over');
    expect(read(desk, quiet)).toContain('Cartons handed over of order 4470');
    expect(read(desk, quiet)).not.toContain('fewer than counted');
    expect(read(desk, changeover)).toContain(
      'Order 4470: 5,412 counted as good, 5,398 handed over, 14 fewer than counted',
    );
  });

  it('where none waits, says where orders are added, and asks for no number that nothing takes', () => {
    for (const route of [desk, phone]) {
      const words = read(route, { ...quiet, orders: [] });
      expect(words).toContain('Orders are added in the list’s own file');
      expect(words).not.toContain('Enter a number');
    }
  });

  it('a chosen order enters at once where none runs, and may follow or run now where one does', () => {
    const idle = { ...quiet, plan: { ...quiet.plan, order: undefined } };
    expect(read(desk, quiet)).toMatch(/Follows\s+Runs from now on/);
    expect(read(desk, idle)).not.toMatch(/Follows|Runs from now on/);
  });
});
