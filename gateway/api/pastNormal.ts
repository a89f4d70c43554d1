import { KeptLimits } from '../../model/normal/keptLimits.ts';
import type { Scatter } from '../../model/normal/scatter.ts';
import { SETTINGS } from '../../model/normal/settings.ts';
import type { Run } from '../../model/past/batches.ts';
import { piecesOf } from '../../model/past/pieces.ts';
import type { StationsAsked } from '../../model/past/stationsPast.ts';
import {
  inShort,
  type RunTold,
  runTold,
  scatterTold,
  type StationNormal,
  stationNormal,
  type StationWorse,
} from '../../model/past/worsePast.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { runsOf, talliesOf } from './pastTallies.ts';

/** All that has to be known of what is asked. */
type RunsAsked = Pick<StationsAsked, 'index' | 'from' | 'to' | 'begun'>;

/** A station in the newest run of a stretch, or in the newest of one size, against its own normal. */
export function normalOf(
  records: RecordsRead,
  live: LineRead,
  asked: RunsAsked,
  { station, size }: { readonly station: string; readonly size?: string | undefined },
): StationNormal | undefined {
  const runs = runsToldOf(records, live, asked, size);
  return runs && judgedOnce(records, asked, station, runs);
}

/** Every station in the newest run of a stretch, in short. */
export function worseOf(records: RecordsRead, live: LineRead, asked: RunsAsked): readonly StationWorse[] {
  const runs = runsToldOf(records, live, asked, undefined);
  return asked.index.line.stations.map(({ id }) => inShort(id, runs && judgedOnce(records, asked, id, runs)));
}

/** How unevenly what is charged to a station comes within the runs of a size before its newest one in a stretch. */
export function scatterBefore(
  records: RecordsRead,
  live: LineRead,
  asked: RunsAsked,
  { station, size }: { readonly station: string; readonly size: string },
): Scatter {
  const told = runsToldOf(records, live, asked, size);
  return scatterTold(asked.index, station, told ? told.runs.slice(0, -1) : []);
}

interface RunsTold {
  readonly size: StationNormal['size'];
  readonly runs: readonly RunTold[];
}

/** An answer changes with each whole batch and not before: it is worked out once for all who ask. */
function judgedOnce(
  records: RecordsRead,
  { index }: RunsAsked,
  station: string,
  { size, runs }: RunsTold,
): StationNormal | undefined {
  const last = runs.at(-1)?.batches.at(-1);
  if (!last) return undefined;
  const key = `normal ${station} ${size.id} ${last.from} ${last.to}`;
  const line = index.line.id;
  // a batch more is one step more of what the batches before it came to, which says by itself what it stands on
  const kept = records.remember(line, `limits ${station}`, NEVER_AMENDED, () => new KeptLimits());
  return records.remember(line, key, (last.to + 1) as Instant, () =>
    stationNormal(index, station, size, runs, kept),
  );
}

/** No record is from before it. */
const NEVER_AMENDED = 0 as Instant;

function runsToldOf(
  records: RecordsRead,
  live: LineRead,
  asked: RunsAsked,
  wished: string | undefined,
): RunsTold | undefined {
  const all = runsOf(records, live, asked).filter(({ from, to }) => to > from);
  const newest = all.findLast((run) => run.to > asked.from && (wished === undefined || run.size === wished));
  const size = newest && asked.index.sizeById.get(newest.size);
  if (!newest || !size) return undefined;
  const own = all.filter((run) => run.size === newest.size && run.to <= newest.to);
  const earlier = own.slice(-SETTINGS.runsMost - 1, -1);
  const told = runToldBy(records, live, asked);
  const runs = earlier.map((run, place) => {
    const inBatches = place >= earlier.length - SETTINGS.runsInBatches;
    const key = `run ${run.from} ${run.to} ${inBatches}`;
    return records.remember(asked.index.line.id, key, (run.to + 1) as Instant, () => told(run, inBatches));
  });
  return { size: { id: size.id, name: size.name }, runs: [...runs, told(newest, true)] };
}

export function runToldBy(records: RecordsRead, live: LineRead, { index, to }: RunsAsked) {
  const line = live.line.id;
  const tallyAt = talliesOf(records, live, to);
  return (run: Run, inBatches: boolean): RunTold => {
    const within = { line, from: run.from, to: (run.to + 1) as Instant };
    const looked = piecesOf(run).at(-1)!;
    return runTold({
      index,
      run,
      looked,
      tallyAt,
      stops: records.ask({ ...within, kind: 'stop' }),
      gaps: records.ask({ ...within, kind: 'gap' }).filter(({ kind }) => kind === 'unknown'),
      minutes: inBatches ? records.ask({ ...within, from: looked.from, kind: 'minute' }) : undefined,
    });
  };
}
