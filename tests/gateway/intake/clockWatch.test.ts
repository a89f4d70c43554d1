import { describe, expect, it } from 'vitest';
import { ClockSteps } from '../../../gateway/intake/clockSteps.ts';
import { ClockWatch } from '../../../gateway/intake/clockWatch.ts';
import type { Message } from '../../../gateway/intake/connection.ts';
import { LineTime } from '../../../gateway/intake/lineTime.ts';
import { ClockOffset } from '../../../gateway/intake/offset.ts';

const NOON = Date.UTC(2026, 0, 15, 12);

/** One value with a stamp of a clock that is ahead by so many milliseconds. */
function message(seconds: number, ahead: number): Message {
  const received = NOON + seconds * 1000;
  const ms = received + ahead;
  const stamps = { sourceMs: ms, sourceTicks: 0, serverMs: ms, serverTicks: 0 };
  const value = { item: 0, status: 0, wire: { dataType: 7, scalar: true, value: 1 }, ...stamps };
  const publish = { life: 1, number: 1, keepAlive: false, more: false };
  return { kind: 'message', ...publish, received, size: 1, values: () => [value] };
}

describe('whether a clock was set', () => {
  const read = (steps: ClockSteps, readings: readonly (readonly [number, number])[]) =>
    readings.map(([server, steady]) => steps.read(server, steady));

  it('readings that go on as fast as a steady clock say that nobody set it, and so do some milliseconds a second', () => {
    expect(
      read(new ClockSteps(), [
        [0, 0],
        [10_000, 10_000],
        [20_015, 20_000],
      ]),
    ).toEqual([0, 0, 0]);
  });

  it('tells by how much, forward and back, and goes on from there', () => {
    const readings = [
      [0, 0],
      [2000, 2000],
      [3_612_000, 12_000],
      [3_622_000, 22_000],
      [22_030, 32_000],
    ] as const;
    expect(read(new ClockSteps(), readings)).toEqual([0, 0, 3_600_000, 0, -3_609_970]);
  });

  it('a step that is a whole minute but for what the reading took is one', () => {
    expect(
      read(new ClockSteps(), [
        [0, 0],
        [2000, 2000],
        [72_050, 12_000],
      ]),
    ).toEqual([0, 0, 60_000]);
  });

  it('a reading that was long under way tells no more than it can', () => {
    const steps = new ClockSteps();
    read(steps, [
      [0, 0],
      [2000, 2000],
    ]);
    // asked at 10 s and answered at 20 s: it may have been read at either
    expect(steps.read(10_200, 15_000, true, 5000)).toBe(0);
    expect(steps.read(3_615_200, 20_000, true, 100)).toBe(3_600_000);
  });

  it('a clock that runs ten times too fast was not set, until it jumps by more', () => {
    const steps = new ClockSteps();
    expect(
      read(steps, [
        [0, 0],
        [25_000, 2500],
        [130_000, 12_500],
        [3_830_000, 22_500],
      ]),
    ).toEqual([0, 0, 0, 3_600_000]);
    expect(steps.wrongBy(3_840_000, 23_500, 250)).toBe(0);
  });

  it('a stamp that is late, or early, is suspected; one that took the time it may take is not', () => {
    const steps = new ClockSteps();
    read(steps, [
      [0, 0],
      [2000, 2000],
    ]);
    expect([2900, 800, -400, 5500].map((stamp) => steps.wrongBy(stamp, 3000, 250))).toEqual([
      0, 0, -3400, 2500,
    ]);
  });

  it('what an earlier run knew is held against the first reading, unless the values read with it are of another time', () => {
    const seeded = () => {
      const steps = new ClockSteps();
      steps.seed(1_000_000, -60_000);
      return steps;
    };
    expect(seeded().read(1_060_000, 0)).toBe(0);
    expect(seeded().read(4_660_000, 0)).toBe(3_600_000);
    expect(seeded().read(4_660_000, 0, false)).toBe(0);
    // a minute of drift in two days is none
    const long = new ClockSteps();
    long.seed(0, -172_800_000);
    expect(long.read(172_860_000, 0)).toBe(0);
  });
});

describe('the watch of two clocks', () => {
  it('a clock is read once a second at most, however many stamps look wrong', () => {
    let steady = 0;
    const time = new LineTime('utc', 'Europe/Berlin');
    const now = () => ({ wall: NOON + steady, steady });
    const watch = new ClockWatch({ offset: new ClockOffset(), time, now });
    const reading = () => ({ serverMs: NOON + steady, asked: now(), answered: now() });
    watch.read(reading());
    steady = 3000;
    watch.read(reading());
    const suspected = [3.1, 3.2, 3.9, 4.2, 4.4, 5.3].map((second) => {
      steady = second * 1000;
      return watch.suspects(message(second, -20_000), 250);
    });
    expect(suspected).toEqual([true, false, false, true, false, true]);
  });

  it('stamps that are always wrong do not hide a clock that is set, and cost four readings a second at most', () => {
    let steady = 0;
    const time = new LineTime('utc', 'Europe/Berlin');
    const now = () => ({ wall: NOON + steady, steady });
    const watch = new ClockWatch({ offset: new ClockOffset(), time, now });
    const reading = () => ({ serverMs: NOON + steady, asked: now(), answered: now() });
    watch.read(reading());
    steady = 3000;
    watch.read(reading());
    const suspects = (second: number, server: number) => {
      steady = second * 1000;
      return watch.suspects(message(second, server), 250);
    };
    expect(suspects(3.1, -20_000)).toBe(true);
    expect(suspects(3.2, -20_000)).toBe(false);
    // a tenth of a second later somebody sets the clock by an hour
    expect(suspects(3.3, 3_600_000)).toBe(true);
    const wild = [3.4, 3.5, 3.6, 3.7, 3.8].map((second) => suspects(second, second * 100_000));
    expect(wild).toEqual([true, true, false, false, false]);
    expect(suspects(4.4, -20_000)).toBe(true);
  });
});
