import { counterStep } from '../../../model/counters/counters.ts';
import { seconds } from '../../../model/units/units.ts';
import { type Check, from, type Topic } from './check.ts';

const U16 = 65_536;
const U32 = 4_294_967_296;

/** Ten seconds at 60 a minute. */
function step(before: number, now: number, wraps: number): Check['got'] {
  return () => {
    const { gained, mark } = counterStep(before, now, wraps, seconds(10), 60);
    return [gained, mark];
  };
}

export const counterSteps: Topic = {
  title: 'Counters',
  about: 'What a step of a counter means, ten seconds apart at 60 a minute.',
  checks: from('[K] by the widths of the types; PackML Int32 from OPC 30050 [F]', [
    ['16 bits, 65530 to 3', '9, rollover', step(65_530, 3, U16)],
    ['32 bits, 4294967290 to 5', '11, rollover', step(4_294_967_290, 5, U32)],
    [
      'PackML Int32 that shows its last value, 2147483640 to 2',
      '10, rollover',
      step(2_147_483_640, 2, 2 ** 31),
    ],
    [
      'PackML Int32 that shows 0 in its place, 2147483640 to 2',
      '9, rollover',
      step(2_147_483_640, 2, 2 ** 31 - 1),
    ],
    ['signed 32 bits, 2147483647 to -2147483648', '1, rollover', step(2_147_483_647, -2_147_483_648, U32)],
    ['16 bits, 40000 to 0', '0, reset', step(40_000, 0, U16)],
    ['16 bits, 500 to 498', '0, correction', step(500, 498, U16)],
  ]),
};
