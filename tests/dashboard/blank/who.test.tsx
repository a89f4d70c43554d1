import { describe, expect, it } from 'vitest';
import type { Matter } from '../../../model/view/matter.ts';
import type { LineView } from '../../../model/view/view.ts';
import { written } from '../draw.tsx';
import { ms, t } from '../views/build.ts';
import { views } from '../views/views.ts';

const { changeover, offShift, pause, quiet, starved, stopped } = views;
const layouts = ['wall', 'desk', 'phone'] as const;
const guard: Matter = {
  kind: 'guardOpenRunning',
  guard: 'guard door 2',
  at: t('09:10:00'),
  lasted: ms(0, 4),
  id: 'g1',
};
const device: Matter = {
  kind: 'devicePressedRunning',
  device: 'main panel',
  at: t('09:11:00'),
  lasted: undefined,
  id: 'd1',
};
const button: Matter = {
  kind: 'whichButton',
  press: 'p7',
  at: t('09:06:00'),
  candidates: [
    { id: 'a', name: 'main panel' },
    { id: 'b', name: 'loading front' },
  ],
};
const [abnormal, unexplained] = stopped.matters as [Matter, Matter];
const older: Matter = { kind: 'olderFindings', count: 3, id: 'older' };
const told: Matter = { kind: 'notSeen', from: t('08:50:00'), to: t('08:56:00') };

function running(...matters: readonly Matter[]): LineView {
  return { ...quiet, matters };
}

describe.each(layouts)('who is needed, on the %s', (layout) => {
  it('is nobody only while the line runs and no notice wants a person', () => {
    for (const view of [running(), running(told)])
      expect(written(layout, view)).toContain('Nobody is needed');
    for (const view of [changeover, offShift, pause, starved, stopped, views.lost, views.stale])
      expect(written(layout, view)).not.toContain('Nobody is needed');
    for (const matter of [guard, device, button, abnormal, unexplained, older])
      expect(written(layout, running(told, matter))).not.toContain('Nobody is needed');
  });

  it('is said with where and what for', () => {
    for (const [view, said] of [
      [starved, 'Someone is wanted at loading: no sachets'],
      [pause, 'The crew is wanted: the break is over'],
      [
        { ...pause, head: { ...pause.head, over: false } as LineView['head'] },
        'The crew is wanted again by 09:50',
      ],
      [changeover, 'Wanted until it runs at rate'],
      [offShift, 'No shift now, nobody is expected'],
      [running(guard), 'Someone is wanted: guard door 2 read open while it ran'],
      [running(device), 'Someone is wanted: main panel read pressed while it ran'],
      [running(abnormal), 'Someone is wanted: bottom major flap is far above its own normal'],
      [running(button), 'Someone is wanted: which stop button at 09:06?'],
      [running(unexplained), 'One stop has no reason yet'],
      [running(guard, button, unexplained), 'Three things want an answer'],
    ] as const)
      expect(written(layout, view)).toContain(said);
  });
});
