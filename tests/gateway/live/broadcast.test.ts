import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { startBroadcast } from '../../../gateway/live/broadcast.ts';
import type { LineView } from '../../../model/view/view.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { stand } from './shell.ts';

const line = smallLine();
type Message = { number: number; parts: Partial<LineView> };

beforeEach(
  () =>
    void vi.useFakeTimers({
      toFake: ['setInterval', 'clearInterval', 'setTimeout', 'clearTimeout', 'performance'],
    }),
);
afterEach(() => void vi.useRealTimers());

async function broadcast() {
  const stood = await stand(line);
  await stood.live.offer(changes(line, running()));
  const told: Message[] = [];
  const started = startBroadcast(stood.live, (message) => told.push(message));
  return { ...stood, ...started, told };
}

describe('what screens are told', () => {
  it('once a second: the parts that changed, and no others', async () => {
    const { live, told, stop, clock } = await broadcast();
    await live.offer(changes(line, goods(1, 5, 1)));
    clock.second = 5;
    expect(told).toEqual([]);
    vi.advanceTimersByTime(1000);
    expect(told).toHaveLength(1);
    expect(told[0]!.parts.plan?.good).toBe(5);
    expect(told[0]!.parts).not.toHaveProperty('devices');
    expect(told[0]!.parts).not.toHaveProperty('line');
    stop();
    vi.advanceTimersByTime(5000);
    expect(told).toHaveLength(1);
  });

  it('at once when something happened, and a burst as one', async () => {
    const { live, told, stop, clock } = await broadcast();
    clock.second = 3;
    vi.advanceTimersByTime(100);
    await live.offer(changes(line, [[2, 'state', 11]]));
    await live.offer(changes(line, [[2.1, 'panel', true]]));
    await live.offer(changes(line, [[2.2, 'door', true]]));
    vi.advanceTimersByTime(40);
    expect(told).toHaveLength(1);
    expect(told[0]!.parts.head?.kind).toBe('pressed');
    expect(told[0]!.parts.devices?.devices[0]).toMatchObject({ id: 'panel', reads: 'pressed' });
    stop();
  });

  it('a part that is there no more is told as null, whether it is undefined or gone', async () => {
    const { live, clock } = await stand(line);
    await live.offer(changes(line, running()));
    const view = { ...live.view() } as Record<string, unknown>;
    const told: Message[] = [];
    const shown = { ...live, view: () => ({ ...view }) as unknown as LineView, onEvents: () => () => {} };
    const { stop } = startBroadcast(shown, (message) => told.push(message));
    expect(view.head).toBeDefined();
    view.head = undefined;
    delete view.plan;
    clock.second = 1;
    vi.advanceTimersByTime(2000);
    expect(told.map(({ parts }) => JSON.parse(JSON.stringify(parts)))).toEqual([
      { head: null, plan: null },
      {},
    ]);
    stop();
  });

  it('parts, put over the whole view one by one, give the whole view', async () => {
    const { live, told, stop, clock, current } = await broadcast();
    let shown = JSON.parse(JSON.stringify(current().view)) as Record<string, unknown>;
    let { number } = current();
    const rows = [...goods(1, 9, 1), [10, 'state', 11], [10, 'reason', 51], [40, 'state', 6]] as const;
    for (const row of [...rows, ...goods(41, 50, 10)] as Parameters<typeof changes>[1]) {
      clock.second = row[0];
      await live.offer(changes(line, [row]));
      vi.advanceTimersByTime(1000);
    }
    for (const message of told) {
      expect(message.number).toBe(number + 1);
      number = message.number;
      shown = { ...shown, ...(JSON.parse(JSON.stringify(message.parts)) as object) };
    }
    for (const [key, value] of Object.entries(shown)) if (value === null) delete shown[key];
    expect(number).toBe(current().number);
    expect(shown).toEqual(JSON.parse(JSON.stringify(live.view())));
    stop();
  });
});
