import { active } from '../fold/lineIndex.ts';
import { wasRead } from '../fold/presses.ts';
import type { ChangeoverRecord, PressRecord, StopRecord } from '../fold/state.ts';
import { after, type Instant, type Millis, millis, minutes, type Span, seconds } from '../units/units.ts';
import { shiftAfter } from '../calendar/calendar.ts';
import { rateView } from './rateView.ts';
import { isUnseen, ms, type Seen } from './seen.ts';
import { trialSince } from './trialView.ts';
import type { Happening, Head, HeadPressed, HeadStopped, PressView } from './view.ts';

/** Stops at one station within this time are counted together: "third in 20 minutes". */
const TOGETHER = minutes(20);
/** How far back "what came before" looks. */
const BEFORE = seconds(90);
const BEFORE_MOST = 6;
/** Below and above these shares of target a running line is slow, or faster than its target. */
const SLOW = 0.9;
const FAST = 1.05;

/** What the line is doing, by the first of these that holds: unseen, device pressed, changeover, stop, running. */
export function headView(seen: Seen): Head {
  const { state, index } = seen;
  if (isUnseen(seen)) {
    return {
      kind: 'unknown',
      since: ms(state.gap ? state.gap.from : state.heardAt) ?? ms(seen.now),
      isolatedLikely: state.gap?.stop != null,
    };
  }
  const held = heldPress(seen);
  if (held) return pressed(seen, held);
  const changeover = state.changeover;
  const stop = seen.openStop;
  if (changeover && (!stop || stop.class === 'changeover')) {
    return {
      kind: 'changeover',
      phase: phaseOf(seen, changeover),
      trialSince: trialSince(seen),
      since: ms(changeover.begin),
      // until the size changes nobody knows whether it will
      ...(changeover.from === changeover.to
        ? { from: undefined, to: undefined }
        : { from: sizeName(seen, changeover.from), to: sizeName(seen, changeover.to) }),
    };
  }
  if (!stop && state.producing) return running(seen);
  if (!state.shift.shift) {
    const next = shiftAfter(index.line.calendar, index.line.zone, seen.now);
    return { kind: 'offShift', next: next && { name: next.name, at: ms(next.from) } };
  }
  return stop ? standing(seen, stop) : running(seen);
}

function phaseOf(seen: Seen, { productionBack, trialBegan }: ChangeoverRecord) {
  if (trialSince(seen) !== undefined) return 'trial';
  return productionBack !== null ? 'runUp' : trialBegan !== null ? 'trial' : 'setting';
}

/** A press as screens show it. */
export function pressView(seen: Seen, press: PressRecord): PressView {
  const device = seen.index.line.devices[press.device]!;
  const chosen = device.candidates.find((candidate) => candidate === press.candidate);
  return {
    id: press.id,
    device: device.id,
    name: chosen ?? device.name,
    candidates: chosen ? [] : device.candidates.map((name) => ({ id: name, name })),
    pressed: ms(press.pressed),
    released: ms(press.released),
    reset: ms(press.reset),
    restarted: ms(press.restarted),
    firstGood: ms(press.firstGood),
    role: press.role,
    known: press.known,
  };
}

function running(seen: Seen): Head {
  const { state } = seen;
  const rate = rateView(seen);
  const share = rate.perMinute === undefined || !rate.target ? 1 : rate.perMinute / rate.target;
  const stops = stopsThisShift(seen);
  const short = minutes(seen.index.line.settings.minorStopMinutes);
  const settled = seen.now - state.since > minutes(1);
  return {
    kind: 'running',
    pace: settled && share < SLOW ? 'slow' : share > FAST ? 'fast' : 'atRate',
    since: ms(state.since),
    stopsThisShift: stops.length,
    shortStopsThisShift: stops.filter((stop) => stop.end !== null && stop.end - stop.begin < short).length,
  };
}

function standing(seen: Seen, stop: StopRecord): Head {
  const { index } = seen;
  const reason = index.reasonByNumber.get(stop.reason);
  if (stop.class === 'pause') {
    const rule = index.line.calendar.pauses.find((pause) => pause.id === stop.pauseRule);
    const ends = after(stop.begin, stop.allowance);
    return {
      kind: 'pause',
      name: rule?.name ?? reason?.name ?? '',
      since: ms(stop.begin),
      allowanceEnds: ms(ends),
      over: seen.now >= ends,
    };
  }
  if (stop.class === 'starved' || stop.class === 'blocked') {
    return {
      kind: stop.class,
      since: ms(stop.begin),
      name: reason?.name ?? '',
      station: stop.station ?? undefined,
      stop: stop.id,
    };
  }
  return stopped(seen, stop);
}

