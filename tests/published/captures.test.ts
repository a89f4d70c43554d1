import { describe, expect, it } from 'vitest';
import type { FoldState } from '../../model/fold/state.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Change } from '../../model/signals/signals.ts';
import { overflowed, severity } from '../../model/status/status.ts';
import { between, type Instant, instantFromMs } from '../../model/units/units.ts';
import { smallLine } from '../model/smallLine.ts';
import { type Capture, readCapture, type TagValue, type Truth } from './captures/capture.ts';
import { type Replayed, replay } from './captures/replay.ts';

/*
 * Recorded traffic of two independent OPC UA server stacks, an open C stack (open62541 1.5) and a Python one
 * (opcua-asyncio 2.0), beside every value that the server's program really set: what was received goes through the intake
 * and the fold, and is held against the truth. captures/README.md has the format.
 */

const SECOND_TICKS = 10_000_000;
const BAD = 0x80050000;
/** A gap may be this much longer than its cause (rule of the record: no more than 10 s a fault). */
const GAP_SLACK = 10 * SECOND_TICKS;
const stations = ['Erector', 'Loader', 'Closer'];
const kinds = ['CountIn', 'CountOut', 'CountReject', 'CycleCount', 'Count16'];
const reasons = ['Glue', 'Jam', 'Missing', 'Skew', 'Barcode', 'Weight'].map((name) => `Reject${name}`);
const counters = stations.flatMap((station) =>
  [...kinds, ...reasons].map((kind) => `Line.${station}.${kind}`),
);

/** How each recording is taken: by the server's stamps or the time of receipt, with a quick reading and a slow one. */
const ways = (['utc', 'received'] as const).flatMap((clock) => [0, 40].map((readMs) => ({ clock, readMs })));

interface Seen {
  readonly capture: Capture;
  readonly tape: Replayed;
}

async function seen(name: string, way: (typeof ways)[number]): Promise<Seen> {
  const capture = readCapture(name);
  expect(capture.tags).toHaveLength(60);
  return { capture, tape: await replay(capture, way.clock, way.readMs) };
}

/** A small line whose good cartons are one of the recording's counters, folded change by change. */
function folded({ tape }: Seen, counter: string): { readonly state: FoldState; readonly counts: number[] } {
  const places = ['Line.StateCode', 'Line.EStop', counter];
  const line = smallLine({}, [
    { id: 'state', role: 'state' },
    { id: 'panel', role: 'stopDevice', of: 'panel', type: 'boolean' },
    { id: 'good', role: 'goodCount', wraps: counter.endsWith('16') ? 65_536 : 4_294_967_296 },
    { id: 'link', role: 'link', type: 'boolean' },
  ]);
  const fold = new LineFold(line);
  const counts: number[] = [];
  for (const change of tape.changes) {
    const { id } = tape.signals[change.signal] ?? { id: 'link' };
    const signal = id === 'link' ? places.length : places.indexOf(id);
    if (signal < 0) continue;
    fold.take([{ ...change, signal }]);
    counts.push(fold.state.shift.account.good);
  }
  return { state: fold.state as FoldState, counts };
}

/** The program's settings of a tag from the one first told to the one last told. */
function toldTruth({ capture }: Seen, tag: string): readonly Truth[] {
  const told = capture.heard.flatMap((one) => (one.kind === 'publish' ? one.told : []));
  const sources = told.filter((one) => one.tag === tag).map(({ source }) => source);
  const truth = capture.truth.get(tag)!;
  const first = Math.min(...sources);
  const last = Math.max(...sources);
  const from = truth.findLastIndex(({ at }) => at <= first);
  return truth.slice(from, truth.findLastIndex(({ at }) => at <= last) + 1);
}

/** The program puts its 16-bit counters so near their end, at once: nobody made that. */
const PUT_NEAR_END = 65_000;

