import { stopsCsv, stopsCsvTitles } from '../../gateway/api/stopsCsv.ts';
import { stretchOf } from '../../gateway/tape/stretch.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { AROUND, aroundStop } from '../../model/past/around.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { stationRef } from '../../model/past/past.ts';
import { type StopsPast, stopsPast } from '../../model/past/stopsPast.ts';
import { type RecordBodies, type RecordKind, recordSteps } from '../../model/records/records.ts';
import { epochMs, HOUR, type Instant, instantFromMs } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import type { LineView } from '../../model/view/view.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { Memory, openMemoryTape } from '../gateway/tape/memoryTape.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';

/** Tuesday 08:00, in the early shift: last night's shift began on Monday at 22:00. */
const NOW = (monday + 26 * HOUR) as Instant;

/** What is answered to the Stops screen, as the model's functions make it of a day and a night that were simulated. */
export interface StopAnswers {
  readonly view: LineView;
  readonly answer: (path: string, asked: URLSearchParams) => unknown;
  readonly overview: PastOverview;
  readonly stops: (asked: URLSearchParams) => StopsPast;
}

export async function stopAnswers(): Promise<StopAnswers> {
  const told = await simulated();
  const overview = overviewOf(told);
  const stops = (asked: URLSearchParams) => stopsOf(told, asked);
  return {
    view: viewOf(told.fold, NOW, { servers: [{ id: 'plc', up: true }] }),
    overview,
    stops,
    answer: (path, asked) => {
      if (path.endsWith('/past')) return overview;
      if (path.endsWith('/past/stops')) return stops(asked);
      if (path.endsWith('/past/stops.csv')) return fileOf(told, asked);
      return path.endsWith('/past/around') ? around(told, asked.get('stop') ?? '') : undefined;
    },
  };
}

type Told = Awaited<ReturnType<typeof simulated>>;

async function simulated() {
  const bound = boundLine();
  const { line } = bound;
  const tape = openMemoryTape(new Memory(), new Map([[line.id, line.signals]]));
  const fold = new LineFold(line);
  const machine = startMachine({ seed: 3, start: monday });
  const kept = new Map<string, { kind: RecordKind; at: Instant; body: unknown }>();
  for (let at = monday; at < NOW; at = (at + HOUR) as Instant) {
    const changes = changesOf(bound, runUntil(machine, (at + HOUR) as Instant));
    await tape.append(line.id, changes);
    for (const step of recordSteps(fold.take(changes), fold.state))
      if (step.kind === 'put')
        kept.set(`${step.record.kind} ${step.record.at} ${step.record.id}`, structuredClone(step.record));
  }
  const of = <Kind extends RecordKind>(kind: Kind) =>
    [...kept.values()]
      .filter((record) => record.kind === kind)
      .sort((a, b) => a.at - b.at)
      .map(({ body }) => body as RecordBodies[Kind]);
  return { line, tape, fold, of };
}

function overviewOf({ line, fold, of }: Told): PastOverview {
  const running = fold.state.shift.shift;
  const shifts = [
    ...of('shift').flatMap(({ shift }) => (shift ? [shift] : [])),
    ...(running ? [running] : []),
  ];
  return {
    past: { kind: 'whole' },
    begun: epochMs(monday),
    now: epochMs(NOW),
    zone: line.zone,
    shifts: shifts.map(({ rule, name, from, to }) => ({ rule, name, from: epochMs(from), to: epochMs(to) })),
    sizes: line.sizes.map(({ id, name }) => ({ id, name })),
    stations: line.stations.map(({ id }) => stationRef(fold.index, id)!),
    orders: [],
  };
}

function stopsOf(
  { fold, of }: Told,
  asked: URLSearchParams,
  most = Number(asked.get('most') ?? 200),
): StopsPast {
  const moment = (name: string) => (asked.has(name) ? instantFromMs(Number(asked.get(name))) : undefined);
  const to = Math.min(NOW, moment('to') ?? NOW) as Instant;
  const from = moment('from') ?? monday;
  const text = (name: string) => asked.get(name) ?? undefined;
  return stopsPast({
    index: fold.index,
    from,
    to,
    stops: of('stop').filter(({ begin, end }) => begin < to && (end ?? NOW) > from),
    presses: of('press'),
    guards: of('guard'),
    gaps: [],
    begun: monday,
    filter: { station: text('station'), size: text('size'), shift: text('shift'), order: text('order') },
    before: [],
    most,
  });
}

function fileOf(told: Told, asked: URLSearchParams): string {
  const { list } = stopsOf(told, asked, Number.POSITIVE_INFINITY);
  const { line, of } = told;
  return stopsCsvTitles + stopsCsv({ line, list, stops: of('stop'), unseen: [], gapEnds: new Set() });
}

async function around({ line, tape, fold, of }: Told, id: string): Promise<unknown> {
  const stop = of('stop').find((one) => one.id === id);
  if (!stop) return undefined;
  const stretch = { from: (stop.begin - AROUND) as Instant, to: (stop.begin + AROUND) as Instant };
  return aroundStop(fold.index, stop, { ...(await stretchOf(tape, line, stretch)), now: NOW });
}
