import { describe, expect, it } from 'vitest';
import { type AroundStop, aroundStop } from '../../../model/past/around.ts';
import { at, boundSignals, changes, type Rows, smallLine } from '../smallLine.ts';
import { recorded } from './recorded.ts';

const line = smallLine(
  { conditions: [{ id: 'vacuum', name: 'pick vacuum', unit: 'kPa', normal: [-65, -50] }] },
  [...boundSignals, { id: 'vacuum', role: 'condition', of: 'vacuum' }],
);
const BEGAN = 100;

function around(rows: Rows, now = 200): AroundStop {
  const { index } = recorded(line, []).fold;
  const stop = { id: 'one', begin: at(BEGAN) };
  return aroundStop(index, stop, { changes: changes(line, rows), whole: true, now: at(now) });
}

const laneOf = ({ lanes, unmoved }: AroundStop, id: string) => ({
  shown: lanes.find((lane) => lane.id === id),
  unmoved: unmoved.find((lane) => lane.id === id),
});

describe('what the PLC said around a stop', () => {
  it('begins with what each signal told last before, and holds 10 s before and after by line time, late or not', () => {
    const found = around([
      [100, 'state', 11],
      [30, 'state', 6],
      [109.9, 'state', 4],
      [110, 'state', 6],
    ]);
    expect(laneOf(found, 'state').shown!.readings).toEqual([
      { after: -10_000, value: 6, means: 'Execute' },
      { after: 0, value: 11, means: 'Held' },
      { after: 9900, value: 4, means: 'Idle' },
    ]);
  });

  it('names reasons and their station, and tells an unchanged value once', () => {
    const found = around([
      [99.5, 'reason', 51],
      [101, 'reason', 51],
      [95, 'door', false],
      [50, 'panel', false],
    ]);
    expect(laneOf(found, 'reason').shown!.readings).toEqual([
      { after: -500, value: 51, means: 'tuck jam, fold' },
    ]);
    expect(laneOf(found, 'door').shown!.of).toBe('guard door 1');
    expect(laneOf(found, 'panel')).toMatchObject({ shown: undefined, unmoved: { of: 'main panel' } });
  });

  it('[CV1] a value with a bad code is not known, and what told nothing is not among it', () => {
    const found = around([
      [95, 'door', false],
      [98, 'door', true, 0x80000000],
    ]);
    expect(laneOf(found, 'door').shown!.readings.map(({ value }) => value)).toEqual([false, null]);
    expect(laneOf(found, 'mode')).toEqual({ shown: undefined, unmoved: undefined });
  });

  it('keeps a condition with its normal range in sight though it did not move, and tells only what left it before', () => {
    const still = around([[40, 'vacuum', -57]]);
    expect(laneOf(still, 'vacuum').shown).toMatchObject({ normal: [-65, -50], outside: false, unit: 'kPa' });
    const left = (second: number) =>
      laneOf(
        around([
          [40, 'vacuum', -57],
          [second, 'vacuum', -40],
        ]),
        'vacuum',
      ).shown!.outside;
    expect([left(99), left(101)]).toEqual([true, false]);
  });

  it('goes no further than now, and draws no more than a bounded list', () => {
    expect(around([[100, 'state', 11]], 103).until).toBe(3000);
    const beats: Rows = Array.from({ length: 150 }, (_, n) => [91 + n * 0.1, 'heartbeat', n] as const);
    const { readings, more } = laneOf(around(beats), 'heartbeat').shown!;
    expect([readings.length, more]).toEqual([80, 70]);
  });
});