/** What a counter really made: a step back is a roll-over of 16 bits, or else it began again from zero. */
function made(truth: readonly Truth[]): { readonly cartons: number; readonly resets: number } {
  const numbers = truth.map(({ value }) => value as number);
  let cartons = 0;
  let resets = 0;
  for (const [place, now] of numbers.slice(1).entries()) {
    const before = numbers[place]!;
    const rolled = before === 65_535 && now === 0;
    if (now < before && !rolled) resets += 1;
    cartons += rolled ? 1 : now < before ? now : now - before > PUT_NEAR_END ? 0 : now - before;
  }
  return { cartons, resets };
}

const links = ({ tape }: Seen) =>
  tape.changes.filter(({ signal }) => signal === tape.link).map(({ value }) => value);

const marked = ({ counterMarks }: FoldState, mark: string) =>
  counterMarks.filter((one) => one.mark === mark).length;

/** When the client said so, on the line's time: both clocks are one in these recordings. */
function event({ capture }: Seen, name: string): Instant {
  const one = capture.heard.find((heard) => heard.kind === 'event' && heard.name === name);
  if (!one) throw new Error(`The recording has no ${name}`);
  return instantFromMs(one.received);
}

/** What stands for a value in comparisons: of a bad one nothing but that it is bad. */
const meant = ({ value, status }: { readonly value: TagValue; readonly status: number }) =>
  severity(status) === 'bad' ? `bad ${status}` : String(value);

/** Values that the program set between the first and the last told and that are not on the tape. */
function missing(one: Seen, tag: string): readonly Truth[] {
  const [, ...truth] = toldTruth(one, tag);
  const there = new Set(one.tape.of(tag).map((change) => `${change.at} ${meant(change)}`));
  return truth.filter((set) => !there.has(`${set.at} ${meant(set)}`));
}

/** Every value on the tape was set by the program, in this order, and stands there once. */
function expectTrue(one: Seen): void {
  for (const tag of one.capture.tags) {
    const truth = one.capture.truth.get(tag)!.map(meant);
    const tape = inLineTime(one.tape.of(tag)).map(meant);
    let place = -1;
    for (const value of tape) {
      place = truth.indexOf(value, place + 1);
      expect(place, `${tag}: ${value} in ${tape.join(' ')}`).toBeGreaterThanOrEqual(0);
    }
  }
}

function inLineTime(changes: readonly Change[]): Change[] {
  return [...changes].sort((a, b) => a.at - b.at);
}

/** Each counter counts what it really made, never less than before, and ends where the program had it. */
function expectCounted(one: Seen): void {
  const last = one.capture.heard.findLast(({ kind }) => kind === 'publish')!.received;
  for (const counter of counters) {
    const truth = toldTruth(one, counter);
    const { cartons, resets } = made(truth);
    const { state, counts } = folded(one, counter);
    expect(state.shift.account.good, counter).toBe(cartons);
    expect([marked(state, 'reset'), marked(state, 'correction')], counter).toEqual([resets, 0]);
    expect(
      counts.every((count, place) => place === 0 || count >= counts[place - 1]!),
      counter,
    ).toBe(true);
    expect(one.tape.of(counter).at(-1)!.value, counter).toBe(truth.at(-1)!.value);
    // the program went on for no longer than a publish takes after what was told last
    const all = one.capture.truth.get(counter)!;
    const untold = all.slice(all.indexOf(truth.at(-1)!) + 1);
    for (const { at } of untold)
      expect(between(at, instantFromMs(last)), counter).toBeLessThan(SECOND_TICKS / 2);
  }
}

