import type { LineEvent } from '../../model/fold/events.ts';
import type { PressRecord } from '../../model/fold/state.ts';
import { after, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import { type Seen, tags } from './seen.ts';

interface Stop {
  readonly begin: Instant;
  readonly end: Instant;
  readonly number: number;
}

/** Tags by which a stop begins and ends. */
const deciding = [tags.state, tags.mode] as const;

/** Stops of the ledger whose both ends were seen. */
export function stopsMade(seen: Seen): readonly Stop[] {
  return seen.run.ledger.stops.flatMap(({ begin, end, number }) =>
    seen.isSeen(begin, ...deciding) && seen.isSeen(end, ...deciding) && !seen.isBlurred(begin, end)
      ? [{ begin, end, number }]
      : [],
  );
}

export function wrongStops(seen: Seen): readonly string[] {
  const { stops } = seen.run.ledger;
  const all = stops.flatMap(({ begin, end, number }) => (end ? [{ begin, end, number }] : []));
  const told = seen.events.flatMap((event) => {
    if (event.kind !== 'StopEnded' || !event.stop.endSeen) return [];
    const { begin, end, reason } = event.stop;
    return [{ begin, end: end!, number: reason }];
  });
  const off = seen.off(...deciding);
  const isOf = (a: Stop, b: Stop) =>
    a.number === b.number && Math.abs(a.begin - b.begin) <= off && Math.abs(a.end - b.end) <= off;
  const text = ({ begin, end, number }: Stop) => `${begin}-${end} ${number}`;
  return [
    ...stopsMade(seen)
      .filter((a) => !told.some((b) => isOf(a, b)))
      .map((stop) => `a stop not seen: ${text(stop)}`),
    ...told
      .filter((a) => isVouched(seen, a) && !all.some((b) => isOf(a, b)))
      .map((stop) => `a stop that was none: ${text(stop)}`),
    ...wrongBegins(seen),
  ];
}

/**
 * Both its ends were seen, in the right order with their reasons; and it was not two, with a run in between that nobody could notice: between two looks of its
 * server, or in a gap over which the cycle counter began anew.
 */
function isVouched(seen: Seen, { begin, end }: Stop): boolean {
  if (!seen.isSeen(begin, ...deciding) || !seen.isSeen(end, ...deciding)) return false;
  const ranUnseen = seen.unknown.some(
    (gap) => gap.from > begin && gap.to < end && seen.isAnew(gap, tags.cycles),
  );
  return !ranUnseen && !seen.isHushed(begin, end, ...deciding) && !seen.isBlurred(begin, end);
}

/** Also of those whose end nobody saw, or that go on. */
function wrongBegins(seen: Seen): readonly string[] {
  const off = seen.off(...deciding);
  const begins = seen.events.flatMap((event) => (event.kind === 'StopBegan' ? [event.stop.begin] : []));
  return seen.run.ledger.stops
    .filter(({ begin }) => seen.isSeen(begin, ...deciding))
    .filter(({ begin }) => !begins.some((one) => Math.abs(one - begin) <= off))
    .map(({ begin }) => `a stop not seen to begin: ${begin}`);
}

/** A stop device, its tags, every press of it, and all that was told of it. */
interface Device {
  readonly id: string;
  readonly tag: string;
  readonly twin: string;
  readonly presses: readonly Instant[];
  readonly told: readonly PressRecord[];
}

export function pressesMade(seen: Seen): readonly Instant[] {
  return devicesOf(seen).flatMap(({ tag, presses }) => presses.filter((at) => isWatched(seen, at, tag)));
}

export function wrongPresses(seen: Seen): readonly string[] {
  return devicesOf(seen).flatMap((device) => [
    ...wrongEdges(seen, device),
    ...(seen.isWatched(device.twin) && seen.isWatched(device.tag) ? wrongSum(seen, device) : []),
  ]);
}

/** Those that were to be seen, each at its moment, and no other. */
function wrongEdges(seen: Seen, { id, tag, presses, told }: Device): readonly string[] {
  const off = seen.off(tag);
  const made = presses.filter((at) => isWatched(seen, at, tag));
  const edges = told.flatMap(({ known, pressed }) =>
    known === 'edge' && isWatched(seen, pressed, tag) ? [pressed] : [],
  );
  const among = (list: readonly Instant[], at: Instant) => list.some((one) => Math.abs(one - at) <= off);
  return [
    ...made.filter((at) => !among(edges, at)).map((at) => `a press not seen: ${id} ${at}`),
    ...edges.filter((at) => !among(presses, at)).map((at) => `a press that was none: ${id} ${at}`),
    ...(new Set(edges).size < edges.length ? [`a press told twice: ${id}`] : []),
  ];
}

/** Told by its twin within so long. */
const COUNTED = (5 * SECOND) as Span;

/** Its twin counts those that nobody saw, unless it began anew meanwhile; none counts twice. */
function wrongSum({ run, faults }: Seen, { id, twin, presses, told }: Device): readonly string[] {
  const counts = told.filter(({ known }) => known !== 'found').length;
  const anew = faults.some((fault) => fault.kind === 'download' || ('on' in fault && fault.on === twin));
  const due = presses.filter((at) => at < after(run.to, -COUNTED as Span)).length;
  return [
    ...(counts > presses.length ? [`${id}: ${presses.length} presses, ${counts} told`] : []),
    ...(!anew && told.length < due ? [`${id}: ${due} presses, ${told.length} told`] : []),
  ];
}

/** Locked out, nobody watched either: a press then is found by its twin alone. */
function isWatched(seen: Seen, at: Instant | null | undefined, tag: string): at is Instant {
  return seen.isSeen(at, tag) && seen.isolated.every(({ from, to }) => at < from || at > to);
}

function devicesOf(seen: Seen): readonly Device[] {
  const { run, faults, start } = seen;
  const records = pressesOf(seen.events);
  const twins = seen.signals('stopDeviceCount');
  return seen.signals('stopDevice').map((signal) => {
    const [id, tag] = [signal.of ?? '', seen.tagOf(signal)];
    const twin = twins.find(({ of }) => of === id);
    const pulses = faults.flatMap((fault) =>
      fault.kind === 'pulse' && fault.on === tag ? [after(start, fault.at)] : [],
    );
    const own = run.ledger.presses.flatMap(({ device, pressed }) => (device === id ? [pressed] : []));
    return {
      ...{ id, tag, twin: twin ? seen.tagOf(twin) : '' },
      presses: [...own, ...pulses],
      told: records.filter(({ device }) => run.line.devices[device]?.id === id),
    };
  });
}

function pressesOf(events: readonly LineEvent[]): readonly PressRecord[] {
  const back = new Set(events.flatMap((event) => (event.kind === 'PressTakenBack' ? [event.press.id] : [])));
  return events.flatMap((event) =>
    event.kind === 'Pressed' && !(event.press.known === 'count' && back.has(event.press.id))
      ? [event.press]
      : [],
  );
}
