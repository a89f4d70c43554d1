import { setTimeout } from 'node:timers/promises';
import { between, type Instant, instantFromMs, MINUTE, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { stream, uniform } from '../../simulator/machine/random.ts';
import type { Cable } from '../gateway/intake/proxy.ts';

/** A cable that is cut, or goes dark, at a time after the start. */
export type Outage = Extract<Fault, { readonly kind: 'cut' | 'dark' }>;

/** Once in so many minutes an outage outlasts the queues of 100 values, at least of the tags that count each cycle. */
const LONG_EVERY = 30;
const LONG_MINUTES = 6;
const kinds = ['cut', 'dark'] as const;

/** One outage a minute, of 1 to 20 s, or of nearly five minutes now and then; the kinds take turns. */
export function outagesOf(seed: number, minutes: number): readonly Outage[] {
  const draw = stream(seed, 'outages');
  const outages: Outage[] = [];
  let short = 0;
  let long = 0;
  for (let minute = 0; minute < minutes; ) {
    const isLong = minute % LONG_EVERY === 1 && minute + LONG_MINUTES <= minutes;
    const lasts = isLong ? uniform(draw, 270, 300) : uniform(draw, 1, 20);
    const room = isLong ? 30 : 60 - lasts;
    const at = Math.round(minute * MINUTE + uniform(draw, 0, room) * SECOND) as Span;
    const kind = kinds[(isLong ? long++ : short++) % kinds.length]!;
    outages.push({ kind, at, lasts: Math.round(lasts * SECOND) as Span });
    minute += isLong ? LONG_MINUTES : 1;
  }
  return outages;
}

/** Does that to a cable, from now on, and answers when it really was. `start`: where the answer's times count from. */
export async function suffer(cable: Cable, outages: readonly Outage[], start: Instant): Promise<Outage[]> {
  const began = performance.now();
  const until = (span: number) => setTimeout(Math.max(0, began + (span / SECOND) * 1000 - performance.now()));
  const real: Outage[] = [];
  for (const { kind, at, lasts } of outages) {
    await until(at);
    const broke = instantFromMs(Date.now());
    if (kind === 'cut') cable.cut();
    else cable.dark();
    await until(at + lasts);
    const mended = instantFromMs(Date.now());
    cable.mend();
    real.push({ kind, at: between(start, broke), lasts: between(broke, mended) });
  }
  return real;
}