describe.each(ways)('recorded traffic, clock $clock, a reading of $readMs ms', (way) => {
  it('c-steady: every counter ends as in the truth, through a roll-over, a reset and a burst, and no gap', async () => {
    const one = await seen('c-steady', way);
    expectTrue(one);
    expectCounted(one);
    expect(links(one)).toEqual([true]);
    const resets = counters.map((counter) => marked(folded(one, counter).state, 'reset'));
    expect(resets).toEqual(counters.map(() => 1));
    // told plainly: 65,533 after 23 is no number of cartons anybody made in half a second
    expect(marked(folded(one, 'Line.Closer.Count16').state, 'set')).toBe(1);
    for (const counter of counters.filter((tag) => tag !== 'Line.Erector.CountOut')) {
      expect(folded(one, counter).state.shift.gaps, counter).toEqual([]);
    }
  });

  it('[SI1] c-steady: a count that is bad, though a value comes with it, is a gap for as long as it is bad', async () => {
    expectBadGap(await seen('c-steady', way), way.clock === 'utc' ? 0 : SECOND_TICKS);
  });

  it('c-cut-whole-message-twice: nothing is counted twice, no false reset, and no gap', async () => {
    const one = await seen('c-cut-whole-message-twice', way);
    const numbers = one.capture.heard.flatMap((heard) => (heard.kind === 'publish' ? [heard] : []));
    const twice = numbers.filter((heard, place) => heard.number === numbers[place - 1]?.number);
    expect(twice.map(({ told }) => told.length)).toEqual([295]);
    expectTrue(one);
    expectCounted(one);
    expect(links(one)).toEqual([true, false, 'whole']);
    for (const counter of counters) {
      const { state } = folded(one, counter);
      expect([state.shift.gaps, state.gap, state.counterMarks.length], counter).toEqual([[], null, 0]);
    }
    if (way.clock === 'utc') for (const tag of one.capture.tags) expect(missing(one, tag), tag).toEqual([]);
  });

  it('c-outage-70s-overflow: the counts are exact at the end, and the lost edges are a declared gap', async () => {
    const one = await seen('c-outage-70s-overflow', way);
    expect(one.tape.changes.filter(({ status }) => overflowed(status))).toHaveLength(33);
    expectTrue(one);
    expectCounted(one);
    expect(links(one)).toEqual([true, false, true]);
    const outage = between(
      event(one, 'client.connection_lost'),
      event(one, 'client.connection_reestablished'),
    );
    for (const counter of counters) {
      const { state } = folded(one, counter);
      const [gap, ...more] = state.shift.gaps;
      expect([more, state.gap], counter).toEqual([[], null]);
      expect(between(gap!.from, gap!.to), counter).toBeLessThanOrEqual(outage + GAP_SLACK);
      if (way.clock !== 'utc') continue;
      const lost = missing(one, counter);
      expect(lost.length, counter).toBeGreaterThan(30);
      for (const { at } of lost) expect(gap!.from <= at && at < gap!.to, counter).toBe(true);
    }
    // pressed in the outage, and kept by the server
    expectPresses(one, 1);
  });

  it('python-killed-and-restarted: nothing negative, no reset that was none, and the gap is declared', async () => {
    const one = await seen('python-killed-and-restarted', way);
    expectTrue(one);
    expectCounted(one);
    expect(links(one)).toEqual([true, false, true]);
    const [, begun] = one.capture.commands.filter(({ name }) => name === 'start');
    const ended = one.capture.commands.find(({ name }) => name === 'stop')!;
    const outage = between(ended.at, event(one, 'client.connection_reestablished'));
    for (const counter of counters) {
      const { state } = folded(one, counter);
      const [gap, ...more] = state.shift.gaps;
      expect([more, state.gap], counter).toEqual([[], null]);
      expect(gap!.from <= ended.at && gap!.to >= begun!.at, counter).toBe(true);
      expect(between(gap!.from, gap!.to), counter).toBeLessThanOrEqual(outage + GAP_SLACK);
      if (way.clock !== 'utc') continue;
      for (const { at } of missing(one, counter)) expect(gap!.from <= at && at < gap!.to, counter).toBe(true);
    }
  });

  it('python-killed-and-restarted, had its counters begun at zero again: each reset is recognised', async () => {
    const capture = beganAnew(readCapture('python-killed-and-restarted'));
    const one = { capture, tape: await replay(capture, way.clock, way.readMs) };
    expectTrue(one);
    expectCounted(one);
    for (const counter of counters) expect(made(toldTruth(one, counter)).resets, counter).toBe(1);
  });

  it('c-forty-30ms-pulses: 40 presses and 40 releases', async () => {
    const one = await seen('c-forty-30ms-pulses', way);
    expect(one.capture.commands.filter(({ words }) => words === 'pulse 30')).toHaveLength(40);
    expectTrue(one);
    expectCounted(one);
    expect(links(one)).toEqual([true]);
    const values = one.tape.of('Line.EStop').map(({ value }) => value);
    expect(values).toEqual(Array.from({ length: 81 }, (_, place) => place % 2 === 1));
    const { state } = expectPresses(one, 40);
    expect(state.shift.gaps).toEqual([]);
    if (way.clock !== 'utc') return;
    for (const { pressed, released } of state.presses) {
      expect(between(pressed, released!) / SECOND_TICKS).toBeCloseTo(0.03, 2);
    }
  });

  it('[SI1] python-bad-without-value: unknown in between, not zero and not the old value, and a gap', async () => {
    const one = await seen('python-bad-without-value', way);
    expectTrue(one);
    expectCounted(one);
    expect(links(one)).toEqual([true]);
    const bad = one.tape.of('Line.Erector.CountOut').filter(({ status }) => severity(status) === 'bad');
    expect(bad.map(({ value, status }) => [value, status])).toEqual([[null, BAD]]);
    expectBadGap(one, way.clock === 'utc' ? 0 : SECOND_TICKS);
  });
});

