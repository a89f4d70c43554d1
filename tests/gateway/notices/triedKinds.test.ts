import { describe, expect, it } from 'vitest';
import { tried as answer } from '../../../gateway/notices/lineNoticesSchema.ts';
import { triedOf } from '../../../gateway/notices/tried.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';
import type { Rows } from '../../model/smallLine.ts';
import { siteForTest } from '../api/web.ts';
import { entry } from '../live/shell.ts';
import { runsWith, standing } from './jammed.ts';

/** A press that stops the line, and the line started again. */
const pressAt = (second: number): Rows => [
  [second, 'panel', true],
  [second + 0.1, 'state', 9],
  [second + 5, 'panel', false],
  [second + 40, 'state', 6],
];

describe('what the settings in use would have told', () => {
  it('[NT1] is told of each kind and each person, by rules and people that were set since', async () => {
    const { live, records, take } = await standing(runsWith(3, 2, 4, 3, 2, 12, 3, 40));
    const last = (await triedOf(records, live, 30)).ofKinds;
    const kindOf = (kinds: typeof last.kinds, kind: string) => kinds.find((one) => one.kind === kind)!;
    expect(kindOf(last.kinds, 'press').said).toEqual({ kind: 'counted', notices: 0, joined: 0 });
    expect(kindOf(last.kinds, 'stopsCounted').said).toEqual({ kind: 'off' });
    for (const kind of ['rejects', 'loose', 'server', 'disk', 'clock'] as const)
      expect(kindOf(last.kinds, kind).said).toEqual({ kind: 'untold', why: kind });
    const stops = kindOf(last.kinds, 'stops').said;
    expect(stops.kind === 'counted' && stops.notices + stops.joined).toBeGreaterThan(0);
    expect(last.people).toEqual([]);

    const second = Math.ceil((live.now() - live.fold().state.shift.from) / 1e7) + 1e5;
    await take([...pressAt(second), ...pressAt(second + 600)]);
    const plain = { on: true, stops: 3, within: { kind: 'cartons', cartons: 5000 } } as const;
    const recipients = [{ person: '12', ways: ['mail'], when: { quiet: [] } }];
    await live.enter(
      entry('e1', second + 700, {
        kind: 'noticeSettings',
        why: 'plainer',
        settings: {
          when: {
            ...FIRST_SETTINGS.when,
            stops: { ...FIRST_SETTINGS.when.stops, on: false },
            stopsCounted: plain,
          },
          who: { recipients, rotas: [], plans: [] },
        },
      }),
    );
    const now = (await triedOf(records, live, 30)).ofKinds;
    expect(kindOf(now.kinds, 'press').said).toEqual({ kind: 'counted', notices: 2, joined: 0 });
    expect(kindOf(now.kinds, 'stops').said).toEqual({ kind: 'off' });
    const counted = kindOf(now.kinds, 'stopsCounted').said;
    expect(counted.kind === 'counted' && counted.notices).toBeGreaterThan(2);
    const all = now.kinds.reduce((sum, { said }) => sum + (said.kind === 'counted' ? said.notices : 0), 0);
    expect(now.people).toEqual([{ person: '12', notices: all }]);
  });

  it('[NT1] is left undone when nobody waits for it any more', async () => {
    const { live, records } = await standing(runsWith(3, 2, 4, 3, 30));
    const gone = new AbortController();
    const asked = triedOf(records, live, 30, { gone: gone.signal });
    gone.abort();
    await expect(asked).rejects.toThrow(/abort/i);
  });

  it('[NT1] is answered under the address of the line, where nothing is recorded yet with that as why', async () => {
    const { get } = await siteForTest();
    const told = answer.parse(await (await get('/api/lines/small/notices/tried?days=30')).json());
    expect(told.ofKinds.kinds.map(({ kind }) => kind)).toContain('press');
    expect(told.ofKinds.kinds.length).toBe(14);
    const empty = await siteForTest({ unheard: true });
    const none = answer.parse(await (await empty.get('/api/lines/small/notices/tried')).json());
    expect(none.ofKinds.kinds[0]!.said).toEqual({ kind: 'untold', why: 'noRecords' });
  });

  it('[NT1] is told of settings that are sent along as well, and nothing of them is kept', async () => {
    const { address, live } = await siteForTest();
    const before = live.position();
    const post = async (body: object) =>
      await fetch(`${address}/api/lines/small/notices/tried?days=30`, {
        ...{ method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) },
      });
    const when = { ...FIRST_SETTINGS.when, press: { on: false } };
    const response = await post({ settings: { ...FIRST_SETTINGS, when } });
    const { ofKinds } = answer.parse(await response.json());
    expect(ofKinds.kinds.find(({ kind }) => kind === 'press')!.said).toEqual({ kind: 'off' });
    expect(live.position()).toBe(before);
    expect((await post({ settings: { when } })).status).toBe(400);
  });
});
