import { z } from 'zod';
import { AROUND, type AroundStop, aroundStop } from '../../model/past/around.ts';
import type { Instant } from '../../model/units/units.ts';
import { stretchOf } from '../tape/stretch.ts';
import type { PastRead } from './asOf.ts';

export const aroundQuery = z.object({ stop: z.string().min(1).max(20) });

/** What the tape holds around a stop's beginning; undefined where there is no such stop. */
export async function aroundOf(
  { records, live, tape }: PastRead,
  { stop: id }: z.infer<typeof aroundQuery>,
): Promise<AroundStop | undefined> {
  const { line } = live;
  // a stop is called by the moment at which it began
  const begin = Number.parseInt(id, 36) as Instant;
  const stop = Number.isSafeInteger(begin)
    ? records
        .ask({ line: line.id, kind: 'stop', from: begin, to: (begin + 1) as Instant })
        .find((one) => one.id === id)
    : undefined;
  if (!stop) return undefined;
  const from = (stop.begin - AROUND) as Instant;
  const found = await stretchOf(tape, line, { from, to: (stop.begin + AROUND) as Instant });
  return aroundStop(live.fold().index, stop, { ...found, now: live.now() });
}
