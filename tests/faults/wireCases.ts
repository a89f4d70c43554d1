import { expect } from 'vitest';
import type { Change } from '../../model/signals/signals.ts';
import { between, type Instant, SECOND } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { FaultKind } from '../../simulator/faults/faults.ts';
import { boundLine } from '../simulator/simulatedLine.ts';
import type { WireRun } from './wireRun.ts';

/** The lines on which the faults are tried; each has a server, a cable and an intake of its own. */
export type WireLine = 'cable' | 'server' | 'values' | 'clock' | 'door' | 'small' | 'size';

/** What happens to a line, and what must follow from it beside what `judge` asks of every run. */
export interface WireCase {
  readonly line: WireLine;
  readonly faults: string;
  readonly title: string;
  /** How the outage that it makes ends, as the link tells it. */
  readonly end?: 'whole' | true;
  readonly follows: (run: WireRun) => void;
}

const words = wordsIn('en').gateway.intake;
const GOOD = 'Discharge.Good';
/** So many items are asked for until the good cartons are among them; the heartbeat comes later. */
const upToGood = [...boundLine().tags.values()].findIndex(({ tag }) => tag === GOOD) + 1;

const secondsOf = (run: WireRun, at: Instant) => between(run.start, at) / SECOND;

const within = <Item extends { readonly at: Instant }>(
  run: WireRun,
  items: readonly Item[],
  from: number,
  to: number,
) => items.filter(({ at }) => secondsOf(run, at) >= from && secondsOf(run, at) < to);

/** Seconds of gaps that begin within so many seconds of the run. */
const unknownIn = (run: WireRun, from: number, to: number) =>
  run.fold.state.shift.gaps
    .filter((gap) => gap.kind === 'unknown' && within(run, [{ at: gap.from }], from, to).length > 0)
    .reduce((sum, gap) => sum + between(gap.from, gap.to) / SECOND, 0);

/** Seconds at which the faults of a kind began. */
const began = (run: WireRun, kind: FaultKind) =>
  run.faults.flatMap((fault) => (fault.kind === kind ? [fault.at / SECOND] : []));

/** Seconds of the gap that a fault made: the server was heard when it began. */
const goneFor = (run: WireRun, kind: FaultKind) => {
  const [at] = began(run, kind);
  return run.fold.state.shift.gaps
    .filter(
      ({ kind: gap, from, to }) =>
        gap === 'unknown' && secondsOf(run, from) < at! + 2 && secondsOf(run, to) > at!,
    )
    .reduce((sum, { from, to }) => sum + between(from, to) / SECOND, 0);
};

const marksOf = (run: WireRun, tag: string) =>
  run.fold.state.counterMarks.flatMap(({ signal, mark }) =>
    signal === run.of(tag)[0]!.signal ? [mark] : [],
  );

/** What was heard of a tag is what its PLC told, none twice, each at its moment. Some of it may have come later. */
function expectWhole(run: WireRun, tag: string, from: number, to: number): void {
  const row = ({ at, value }: Pick<Change, 'at' | 'value'>) => [secondsOf(run, at), value];
  const told = within(run, run.facts, from, to).filter((fact) => fact.tag === tag);
  expect(told.length).toBeGreaterThan(2);
  const heard = within(run, run.of(tag), from, to).toSorted((a, b) => a.at - b.at);
  expect(heard.map(row)).toEqual(told.map(row));
}

