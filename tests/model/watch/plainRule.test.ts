import { describe, expect, it } from 'vitest';
import { type Instant, minutes } from '../../../model/units/units.ts';
import { isCalled, plainOnceInShifts } from '../../../model/watch/plainRule.ts';

const stops = [0, 10, 25, 40].map((minute) => ({
  at: (minute * 1000) as Instant,
  ran: minutes(minute),
  cartons: 60 * minute,
}));
const after = (minute: number) => ({ stops, ran: minutes(minute), cartons: 60 * minute });

describe('so many stops within so long', () => {
  it('[NO4] the plain rule is met while so many stops lie within its minutes of running, and tells since when', () => {
    const rule = { stops: 3, within: { kind: 'minutes', minutes: 31 } } as const;
    expect(isCalled(rule, after(40))).toEqual({ since: 10_000, stops: 3 });
    // the window is (t − 31 min, t]: the stop at 10 min is out of it at 41 min
    expect(isCalled(rule, after(41))).toBeUndefined();
    expect(isCalled(rule, { stops: [], ran: minutes(5), cartons: 300 })).toBeUndefined();
  });

  it('[NO4] or within its cartons', () => {
    const rule = { stops: 2, within: { kind: 'cartons', cartons: 1000 } } as const;
    expect(isCalled(rule, after(40))).toEqual({ since: 25_000, stops: 2 });
    expect(isCalled(rule, { ...after(40), cartons: 2500 })).toBeUndefined();
  });

  it('[NO4] its false calls come as often as the exact rate of new alarms says', () => {
    // one stop an hour, three within 30 minutes: 0.606531 new ones in eight hours (tests/published/checks/clusters.ts)
    const rule = { stops: 3, within: { kind: 'minutes', minutes: 30 } } as const;
    expect(1 / plainOnceInShifts(rule, { perShift: 8, shift: 480 })).toBeCloseTo(0.606531, 6);
    const cartons = { stops: 3, within: { kind: 'cartons', cartons: 1500 } } as const;
    expect(1 / plainOnceInShifts(cartons, { perShift: 8, shift: 24_000 })).toBeCloseTo(0.606531, 6);
  });
});
