import { describe, expect, it } from 'vitest';
import { replayAddress } from '../../../model/replay/address.ts';

const at = 1_773_738_000_000;

describe('where a replay opens', () => {
  it('[RP20] is a minute before, of this line, with the station that it is about', () => {
    expect(replayAddress({ line: 'line 3', at, station: 'bottom-major' })).toBe(
      `/replay?line=line%203&at=${at - 60_000}&of=${at}&wide=5&station=bottom-major`,
    );
  });

  it.each([
    ['a moment', undefined, '5'],
    ['15 s', 15_000, '5'],
    ['a minute and a half', 90_000, '10'],
    ['five minutes: the usual window', 300_000, undefined],
    ['a changeover of 14 min', 840_000, '60'],
    ['what is longer than any window', 7_200_000, '60'],
    ['what ends before it begins, by a clock that was set', -5_000, '5'],
  ])('[RP20] has a window in which it is seen whole: %s', (_name, lasted, wide) => {
    const address = replayAddress({
      line: 'line3',
      at,
      ...(lasted === undefined ? {} : { until: at + lasted }),
    });
    expect(new URLSearchParams(address.split('?')[1]).get('wide') ?? undefined).toBe(wide);
  });
});
