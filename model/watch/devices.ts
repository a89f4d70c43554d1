import { type Condition, noticeKey } from '../notices/condition.ts';
import { after, epochMs, type Instant, minutes } from '../units/units.ts';
import { sizeOf } from './output.ts';
import type { Watched } from './watched.ts';

/** Stop devices and guards: what was pressed, what read open or pressed while the line ran, and what has no test. */
export function deviceConditions(watched: Watched): readonly Condition[] {
  return [...presses(watched), ...ranOn(watched), ...tests(watched)];
}

/** A press, from the moment it was seen until the line has started again; never a question why. */
function presses({ seen, rules }: Watched): readonly Condition[] {
  if (!rules.press.on) return [];
  const { index, state, openStop } = seen;
  return state.presses.flatMap((press): readonly Condition[] => {
    const { id, device, pressed, released, restarted, role, known, stop } = press;
    const holds = released === null || (restarted === null && openStop !== undefined && stop === openStop.id);
    const told = index.line.devices[device];
    if (known === 'count' || !holds || !told) return [];
    const facts = { kind: 'press', press: id, device: told.name, role, candidates: told.candidates } as const;
    return [
      {
        key: noticeKey('press', id),
        level: rules.levels.press,
        ...{ facts, since: pressed, look: [], ...sizeOf(seen) },
        ...(told.station === undefined ? {} : { station: told.station }),
        ...(stop === null ? {} : { stop }),
      },
    ];
  });
}

/** [PS5] Told at once, and kept until a person closes it. */
function ranOn({ seen, rules }: Watched): readonly Condition[] {
  if (!rules.ranOn.on) return [];
  const { devices, guards } = seen.index.line;
  return seen.state.open.map(({ id, kind, of, at }): Condition => {
    const guard = kind === 'guardOpenRunning';
    const name = (guard ? guards : devices).find((one) => one.id === of)?.name ?? of;
    const facts = { kind: 'ranOn', finding: id, of: guard ? 'guard' : 'device', name } as const;
    return { key: noticeKey('ranOn', id), level: rules.levels.ranOn, facts, since: at, look: [] };
  });
}

/**
 * [NC7] What has no test recorded for longer than the setting says, since the line was first heard at the earliest: all of it is
 * one thing to be told, since the first of it was due.
 */
function tests({ seen, rules, tested, recordedSince }: Watched): readonly Condition[] {
  if (!rules.test.on || !tested) return [];
  const everyDays = rules.test.days;
  const { devices, guards } = seen.index.line;
  const due = [...devices, ...guards].flatMap(({ id, name }) => {
    const last = tested.get(id);
    const from = last ?? recordedSince;
    const at = from === undefined ? seen.now : after(from, minutes(everyDays * 24 * 60));
    if (at > seen.now) return [];
    return [{ at, due: { device: id, name, last: last === undefined ? undefined : epochMs(last) } }];
  });
  if (due.length === 0) return [];
  const since = Math.min(...due.map(({ at }) => at)) as Instant;
  const facts = { kind: 'test', devices: due.map((one) => one.due), everyDays } as const;
  return [{ key: noticeKey('test'), level: rules.levels.test, facts, since, look: [] }];
}