export const wireCases: Readonly<Record<FaultKind, WireCase>> = {
  dark: {
    line: 'cable',
    faults: '0:00:02 link dark for 500 ms\n0:00:14 link dark for 6 s',
    title: '[CV1] what waited in the dark comes late, and only who is long in the dark is told to be away',
    end: 'whole',
    follows: (run) => {
      const [short, long] = began(run, 'dark');
      expectWhole(run, 'Cartoner.Heartbeat', short! - 1.5, short! + 2);
      expectWhole(run, 'Cartoner.Heartbeat', long! - 1, long! + 7);
    },
  },
  cut: {
    line: 'cable',
    faults: '0:00:04 link cut for 2 s',
    title: '[CV1] the server keeps the values, and the link says that nothing was missed',
    end: 'whole',
    follows: (run) => {
      const [at] = began(run, 'cut');
      expect(goneFor(run, 'cut')).toBe(0);
      expectWhole(run, 'Cartoner.Heartbeat', at! - 1, at! + 3);
    },
  },
  unheard: {
    line: 'cable',
    faults: '0:00:23 keep-alive before dark for 2 s',
    title: '[CV1] a change sent for nothing after a keep-alive is asked for again, and a stop with it',
    end: 'whole',
    follows: (run) => {
      const [stop] = run.ledger.stops;
      const states = run.of('Cartoner.State').filter(({ at }) => at === stop!.begin);
      expect(states).toHaveLength(1);
    },
  },
  empty: {
    line: 'cable',
    faults: '0:00:09 answers empty for 5 s\n0:00:10 link cut for 1 s',
    title: '[CV1] an empty answer ends the asking, and nothing is missed',
    end: 'whole',
    follows: (run) => {
      expect(run.requests('RepublishRequest')).toBeGreaterThan(0);
      expect(run.requests('RepublishRequest')).toBeLessThan(80);
    },
  },
  killed: {
    line: 'server',
    faults: '0:00:03 server killed for 1 s',
    title: '[CO5] what was made while it was gone is known from the counters, and when is not',
    end: true,
    follows: (run) => {
      expect(goneFor(run, 'killed')).toBeGreaterThan(1);
      expect(run.said).toContain(words.lost('plc'));
    },
  },
  reissued: {
    line: 'server',
    faults: '0:00:08 server killed with the same ids for 1 s',
    title: '[CV1] a new subscription is not taken for the old one, though it has the same id',
    end: true,
    follows: (run) => {
      const [, before, again] = run.subscriptions;
      expect(again![0]).toBeDefined();
      expect(again![0]).toBe(before![0]);
      expect(goneFor(run, 'reissued')).toBeGreaterThan(1);
    },
  },
  download: {
    line: 'server',
    faults: '0:00:13 program downloaded for 1 s',
    title: '[CO3] tags are found under another number, and every counter that begins anew is told',
    end: true,
    follows: (run) => {
      expect(goneFor(run, 'download')).toBeGreaterThan(1);
      expect(marksOf(run, GOOD)).toEqual(['reset']);
      const [at] = began(run, 'download');
      expect(within(run, run.of('Cartoner.Heartbeat'), at! + 1, 1000).length).toBeGreaterThan(2);
    },
  },
  rollover: {
    line: 'values',
    faults: `0:00:00 counter ${GOOD} near its end`,
    title: '[CO2] a counter goes on counting from its end to its beginning',
    follows: (run) => {
      const values = run.of(GOOD).map(({ value }) => value);
      expect(values.slice(0, 5)).toEqual([2 ** 32 - 3, 2 ** 32 - 2, 2 ** 32 - 1, 0, 1]);
    },
  },
  late: {
    line: 'values',
    faults: '0:00:01 tag Cartoner.SpeedActual late by 5 s',
    title: '[TI1] a tag that is told late stands where it was told',
    follows: (run) => {
      const lag = 5 * SECOND;
      const told = run.facts.filter(
        ({ tag, at }) => tag === 'Cartoner.SpeedActual' && secondsOf(run, at) > 1,
      );
      const heard = run.of('Cartoner.SpeedActual').filter(({ at }) => secondsOf(run, at) > 6);
      const due = told.filter(({ at }) => secondsOf(run, (at + lag) as Instant) < 92);
      expect(due.length).toBeGreaterThan(5);
      expect(heard.slice(0, due.length).map(({ at, value }) => [at, value])).toEqual(
        due.map(({ at, value }) => [at + lag, value]),
      );
    },
  },
  twice: {
    line: 'values',
    faults: '0:00:06 messages twice for 8 s',
    title: '[CV1] what comes twice is taken once',
    follows: (run) => {
      for (const tag of ['Cartoner.Cycles', 'Cartoner.Heartbeat']) expectWhole(run, tag, 6, 14);
    },
  },
  mixed: {
    line: 'values',
    faults: '0:00:15 messages mixed for 8 s',
    title: '[TI2] what comes mixed stands in order',
    follows: (run) => {
      for (const tag of ['Cartoner.Cycles', 'Cartoner.Heartbeat']) expectWhole(run, tag, 15, 23);
      const moments = within(run, run.changes, 15, 23).map(({ at }) => at);
      expect(moments).toEqual(moments.toSorted((a, b) => a - b));
    },
  },
  stampless: {
    line: 'values',
    faults: '0:00:24 stamps missing for 6 s',
    title: '[TI1] without a source time the server’s own stamp stands for it',
    follows: (run) => {
      for (const tag of ['Cartoner.Cycles', 'Pick.Blanks']) expectWhole(run, tag, 24, 30);
    },
  },
  still: {
    line: 'values',
    faults: '0:00:24 heartbeat still for 12 s',
    title: '[CV2] a heartbeat that stands alone is no gap',
    follows: (run) => {
      expect(within(run, run.of('Cartoner.Heartbeat'), 24.1, 36)).toEqual([]);
      expect(unknownIn(run, 23, 31)).toBe(0);
    },
  },
  bad: {
    line: 'values',
    faults: `0:00:32 value Cartoner.State bad with value for 4 s\n0:00:38 value ${GOOD} bad for 4 s`,
    title: '[SI1] a bad value is no value: without state or count it is a gap',
    follows: (run) => {
      const bad = (tag: string) => run.of(tag).filter(({ status }) => status === 0x80050000);
      expect(bad('Cartoner.State').map(({ value }) => value)).toEqual([6]);
      expect(bad(GOOD).map(({ value }) => value)).toEqual([null]);
      expect(unknownIn(run, 31, 37)).toBe(4);
      expect(unknownIn(run, 37, 44)).toBe(4);
    },
  },
  corrected: {
    line: 'values',
    faults: `0:00:44 counter ${GOOD} corrected by -2`,
    title: '[CO4] a counter put back by hand is told, and counts nothing',
    follows: (run) => expect(marksOf(run, GOOD)).toContain('correction'),
  },
  pulse: {
    line: 'values',
    faults: '0:00:55 button Stop.MainPanel pressed for 30 ms',
    title: 'a press of 30 ms is seen, with its moment',
    follows: (run) => {
      const seen = run.of('Stop.MainPanel').map(({ at, value }) => [secondsOf(run, at), value]);
      expect(seen.slice(-2)).toEqual([
        [55, true],
        [55.03, false],
      ]);
      expect(run.fold.state.presses.map(({ known, pressed }) => [known, secondsOf(run, pressed)])).toEqual([
        ['edge', 55],
      ]);
    },
  },
  frozen: {
    line: 'values',
    faults: '0:01:34 program still for 20 s',
    title: '[CV2] a server that answers and whose values all stand still is not heard',
    follows: (run) => {
      expect(unknownIn(run, 92, 95)).toBeGreaterThan(18);
      expect(unknownIn(run, 92, 95)).toBeLessThan(22);
    },
  },
  reset: {
    line: 'values',
    faults: `0:01:56 counter ${GOOD} reset`,
    title: '[CO3] a counter that begins anew is told, and goes on counting',
    follows: (run) => expect(marksOf(run, GOOD)).toEqual(['correction', 'reset']),
  },
  local: {
    line: 'clock',
    faults: '0:00:00 clock local',
    title: '[TI1] local time sent as UTC is put on UTC, also in the hour that comes twice',
    follows: (run) => {
      for (const tag of ['Cartoner.Cycles', GOOD]) expectWhole(run, tag, 1, 14);
    },
  },
  stepped: {
    line: 'clock',
    faults: '0:00:15 clock stepped by 10 min',
    title: '[TI1] line time goes on when somebody sets the clock, and that is told',
    follows: (run) => {
      expect(run.said.filter((text) => text.includes('set the clock'))).toHaveLength(1);
      const newest = run.changes.reduce((most, { at }) => Math.max(most, at), 0) as Instant;
      expect(secondsOf(run, newest)).toBeLessThan(300);
    },
  },
  refused: {
    line: 'door',
    faults: '0:00:00 certificate refused for 3 s',
    title: 'a person is told who refuses, why, and what to do, and it is heard once it no longer does',
    follows: (run) => {
      const [told] = run.said;
      expect(told).toContain(words.notTrusted('plc'));
      expect(told).toContain(words.notTrustedWhy('BadSecurityChecksFailed'));
      expect(told).toMatch(/fingerprint ([0-9A-F]{2}:){31}[0-9A-F]{2}, .*scoreline\.pem/);
      expect(secondsOf(run, run.link[0]!.at)).toBeGreaterThan(2);
    },
  },
  queue: {
    line: 'door',
    faults: '0:00:00 queues of 2 for 2 min\n0:00:07 link cut for 8 s',
    title: '[CV1] what a queue could not hold through a cut is a gap, and nothing in it is pretended',
    end: true,
    follows: (run) => {
      expect(new Set([...run.status.revised.values()].map(({ queue }) => queue))).toEqual(new Set([2]));
      expect(goneFor(run, 'cut')).toBeGreaterThan(8);
    },
  },
  set: {
    line: 'values',
    faults: '0:01:10 counter Discharge.Count set to 50000',
    title: '[CO3] a counter set to another number is told, and counts nothing',
    follows: (run) => expect(marksOf(run, 'Discharge.Count')).toEqual(['set']),
  },
  skewed: {
    line: 'values',
    faults: '0:00:31 tag Pick.Count skewed by -1500 ms',
    title: '[TI1] a tag that a module stamps by a clock of its own is told whole, as that clock has it',
    follows: (run) => {
      const off = -1.5 * SECOND;
      // a count is told once: by it the two are put side by side, whichever clock stamped them
      const told = within(run, run.facts, 31, 94).filter(({ tag }) => tag === 'Pick.Count');
      const counts = new Set<unknown>(told.map(({ value }) => value));
      const heard = run.of('Pick.Count').filter(({ value }) => counts.has(value));
      expect(told.length).toBeGreaterThan(10);
      expect(heard.map(({ at, value }) => [at, value])).toEqual(
        told.map(({ at, value }) => [at + off, value]),
      );
    },
  },
  sampled: {
    line: 'small',
    faults: '0:00:00 values sampled every 500 ms for 1 h',
    title:
      '[CO5] a server that looks now and then tells what was made all the same, and says how often it looks',
    follows: (run) => {
      expect(new Set([...run.status.revised.values()].map(({ sampling }) => sampling))).toContain(500);
      const made = run.facts.filter(({ tag, at }) => tag === 'Discharge.Count' && at > run.start).length;
      const heard = run.of('Discharge.Count').map(({ value }) => Number(value));
      expect(heard.at(-1)! - heard[0]!).toBe(made);
    },
  },
  limited: {
    line: 'small',
    faults: `0:00:00 no more than ${upToGood} items for 1 h`,
    title: '[SI1] a tag that the server will not watch is unknown, and a person is told which',
    follows: (run) => {
      const beats = run.of('Cartoner.Heartbeat');
      expect(new Set(beats.map(({ value }) => value))).toEqual(new Set([null]));
      expect(new Set(beats.map(({ status }) => status))).toEqual(new Set([0x80db0000]));
      expect(run.status.items.get(beats[0]!.signal)).toMatchObject({ kind: 'unreadable' });
      expect(run.status.items.get(run.of(GOOD)[0]!.signal)).toMatchObject({ kind: 'good' });
    },
  },
};

