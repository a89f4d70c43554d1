import type { StopRecord } from '../fold/state.ts';
import type { Answer } from '../line/line.ts';
import { between, HOUR, type Instant, millis, minutes, seconds } from '../units/units.ts';
import { countersView } from './countersView.ts';
import { findingsView } from './findingsView.ts';
import { rejectsOutOfNormal } from './pathView.ts';
import { ms, type Outside, type Seen } from './seen.ts';
import { stillTrial } from './trialView.ts';
import type { Matter, Question } from './matter.ts';

/** A stop that nobody explained is asked about for this long after it ended. */
const ASK_AFTER_END = minutes(3);
const ANSWERS_SHOWN = 4;
const ANSWER_DAYS = 30;
/** A server clock further off than this is told. Milliseconds. */
const CLOCK_OFF = 2000;
const MATTERS_SHOWN = 20;
/** A gap shorter than this is counted in the coverage and not told by itself. */
const GAP_TOLD = seconds(30);

/**
 * What wants a person, or should be known: newest first within each kind, the gravest kind first. Each kind has room of
 * its own, so that none hides another; what there is no room for is counted.
 */
export function mattersView(seen: Seen, outside: Outside): Matter[] {
  const kinds: readonly (readonly [share: number, all: readonly Matter[]])[] = [
    [1, notRecorded(outside)],
    [6, findingsView(seen)],
    [2, whichButton(seen)],
    [3, abnormal(seen)],
    [4, unexplained(seen)],
    [1, stillTrial(seen)],
    [1, waysWrong(outside)],
    [1, clocksOff(outside)],
    [3, countersView(seen)],
    [1, notSeen(seen)],
  ];
  let room = MATTERS_SHOWN;
  for (const [share, all] of kinds) room -= Math.min(share, all.length);
  const shown = kinds.flatMap(([share, all]) => {
    const more = Math.max(0, Math.min(all.length - share, room));
    room -= more;
    return all.slice(0, share + more);
  });
  const count = kinds.reduce((sum, [, all]) => sum + all.length, 0) - shown.length;
  return count > 0 ? [...shown, { kind: 'further', count }] : shown;
}

/** [ST6] The one question a panel may ask now: the newest unexplained stop, unless somebody said "not now". */
export function questionView(seen: Seen): Question | undefined {
  const { state, index } = seen;
  const newestStop = state.stops.at(-1);
  const stop = state.stops.findLast((candidate) => {
    if (!isUnexplained(seen, candidate)) return false;
    const asksNow =
      candidate.end === null || between(candidate.end, seen.now) < ASK_AFTER_END || !state.producing;
    const waits =
      candidate.notNowAt !== null && (newestStop === candidate || newestStop!.begin < candidate.notNowAt);
    return asksNow && !waits;
  });
  if (!stop) return undefined;
  const station = index.line.stations.find((candidate) => candidate.id === stop.station);
  const answers = answersFor(seen, stop);
  const times = (answer: string) =>
    state.answers
      .filter((row) => row.station === (stop.station ?? '') && row.answer === answer)
      .reduce((total, row) => total + row.times, 0);
  return {
    stop: stop.id,
    since: ms(stop.begin),
    until: ms(stop.end),
    station: station?.name,
    answers: answers.map((answer) => ({ ...answer, times: times(answer.id) })),
    days: ANSWER_DAYS,
  };
}

/** [ST6] Whether a stop lasted long enough to be asked about and neither the PLC nor a person says why. */
export function isUnexplained(seen: Seen, stop: StopRecord): boolean {
  if (stop.class !== 'stopped' || stop.answer !== null) return false;
  if (stop.kind !== null && stop.kind !== 'operator') return false;
  return (stop.end ?? seen.now) - stop.begin >= seconds(seen.index.line.settings.askAfterSeconds);
}

function answersFor(seen: Seen, stop: StopRecord): readonly Answer[] {
  const { line } = seen.index;
  const own = line.stations.find((station) => station.id === stop.station)?.answers ?? [];
  return (own.length > 0 ? own : line.answers).slice(0, ANSWERS_SHOWN);
}

function unexplained(seen: Seen): Matter[] {
  const from = seen.state.shift.shift?.from ?? ((seen.now - 8 * HOUR) as Instant);
  return seen.state.stops
    .filter((stop) => stop.begin >= from && isUnexplained(seen, stop))
    .map((stop): Matter => {
      const station = seen.index.line.stations.find((candidate) => candidate.id === stop.station);
      return {
        kind: 'unexplainedStop',
        stop: stop.id,
        at: ms(stop.begin),
        lasted: stop.end === null ? undefined : millis(between(stop.begin, stop.end)),
        endSeen: stop.endSeen,
        station: station?.name,
        answers: answersFor(seen, stop),
      };
    })
    .reverse();
}

function abnormal(seen: Seen): Matter[] {
  return seen.index.line.stations.flatMap((station, place): Matter[] => {
    const out = rejectsOutOfNormal(seen, place);
    return out
      ? [{ kind: 'stationAbnormal', station: station.id, since: ms(out.since), ...out.rejects }]
      : [];
  });
}

function notRecorded({ unrecorded }: Outside): Matter[] {
  return unrecorded ? [{ kind: 'notRecorded', ...unrecorded }] : [];
}

function waysWrong({ waysWrong: wrong }: Outside): Matter[] {
  return wrong ? [{ kind: 'waysWrong', ...wrong }] : [];
}

function clocksOff({ servers }: Outside): Matter[] {
  const set = servers
    .filter(({ clockSet = 0 }) => clockSet !== 0)
    .map(({ id, clockSet }): Matter => ({ kind: 'clockSet', server: id, by: clockSet! }));
  const off = servers
    .filter(({ clockOffset = 0 }) => Math.abs(clockOffset) > CLOCK_OFF)
    .map(({ id, clockOffset }): Matter => ({ kind: 'clockOff', server: id, offset: clockOffset! }));
  return [...set, ...off];
}

/** [PS4] The newest first, as everywhere. */
function whichButton(seen: Seen): Matter[] {
  const { state, index } = seen;
  return state.presses
    .filter(
      (press) => press.candidate === null && (index.line.devices[press.device]?.candidates.length ?? 0) > 0,
    )
    .map(
      (press): Matter => ({
        kind: 'whichButton',
        press: press.id,
        at: press.known === 'edge' ? ms(press.pressed) : undefined,
        candidates: index.line.devices[press.device]!.candidates.map((name) => ({ id: name, name })),
      }),
    )
    .reverse();
}

function notSeen(seen: Seen): Matter[] {
  const last = seen.state.shift.gaps.findLast(
    (gap) => gap.kind === 'unknown' && gap.to - gap.from >= GAP_TOLD,
  );
  if (seen.state.gap) return [{ kind: 'notSeen', from: ms(seen.state.gap.from), to: undefined }];
  return last ? [{ kind: 'notSeen', from: ms(last.from), to: ms(last.to) }] : [];
}