/**
 * The recorded program went on from the counts it had. Here all counters had made a thousand before the first recorded
 * value, and are zero after the restart; everything else is as it was recorded.
 */
function beganAnew(capture: Capture): Capture {
  const [, begun] = capture.commands.filter(({ name }) => name === 'start');
  const anew = <Kept extends { readonly value: TagValue }>(tag: string, at: Instant, kept: Kept): Kept => {
    if (!counters.includes(tag)) return kept;
    const base = capture.truth.get(tag)!.find((set) => set.at >= begun!.at)!.value as number;
    const value = kept.value as number;
    return { ...kept, value: at < begun!.at ? value + 1000 : value - base };
  };
  const truth = [...capture.truth].map(
    ([tag, sets]) => [tag, sets.map((set) => anew(tag, set.at, set))] as const,
  );
  const heard = capture.heard.map((one) =>
    one.kind === 'publish'
      ? { ...one, told: one.told.map((told) => anew(told.tag, told.source, told)) }
      : one,
  );
  return { ...capture, truth: new Map(truth), heard };
}

/** The one bad count of a recording is known to be unknown from when the program made it bad until it was good again. */
function expectBadGap(one: Seen, slack: number): void {
  const tag = 'Line.Erector.CountOut';
  const truth = one.capture.truth.get(tag)!;
  const from = truth.find(({ status }) => status === BAD)!;
  const to = truth.find(({ status, at }) => status === 0 && at > from.at)!;
  const { state } = folded(one, tag);
  const [gap, ...more] = state.shift.gaps;
  expect([more, state.gap]).toEqual([[], null]);
  expect(Math.abs(between(from.at, gap!.from))).toBeLessThanOrEqual(slack);
  expect(Math.abs(between(to.at, gap!.to))).toBeLessThanOrEqual(slack);
  const during = one.tape.changes.filter(({ at }) => at < (from.at + to.at) / 2 + slack);
  const within = folded({ ...one, tape: { ...one.tape, changes: during } }, tag).state;
  expect([within.known[2], within.gap?.from]).toEqual([0, gap!.from]);
}

function expectPresses(one: Seen, count: number): { readonly state: FoldState } {
  const { state } = folded(one, 'Line.Closer.CountOut');
  expect(state.presses).toHaveLength(count);
  expect(state.presses.every(({ known, released }) => known === 'edge' && released !== null)).toBe(true);
  return { state };
}
