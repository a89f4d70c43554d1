import type { Role } from '../../model/signals/signals.ts';
import { between, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { type Seen, type Stretch, tags } from './seen.ts';
import type { LostValue } from './virtualQueues.ts';

/** A declared gap may be so much longer than each outage that made it. */
const SLACK = (10 * SECOND) as Span;
/** A program that tells nothing is not heard after so long. */
const SILENT = (10 * SECOND) as Span;
/** Two moments so near may be the same publish. */
const NEAR = (SECOND / 2) as Span;

export interface JudgedGaps {
  readonly unknown: number;
  readonly allowed: number;
  readonly wrong: readonly string[];
}

/** One or more outages near each other, and how long the gaps that they make may be together. */
interface Zone {
  from: number;
  to: number;
  allowed: number;
  /** Where the outages in it have covered so far. */
  covered: number;
}

/** No gap without an outage, none longer than its own; and nothing that was lost outside one. */
export function judgeGaps(seen: Seen): JudgedGaps {
  const outages = outagesOf(seen);
  const zones = zonesOf([...outages, ...lossesBeside(seen, outages)]);
  const sum = (list: readonly Stretch[]) => list.reduce((all, { from, to }) => all + between(from, to), 0);
  return {
    unknown: sum(seen.unknown),
    allowed: zones.reduce((all, { allowed }) => all + allowed, 0),
    wrong: [
      ...wrongZones(seen, zones),
      ...wrongIsolated(seen, zones),
      ...missingGaps(seen),
      ...missingLosses(seen),
    ],
  };
}

function wrongZones({ unknown }: Seen, zones: readonly Zone[]): readonly string[] {
  const text = ({ from, to }: Stretch) => `${from}-${to}, ${between(from, to) / SECOND} s`;
  const within = (gap: Stretch, zone: Zone) => gap.from >= zone.from && gap.to <= zone.to;
  const alone = unknown.filter((gap) => !zones.some((zone) => within(gap, zone)));
  const long = zones.flatMap((zone) => {
    const own = unknown.filter((gap) => within(gap, zone));
    const length = own.reduce((all, { from, to }) => all + between(from, to), 0);
    return length > zone.allowed
      ? [`a gap of ${length / SECOND} s, its faults allow ${zone.allowed / SECOND} s`]
      : [];
  });
  return [...alone.map((gap) => `a gap without a fault: ${text(gap)}`), ...long];
}

/** Where the line is said to have stood, no cycle was made. */
function wrongIsolated({ isolated, run }: Seen, zones: readonly Zone[]): readonly string[] {
  const cycles = (run.facts ?? []).filter(({ tag }) => tag === tags.cycles);
  return isolated.flatMap(({ from, to }) => [
    ...(zones.some((zone) => from >= zone.from && to <= zone.to)
      ? []
      : [`isolated without a fault: ${from}`]),
    ...(cycles.some(({ at }) => at > from && at < to) ? [`isolated, and it ran: ${from}`] : []),
  ]);
}

/** A server that was killed, a program downloaded or standing, a value that decides and was bad: each has to leave a gap. */
function missingGaps(seen: Seen): readonly string[] {
  return seen.faults.flatMap((fault) => {
    const stretch = seen.timeOf(fault);
    // before anything was heard there is nothing to be missing
    if (!mustLeave(fault) || stretch.from <= seen.start) return [];
    // without a heartbeat nobody can tell it from a line that stands
    if (fault.kind === 'frozen' && !seen.isWatched(tags.heartbeat)) return [];
    const edge = NEAR + seen.offMost;
    // until the program has been silent for so long, since it stands or was heard again, that is not noticed
    const heard = fault.kind === 'frozen' ? heardAgain(seen, stretch) : undefined;
    const begin = (heard ?? stretch.from) + (heard === undefined ? 0 : SILENT) + edge;
    const end = Math.min(seen.run.to, stretch.to) - edge;
    const covered = coveredOf(seen, begin, end);
    return covered < end - begin
      ? [`no gap for ${fault.kind} at ${fault.at / SECOND} s: ${covered / SECOND} s`]
      : [];
  });
}

/** How long after an outage its server is heard again at most. */
const BACK = 5 * SECOND;

function heardAgain(seen: Seen, { from, to }: Stretch): number {
  const ends = outagesOf(seen).filter((outage) => outage.to > from && outage.to < to);
  return Math.max(from, ...ends.map((outage) => outage.to + BACK));
}

function coveredOf({ unknown, isolated }: Seen, begin: number, end: number): number {
  const shared = ({ from, to }: Stretch) => Math.max(0, Math.min(to, end) - Math.max(from, begin));
  return [...unknown, ...isolated].reduce((sum, gap) => sum + shared(gap), 0);
}

function mustLeave(fault: Fault): boolean {
  switch (fault.kind) {
    case 'killed':
    case 'reissued':
    case 'refused':
    case 'download':
      return true;
    case 'frozen':
      return fault.lasts > SILENT + NEAR;
    case 'bad':
      return fault.on === tags.good || fault.on === tags.state;
    default:
      return false;
  }
}

/** One that was dropped says nothing that the next does not. */
const sampled: ReadonlySet<Role> = new Set(['speedActual', 'machineAngle', 'condition', 'heartbeat']);

/** Whatever nobody was ever told, and could be noticed to be missing, lies in a gap. */
function missingLosses(seen: Seen): readonly string[] {
  // a server that samples may have told by then all that it had looked at
  const off = seen.faults.reduce(
    (sum, fault) => (fault.kind === 'sampled' ? sum + fault.every : sum),
    seen.offMost,
  );
  const trifles = new Set(seen.signals(...sampled).map((signal) => seen.tagOf(signal)));
  const gaps = [...seen.unknown, ...seen.isolated];
  return (seen.run.lost ?? []).flatMap(({ at, tag, quiet }) =>
    quiet || trifles.has(tag) || gaps.some(({ from, to }) => at >= from - off && at <= to + off)
      ? []
      : [`lost and no gap: ${tag} ${at}`],
  );
}

/** Outages, each of its own length. */
function outagesOf(seen: Seen): readonly Stretch[] {
  const { run, faults } = seen;
  // locked out, the PLC is dark: that is an outage of its own
  const darks = run.ledger.darks.map(({ from, to = run.to }) => ({ from, to }));
  const refused = [tags.state, tags.good].some((tag) => !seen.isWatched(tag));
  return [
    ...darks,
    ...(refused ? [{ from: seen.start, to: run.to }] : []),
    ...faults.flatMap((fault) => (mayLeave(fault) ? [seen.timeOf(fault)] : [])),
  ];
}

/** Values that a server dropped while it was heard, and not in or just before an outage: an outage each, of no length. */
function lossesBeside({ run }: Seen, outages: readonly Stretch[]): readonly Stretch[] {
  const isBeside = ({ at, quiet }: LostValue) =>
    !quiet && outages.every(({ from, to }) => at < from - 2 * NEAR || at > to + 2 * NEAR);
  return (run.lost ?? []).filter(isBeside).map(({ at }) => ({ from: at, to: at }));
}

function mayLeave(fault: Fault): boolean {
  switch (fault.kind) {
    case 'cut':
    case 'dark':
    case 'unheard':
    case 'killed':
    case 'reissued':
    case 'refused':
    case 'download':
    case 'frozen':
      return true;
    case 'bad':
      return fault.on === tags.good || fault.on === tags.state;
    default:
      return false;
  }
}

/** Outages whose surroundings touch make one zone. Those that lie over each other count once. */
function zonesOf(outages: readonly Stretch[]): readonly Zone[] {
  const zones: Zone[] = [];
  let last: Instant | undefined;
  for (const { from, to } of [...outages].sort((a, b) => a.from - b.from)) {
    const zone = zones.at(-1);
    const apart = last === undefined || from - last > SLACK;
    last = from;
    if (!zone || from - SLACK > zone.to) {
      zones.push({ from: from - SLACK, to: to + SLACK, allowed: to - from + SLACK, covered: to });
      continue;
    }
    zone.to = Math.max(zone.to, to + SLACK);
    // values dropped one after another are one fault
    zone.allowed += Math.max(0, to - Math.max(from, zone.covered)) + (apart || to > from ? SLACK : 0);
    zone.covered = Math.max(zone.covered, to);
  }
  return zones;
}
