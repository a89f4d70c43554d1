import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { App } from '../../../dashboard/app/app.tsx';
import type { Route } from '../../../dashboard/app/route.ts';
import { createStore } from '../../../dashboard/store/store.ts';
import { DoorsProvider } from '../../../dashboard/store/use.tsx';
import { lineView } from '../../../gateway/api/viewSchema.ts';
import type { EpochMs, Millis } from '../../../model/units/units.ts';
import type { LineView } from '../../../model/view/view.ts';
import { views } from '../views/views.ts';

// The theme switch asks the page which look it has; there is no page here.
Object.assign(globalThis, { document: { documentElement: { dataset: {} } } });

const at = Date.parse('2026-03-17T09:10:00Z') as EpochMs;
const over = {
  kind: 'guardOpenRunning',
  guard: 'guard door 2',
  at,
  lasted: 4000 as Millis,
  id: 'g-1',
} as const;
const lasts = {
  kind: 'devicePressedRunning',
  device: 'main panel',
  at,
  lasted: undefined,
  id: 'd-1',
} as const;
const older = { kind: 'olderFindings', count: 30, id: 'older' } as const;
const further = { kind: 'further', count: 12 } as const;

function draw(layout: 'wall' | 'desk' | 'phone', matters: LineView['matters']): string {
  const route: Route = { kind: 'line', layout };
  const view: LineView = { ...views.quiet, matters };
  expect(lineView.safeParse(JSON.parse(JSON.stringify(view))).error?.issues ?? []).toEqual([]);
  const store = createStore(0, view);
  store.tick(0);
  const drawn = renderToStaticMarkup(
    <DoorsProvider doors={{ store, enter: () => {} }}>
      <App route={route} />
    </DoorsProvider>,
  );
  // a number that can be asked about is a part of its sentence
  return drawn.replace(/<\/?data\b[^>]*>/g, '');
}

function times(text: string, part: string): number {
  return text.split(part).length - 1;
}

describe('what ran on with a guard open or a device pressed', () => {
  it.each(['desk', 'phone'] as const)(
    '[PS5] is closed on the %s once it is over, under the caution',
    (layout) => {
      const drawn = draw(layout, [lasts, over, older]);
      expect(drawn).toContain('Guard door 2 read open while it ran');
      expect(drawn).toContain('Main panel read pressed while it ran');
      expect(drawn).toContain('30 older findings are not closed');
      expect(times(drawn, 'Close it')).toBe(2);
      expect(times(drawn, '<aside class="caution"')).toBe(1);
      expect(drawn).toContain('isolate, lock out');
      expect(draw(layout, [])).not.toContain('Close it');
    },
  );

  it('[PS5] is shown on the wall, which asks nothing', () => {
    const drawn = draw('wall', [lasts, over]);
    expect(drawn).toContain('Guard door 2 read open while it ran');
    expect(drawn).not.toMatch(/Close it|<button|<input/);
    expect(times(drawn, '<aside class="caution"')).toBe(1);
    expect(draw('wall', [])).not.toContain('<aside class="caution"');
  });

  it('and whatever else there is no room for is counted', () => {
    expect(draw('desk', [over, further])).toContain('And 12 more');
    expect(draw('wall', [over, further])).toContain('Not in this list: 12 more for which there is no room.');
  });
});

describe('a counter that did what counters do not', () => {
  it.each([
    ['reset', 'The counter of rejects, top open began again'],
    ['implausible', 'The counter of rejects, top open jumped'],
    ['correction', 'The counter of rejects, top open went back a little'],
  ] as const)('[CO3] [CO4] is told in words: %s', (mark, said) => {
    const matter = {
      kind: 'counterReset',
      mark,
      counts: 'rejectCount',
      of: 'top open',
      at,
      times: 3,
    } as const;
    const drawn = draw('desk', [matter]);
    expect(drawn).toContain(said);
    expect(drawn).toContain('3 times this shift');
  });
});

describe('a device latched before anybody looked', () => {
  const head = views.pressed.head.kind === 'pressed' ? views.pressed.head : undefined;
  const found: LineView = {
    ...views.pressed,
    head: { ...head!, press: { ...head!.press, known: 'found' } },
  };

  it.each([
    { kind: 'line', layout: 'wall' },
    { kind: 'line', layout: 'phone' },
    { kind: 'panel', position: 'front' },
  ] as const)('[PS1] is shown without a moment of its own on %j', (route) => {
    const store = createStore(0, found);
    store.tick(0);
    const drawn = renderToStaticMarkup(
      <DoorsProvider doors={{ store, enter: () => {} }}>
        <App route={route} />
      </DoorsProvider>,
    );
    expect(drawn).toContain('moment not seen');
    expect(drawn).toContain('for at least');
    expect(drawn).toContain('Loading front, found pressed');
  });
});