/** What two kinds do together, and other ways of one. */
export const moreCases: readonly WireCase[] = [
  {
    line: 'small',
    faults: '0:00:00 queues of 1 silent for 1 h\n0:00:06 link cut for 3 s',
    title: '[CV1] a queue of one that came full in a cut may have dropped values without a word: a gap',
    end: true,
    follows: (run) => {
      expect(new Set([...run.status.revised.values()].map(({ queue }) => queue))).toContain(1);
      expect(goneFor(run, 'cut')).toBeGreaterThan(2.5);
    },
  },
  {
    line: 'size',
    faults: '0:00:00 tag Cartoner.Size late by 861328 ms',
    title: '[CH1] a size that is told after the first cartons of it begins where it is told',
    follows: (run) => {
      const began = run.events.flatMap((event) =>
        event.kind === 'SizeBegan' ? [[event.size, secondsOf(run, event.at)]] : [],
      );
      expect(began.map(([size]) => size)).toEqual(['sampler-12', 'sachet-48']);
      expect(began[1]![1]).toBeCloseTo(966.5, 3);
      const made = run.ledger.cartons.filter(({ size, fate }) => size === 'sachet-48' && fate === 'good');
      const told = run.fold.state.cartonsBySize;
      expect(told['sampler-12']).toBeGreaterThan(3);
      expect(told['sachet-48']).toBeGreaterThan(3);
      expect(told['sachet-48']).toBeLessThan(made.length - 3);
    },
  },
];
