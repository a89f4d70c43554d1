import { describe, expect, it } from 'vitest';
import { PAST_SCREENS, type Route } from '../../../dashboard/app/route.ts';
import type { LineView } from '../../../model/view/view.ts';
import { drawn } from '../drawn.tsx';
import { views } from '../views/views.ts';

// The theme switch asks the page which look it has, what is chosen stands in its address; there is no page here.
Object.assign(globalThis, {
  document: { documentElement: { dataset: {} } },
  location: { search: '', pathname: '/' },
});

function written(route: Route, view: LineView, silent: number): string {
  return drawn(route, view, silent).replace(/<[^>]+>/g, '');
}

const OTHERS: readonly Route[] = [
  { kind: 'notices' },
  { kind: 'notices', of: 'settings' },
  { kind: 'people' },
  { kind: 'sheet' },
  ...PAST_SCREENS.map((screen): Route => ({ kind: 'past', screen })),
];
const LINES: readonly Route[] = (['wall', 'desk', 'phone'] as const).map((layout) => ({
  kind: 'line',
  layout,
}));
const nameOf = (route: Route) =>
  [route.kind, 'screen' in route ? route.screen : '', 'of' in route ? route.of : ''].join(' ');

describe('a gateway that does not answer', () => {
  const said = /The gateway does not answer, shown as of 09:23:59/;

  it.each(OTHERS.map((route) => [nameOf(route), route] as const))(
    'is said on %s within the same seconds as on the Line screen, with how old what is shown is',
    (_name, route) => {
      expect(written(route, views.quiet, 2_000)).not.toContain('The gateway does not answer');
      const page = written(route, views.quiet, 4_000);
      expect(page).toMatch(said);
      expect(page).toContain('5 s ago');
      const lost = written(route, views.quiet, 150_000);
      expect(lost).toContain('The gateway does not answer, last read 09:23:59');
      expect(lost).toContain('2 min ago');
    },
  );

  it('is said on the Line screen in the same words', () => {
    for (const route of LINES) expect(written(route, views.quiet, 4_000)).toMatch(said);
  });

  it('is another thing than a PLC that sends nothing: notices and people are as new as the gateway', () => {
    const stale = views.stale;
    expect(written({ kind: 'past', screen: 'stations' }, stale, 0)).toContain(
      'The PLC sends nothing, shown as of',
    );
    expect(written({ kind: 'notices' }, stale, 0)).not.toContain('The PLC sends nothing');
    expect(written({ kind: 'notices' }, stale, 4_000)).toContain('The gateway does not answer');
  });
});
