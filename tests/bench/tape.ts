import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { divide, seal } from '../../gateway/tape/segments.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import { decode, encode } from '../../model/tape/codec.ts';
import { HOUR, type Instant, instantFromMs } from '../../model/units/units.ts';
import { tagsOf } from '../../simulator/lines/tags.ts';
import { standard } from '../../simulator/lines/variant.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { signals } from '../gateway/tape/stretch.ts';
import type { Figure } from './run.ts';

const HOURS = 8;
/** Publishing interval in ticks: 250 ms. */
const PUBLISH = 2_500_000;
const names = [...tagsOf(standard).map(({ tag }) => tag), 'link'];
/**
 * What a shift of the simulated line costs on the tape: bytes a change in sealed segments, beside the same changes as
 * deflated JSON; and how fast they are packed, opened, appended batch by batch, imported and read.
 */
export async function measure(): Promise<Figure> {
  const changes = shift();
  const { sealed, rest } = divide([], changes);
  const segments = [...sealed, rest];
  const packed = timed(() => segments.map((segment) => encode(segment)));
  const opened = timed(() => packed.result.map((blob) => decode(blob)));
  const stored = timed(() => segments.map((segment) => seal(segment)));
  const json = segments.map((segment) => deflateSync(JSON.stringify(segment), { level: 6 }));
  const perChange = (blobs: readonly Uint8Array[]) => sum(blobs) / changes.length;
  const rate = (ms: number) => Math.round((changes.length / ms) * 1000);
  const value = perChange(stored.result);
  const reference = perChange(json);
  return {
    value,
    unit: 'bytes/change',
    reference,
    ratio: value / reference,
    changes: changes.length,
    bytesBeforeDeflate: perChange(packed.result),
    encodePerSecond: rate(packed.ms),
    decodePerSecond: rate(opened.ms),
    sealPerSecond: rate(stored.ms),
    ...(await onDisk(changes, rate)),
  };
}

/** A shift as a gateway receives it: what each publishing interval brought comes a few milliseconds after its end. */
function shift(): Change[] {
  const start = instantFromMs(Date.parse('2026-03-16T05:00:00Z'));
  const machine = startMachine({ seed: 1, start });
  const places = new Map(names.map((name, place) => [name, place]));
  return runUntil(machine, (start + HOURS * HOUR) as Instant)
    .map((fact): Change => {
      const { at } = fact;
      const interval = Math.floor(at / PUBLISH) + 1;
      const received = (interval * PUBLISH + (interval % 9) * 10_000) as Instant;
      const [name, value] = 'link' in fact ? ['link', fact.link] : [fact.tag, fact.value];
      return { signal: places.get(name as string)!, at, received, status: 0, value };
    })
    .sort(byLineTime);
}

async function onDisk(
  changes: readonly Change[],
  rate: (ms: number) => number,
): Promise<Record<string, number>> {
  const folder = mkdtempSync(join(tmpdir(), 'tape-'));
  const lines = new Map([['line-3', signals(...names)]]);
  const tape = await openSqliteTape(folder, lines);
  const imported = process.cpuUsage();
  await tape.importSealed('line-3', [changes]);
  const importMs = spent(imported);
  let seen = 0;
  let readMs = 0;
  for (let turn = 0; turn < 2; turn += 1) {
    seen = 0;
    const read = process.cpuUsage();
    for await (const chunk of tape.read('line-3', 0, Number.POSITIVE_INFINITY)) seen += chunk.length;
    readMs = spent(read);
  }
  if (seen !== changes.length) throw new Error(`${seen} of ${changes.length} changes were read`);
  const first = changes.slice(0, Math.ceil(changes.length / 16));
  const batches = new Map<Instant, Change[]>();
  for (const change of first) batches.set(change.received, [...(batches.get(change.received) ?? []), change]);
  const live = await openSqliteTape(join(folder, 'live'), lines);
  const began = performance.now();
  for (const batch of batches.values()) await live.append('line-3', batch);
  const appended = performance.now() - began;
  await live.close();
  await tape.close();
  rmSync(folder, { recursive: true });
  return {
    importPerSecond: rate(importMs),
    readPerSecond: rate(readMs),
    batches: batches.size,
    msPerDurableBatch: appended / batches.size,
  };
}

function timed<Result>(act: () => Result): { readonly result: Result; readonly ms: number } {
  act();
  const before = process.cpuUsage();
  const result = act();
  return { result, ms: spent(before) };
}

/** Processor time since then in milliseconds: what else the machine does counts little. */
function spent(before: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function sum(blobs: readonly Uint8Array[]): number {
  return blobs.reduce((total, { length }) => total + length, 0);
}
