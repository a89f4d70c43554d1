import { describe, expect, it } from 'vitest';
import type { Route } from '../../../dashboard/app/route.ts';
import type { Matter } from '../../../model/view/matter.ts';
import type { NoticeView } from '../../../model/view/noticesView.ts';
import { drawn, viewWith } from './drawn.tsx';
import { at, noticeView } from './views.ts';

const by = { kind: 'screen', screen: 'phone' } as const;
const open: readonly NoticeView[] = [
  noticeView(),
  noticeView({ id: 'n2', state: 'taken', taken: { at: at(44), by } }),
  noticeView({
    ...{ id: 'n3', kind: 'disk', level: 'note', station: undefined },
    facts: { kind: 'disk', freeBytes: 1e9, leastBytes: 2e9 },
  }),
  noticeView({
    ...{ id: 'n4', kind: 'press', level: 'urgent', station: undefined },
    facts: { kind: 'press', press: 'p-1', device: 'loading back', role: 'caused', candidates: [] },
  }),
  noticeView({
    ...{ id: 'n5', state: 'shelved' },
    shelved: { at: at(44), until: at(164), by, words: 'part is ordered' },
  }),
];
const clock: Matter = { kind: 'clockOff', server: 'plc', offset: 90_000 as never };

describe('how many notices are open', () => {
  it.each<readonly [string, Route]>([
    ['wall', { kind: 'line', layout: 'wall' }],
    ['desk', { kind: 'line', layout: 'desk' }],
    ['phone', { kind: 'line', layout: 'phone' }],
  ])('[NS1] is the same number on the %s as everywhere, with what has no row named', (_name, route) => {
    const page = drawn(route, viewWith(open, { matters: [clock] }));
    expect(page).toContain('Notices: 4 open, 1 on the shelf; 1 to answer or to know');
    expect(page).toMatch(/Not in this list: .*1 that only tells and calls nobody, 1 of a stop device\./);
    // and it is said of the same ones who is wanted: one more nobody has taken than is called for
    expect(page).toContain('Three notices are not taken');
  });

  it('[NS1] is the same number on the Notices screen, on the strip of screens and at a panel', () => {
    const view = viewWith(open, { matters: [clock] });
    expect(drawn({ kind: 'notices' }, view)).toContain('Four are open, three of them not taken.');
    expect(drawn({ kind: 'notices' }, view)).toContain('One is on the shelf.');
    expect(drawn({ kind: 'notices' }, view)).toContain('Notices\u00a04</a>');
    // at rest: what calls somebody opens by itself once it is drawn in a browser
    expect(drawn({ kind: 'panel', position: 'front' }, view)).toContain(
      '4 open, 1 on the shelf, 3 not taken',
    );
  });
});
