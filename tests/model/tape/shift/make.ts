import { writeFileSync } from 'node:fs';
import { brotliCompressSync, constants } from 'node:zlib';
import type { Change } from '../../../../model/signals/signals.ts';
import { byLineTime } from '../../../../model/signals/signals.ts';
import { drawsFrom } from '../../../../model/statistics/draws.ts';
import { HOUR, type Instant, instantFromMs, TICKS_PER_MS } from '../../../../model/units/units.ts';
import { tagsOf } from '../../../../simulator/lines/tags.ts';
import { standard } from '../../../../simulator/lines/variant.ts';
import { runUntil, startMachine } from '../../../../simulator/machine/machine.ts';
import { type ShiftFile, shiftFile } from './shift.ts';

/*
 * How `shift.json.br` was made, once (README.md says when): a shift of the bundled line as its PLC stamps it, and as a gateway
 * beside it receives it. No test runs this: what the simulator gives may change, and the figures of the tape are still
 * those of the same shift.
 */
const HOURS = 8;
const names = [...tagsOf(standard).map(({ tag }) => tag as string), 'link'];
const start = instantFromMs(Date.parse('2026-03-16T05:00:00Z'));

function made(): Change[] {
  const places = new Map(names.map((name, place) => [name, place]));
  const receivedAfter = publishes();
  return runUntil(startMachine({ seed: 1, start }), (start + HOURS * HOUR) as Instant)
    .map((fact): Change => {
      const [name, value] = 'link' in fact ? ['link', fact.link] : [fact.tag, fact.value];
      return { signal: places.get(name)!, at: fact.at, received: 0 as Instant, status: 0, value };
    })
    .sort(byLineTime)
    .map((change) => ({ ...change, received: receivedAfter(change.at) }));
}

/**
 * Publishes are 250 ms apart, or one more, as a server's timer has it; they take a millisecond or two, seldom more. So it
 * was seen over loopback.
 */
function publishes(): (at: Instant) => Instant {
  const draw = drawsFrom(20_260_316);
  let sent = 0;
  let received = 0;
  return (at) => {
    while (start + sent * TICKS_PER_MS < at) {
      sent += draw() < 0.3 ? 251 : 250;
      const delay = Math.floor(-Math.log(1 - draw()) * (draw() < 0.01 ? 10 : 0.8));
      received = Math.max(received, sent + delay);
    }
    return (start + received * TICKS_PER_MS) as Instant;
  };
}

/** What `shift.ts` reads: columns, told by their steps where they are whole numbers. */
function columns(changes: readonly Change[]): ShiftFile {
  const publishes: [number, number][] = [];
  let received = start;
  for (const change of changes) {
    if (change.received !== received || publishes.length === 0)
      publishes.push([0, (change.received - received) / TICKS_PER_MS]);
    received = change.received;
    publishes.at(-1)![0] += 1;
  }
  return {
    names,
    start,
    signals: changes.map(({ signal }) => signal),
    at: changes.map(({ at }, place) => at - (changes[place - 1]?.at ?? start)),
    publishes,
    values: names.map((_, signal) => {
      const values = changes.filter((change) => change.signal === signal).map(({ value }) => value);
      return values.every(Number.isInteger) ? { steps: steps(values as number[]) } : { values };
    }),
  };
}

function steps(values: readonly number[]): number[] {
  return values.map((value, place) => value - (values[place - 1] ?? 0));
}

const packed = brotliCompressSync(JSON.stringify(columns(made())), {
  params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24 },
});
writeFileSync(shiftFile, packed);