function stopped(seen: Seen, stop: StopRecord): HeadStopped {
  const { state, index } = seen;
  const reason = index.reasonByNumber.get(stop.reason);
  const together = state.stops.filter(
    (other) =>
      other.station !== null && other.station === stop.station && stop.begin - other.begin <= TOGETHER,
  );
  const press = state.presses.findLast((candidate) => candidate.stop === stop.id && wasRead(candidate));
  return {
    kind: 'stopped',
    since: ms(stop.begin),
    stop: stop.id,
    reason:
      stop.kind === null
        ? undefined
        : {
            name: reason?.name ?? String(stop.reason),
            station: stop.station ?? undefined,
            stopKind: stop.kind,
          },
    from: stop.from,
    nth: Math.max(1, together.length),
    within: together.length > 1 ? nice(stop.begin - together[0]!.begin) : (0 as Millis),
    attempt: stop.attempt,
    going: going(seen, stop.id),
    press: press && pressView(seen, press),
  };
}

function pressed(seen: Seen, press: PressRecord): HeadPressed {
  const { index } = seen;
  const stop = seen.openStop;
  const reason = stop && stop.kind === 'machine' ? index.reasonByNumber.get(stop.reason) : undefined;
  const fault = stop && reason && firstFaultOf(seen, stop);
  return {
    kind: 'pressed',
    press: pressView(seen, press),
    stop: stop?.id,
    standsSince: stop && ms(stop.begin),
    firstFault: fault && {
      name: reason.name,
      station: reason.station,
      at: ms(fault),
      untilPress: millis((press.pressed - fault) as Span),
    },
    going: stop && going(seen, stop.id),
    before: before(seen, press.pressed, fault ?? press.pressed),
  };
}

function heldPress(seen: Seen): PressRecord | undefined {
  const { state, index } = seen;
  const held = new Set<number>();
  for (const signal of index.line.signals) {
    if (signal.role !== 'stopDevice' || state.known[signal.index] === 0) continue;
    if (active(signal, state.values[signal.index] ?? null))
      held.add(index.deviceAt.get(signal.of ?? '') ?? -1);
  }
  return state.presses.find((press) => wasRead(press) && press.released === null && held.has(press.device));
}

/** When a stop's first fault was read: with the stop, or a moment after it. */
function firstFaultOf({ state }: Seen, stop: StopRecord): Instant {
  return state.happenings.find(({ kind, at }) => kind === 'firstFault' && at >= stop.begin)?.at ?? stop.begin;
}

/** What came shortly before a moment, with how long before or after `zero` it was. */
function before(seen: Seen, until: Instant, zero: Instant): Happening[] {
  return seen.state.happenings
    .filter((row) => row.at <= until && until - row.at <= BEFORE)
    .slice(-BEFORE_MOST)
    .map(({ at, kind, name, station }) => ({
      at: ms(at),
      offset: millis((at - zero) as Span),
      kind,
      name,
      station: station ?? undefined,
    }));
}

function going(seen: Seen, stop: string): HeadStopped['going'] {
  const told = seen.state.going;
  if (!told || told.stop !== stop) return undefined;
  const { author } = told;
  const position = author.kind === 'position' ? author.position : undefined;
  const place = seen.index.line.loading.positions.find((candidate) => candidate.id === position);
  return { at: ms(told.at), who: place?.name ?? '' };
}

export function stopsThisShift(seen: Seen): StopRecord[] {
  const { shift } = seen.state;
  const from = shift.shift?.from ?? shift.from;
  return seen.state.stops.filter(
    (stop) => stop.begin >= from && stop.class !== 'changeover' && stop.class !== 'pause',
  );
}

function sizeName(seen: Seen, id: string | null): string | undefined {
  return id === null ? undefined : seen.index.sizeById.get(id)?.name;
}

/** A time in whole minutes, upward, as people say it: at least one. */
function nice(ticks: number): Millis {
  return (Math.max(1, Math.ceil(millis(ticks as never) / 60_000)) * 60_000) as Millis;
}
