import { expect, it } from 'vitest';
import { flapLines } from '../../../dashboard/path/station.tsx';
import type { LineView } from '../../../model/view/view.ts';
import { type Layout, written } from '../draw.tsx';
import { views } from '../views/views.ts';

const { justStarted, long, quiet } = views;

it('[LO7] more than planned is said in words, and no number below zero stands', () => {
  for (const layout of ['wall', 'desk', 'phone'] satisfies Layout[]) {
    const words = written(layout, justStarted);
    expect(words).toMatch(/12 more than planned so far|12 cartons more than planned so far/);
    expect(words).toMatch(/232 good − 220 planned so far|232 good − 220/);
    expect(words).toContain('15 made up');
    expect(words).not.toMatch(/[-−]\d/);
  }
});

it('a thousand cartons at no one station leave room for their cause', () => {
  const { path } = views.stopped;
  const causes = [{ cause: 'changeover', cartons: 1027 }] as const;
  const many: LineView = { ...views.stopped, path: { ...path, none: { lost: 1027, causes } } };
  expect(written('wall', many)).toMatch(/changeover\s*1,027/);
});

it('a number on a flap is never cut', () => {
  const wide = long.path.stations.find(({ rejects }) => rejects?.normal === 104)!;
  expect(flapLines(wide, 156)).toEqual(['**1,000 rejects**,', 'normal 104']);
  expect(flapLines(wide)).toEqual(['**1,000 rejects** in', '1,000, normal 104']);
  expect(written('wall', long)).toContain('normal 104');
  expect(written('wall', long)).not.toContain('normal 1…');
});

it('after a change of blend no size is named as the one before', () => {
  const blend: LineView = {
    ...quiet,
    changeover: { ...quiet.changeover, kind: 'artwork', from: undefined },
  };
  const words = written('wall', blend);
  expect(words).toContain('since changeover');
  expect(words).toContain('of blend');
  expect(words).not.toContain('from Sachet');
});
