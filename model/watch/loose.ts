import { type Condition, noticeKey } from '../notices/condition.ts';
import { bookNumber } from '../setpoints/standing.ts';
import { epochMs } from '../units/units.ts';
import { sizeOf } from './output.ts';
import type { Watched } from './watched.ts';

/** Fewer moves than this in one direction may be the sensor's own play. */
const MOVES_LEAST = 3;

/** [WL2] Adjustments that go away from where hands left them while the line runs, by their sensors. */
export function looseConditions({ seen, rules, holding }: Watched): readonly Condition[] {
  if (!rules.loose.on) return [];
  const { index, state } = seen;
  return state.creeps.flatMap(({ adjustment: number, from, to, since, net }): readonly Condition[] => {
    const adjustment = index.line.adjustments.find((one) => one.number === number);
    if (!adjustment) return [];
    const { name, unit, decimals, station } = adjustment;
    const marks = Math.round(Math.abs(to - from) * 10 ** decimals);
    const key = noticeKey('loose', number);
    // once told it goes on until hands set it, or it is clearly back: at the border it would come and go
    const least = holding.has(key) ? rules.loose.marks / 2 : rules.loose.marks;
    if (marks < least || (net < MOVES_LEAST && !holding.has(key))) return [];
    const book = bookNumber(index.line, state, state.size, number);
    const facts = {
      kind: 'loose',
      adjustment: number,
      ...{ name, unit, decimals },
      left: from,
      reads: to,
      book,
      since: epochMs(since),
    } as const;
    return [
      {
        key,
        level: rules.levels.loose,
        facts,
        since,
        look: [],
        station,
        ...sizeOf(seen),
      },
    ];
  });
}
