import type { LineIndex } from '../fold/lineIndex.ts';
import { CHANGEOVERS_KEPT } from '../fold/changeovers.ts';
import type { ChangeoverRecord, FoldState, OpenMatter, PressRecord, StopRecord } from '../fold/state.ts';
import { type Condition, noticeKey } from '../notices/condition.ts';
import type { DueDevice } from '../notices/notice.ts';
import type { NoticeRules } from '../notices/settings.ts';
import type { RecordedTest } from '../past/devicesPast.ts';
import type { RecordBodies } from '../records/records.ts';
import {
  after,
  between,
  epochMs,
  type Instant,
  instantFromMs,
  millis,
  minutes,
  type Span,
} from '../units/units.ts';
import { allowedFor } from './output.ts';

/** Something that held for a stretch of the past; of the same key another one may follow, with other facts. */
export interface Held {
  readonly condition: Condition;
  readonly from: Instant;
  readonly to: Instant;
}

/** What the records say of the line itself: all but what stations are judged by, and what it made. */
export interface HeldAsked {
  readonly index: LineIndex;
  readonly rules: NoticeRules;
  /** What was over by then is left out where it changes nothing of what came later. */
  readonly from: Instant;
  /** What still holds by then has not ended. */
  readonly to: Instant;
  readonly presses: readonly PressRecord[];
  readonly stops: readonly StopRecord[];
  readonly findings: readonly OpenMatter[];
  readonly gaps: readonly RecordBodies['gap'][];
  /** With those before, by which it is told how long one usually takes; the oldest first. */
  readonly changeovers: readonly ChangeoverRecord[];
  /** All that were ever recorded, the oldest first. */
  readonly tests: readonly RecordedTest[];
  readonly recordedSince: Instant;
}

/** [NT1] When what the settings ask for held, by the records: the same as is asked of the line as it runs. */
export function heldThen(asked: HeldAsked): readonly Held[] {
  const { press, ranOn, unseen, changeover, test } = asked.rules;
  return [
    ...(press.on ? pressesHeld(asked) : []),
    ...(ranOn.on ? ranOnHeld(asked) : []),
    ...(unseen.on ? unseenHeld(asked) : []),
    ...(changeover.on ? changeoversHeld(asked) : []),
    ...(test.on ? testsHeld(asked) : []),
  ];
}

function pressesHeld({ index, rules, to, presses, stops }: HeldAsked): readonly Held[] {
  const ends = new Map(stops.map(({ id, end }) => [id, end]));
  return presses.flatMap(({ id, device, pressed, released, restarted, role, known, stop }) => {
    const told = index.line.devices[device];
    if (known === 'count' || !told) return [];
    const started = restarted ?? (stop === null ? null : (ends.get(stop) ?? null));
    const over = stop === null ? released : released && started && Math.max(released, started);
    const facts = { kind: 'press', press: id, device: told.name, role, candidates: told.candidates } as const;
    const condition: Condition = {
      ...{ key: noticeKey('press', id), level: rules.levels.press, facts, since: pressed, look: [] },
      ...(told.station === undefined ? {} : { station: told.station }),
      ...(stop === null ? {} : { stop }),
    };
    return [{ condition, from: pressed, to: (over ?? to) as Instant }];
  });
}

/** Only a person closes one: until then nothing else is told of the same. */
function ranOnHeld({ index, rules, to, findings }: HeldAsked): readonly Held[] {
  const { devices, guards } = index.line;
  return findings.map(({ id, kind, of, at }) => {
    const guard = kind === 'guardOpenRunning';
    const name = (guard ? guards : devices).find((one) => one.id === of)?.name ?? of;
    const facts = { kind: 'ranOn', finding: id, of: guard ? 'guard' : 'device', name } as const;
    const key = noticeKey('ranOn', id);
    return { condition: { key, level: rules.levels.ranOn, facts, since: at, look: [] }, from: at, to };
  });
}

/** Also time that was told afterwards to have been stood: nobody could tell then. */
function unseenHeld({ rules, gaps }: HeldAsked): readonly Held[] {
  return gaps.flatMap(({ from: since, to }): readonly Held[] => {
    const from = after(since, minutes(rules.unseen.minutes));
    if (from >= to) return [];
    const facts = { kind: 'unseen', since: epochMs(since) } as const;
    const condition = {
      ...{ key: noticeKey('unseen'), level: rules.levels.unseen, facts, since, look: [] },
    };
    return [{ condition, from, to }];
  });
}

/** One that is not over ends where the next begins, so those before it are what was known then. */
function changeoversHeld({ rules, to, changeovers }: HeldAsked): readonly Held[] {
  const finished: FoldState['changeovers'] = [];
  return changeovers.flatMap((open): readonly Held[] => {
    const { begin, kind, from, to: size } = open;
    const known = finished.slice(-CHANGEOVERS_KEPT);
    if (open.atRate !== null && open.end !== null)
      finished.push({ kind, from, to: size, lasted: between(begin, open.end) });
    const { allowed, by } = allowedFor({ kind, from, to: size }, known, rules.changeover);
    // it is told when it has lasted longer, and not when just as long
    const told = after(begin, (Math.floor(allowed) + 1) as Span);
    const over = open.end ?? to;
    if (told >= over) return [];
    const facts = {
      kind: 'changeover',
      ...{ lasted: millis(between(begin, told)), allowed: millis(Math.round(allowed) as Span), by },
    } as const;
    const key = noticeKey('changeover', begin.toString(36));
    return [
      {
        condition: { key, level: rules.levels.changeover, facts, since: begin, look: [] },
        from: told,
        to: over,
      },
    ];
  });
}

/** [NC7] Each time that the list of what is due becomes another one. */
function testsHeld({ index, rules, from: since, to, tests, recordedSince }: HeldAsked): readonly Held[] {
  const every = minutes(rules.test.days * 24 * 60);
  const due = [...index.line.devices, ...index.line.guards].flatMap(({ id, name }) => {
    const own = tests.filter(({ device }) => device === id).map(({ at }) => instantFromMs(at));
    return [undefined, ...own].flatMap((last, place) => {
      const from = after(last ?? recordedSince, every);
      const until = Math.min(own[place] ?? to, to) as Instant;
      const device: DueDevice = { device: id, name, last: last === undefined ? undefined : epochMs(last) };
      return from < until && until > since ? [{ device, from, to: until }] : [];
    });
  });
  const moments = [...new Set(due.flatMap((one) => [one.from, one.to]))].sort((a, b) => a - b);
  return moments.flatMap((from, place): readonly Held[] => {
    const now = due.filter((one) => one.from <= from && from < one.to);
    if (now.length === 0) return [];
    const facts = {
      kind: 'test',
      devices: now.map(({ device }) => device),
      everyDays: rules.test.days,
    } as const;
    const condition = {
      ...{ key: noticeKey('test'), level: rules.levels.test, facts, since: now[0]!.from, look: [] },
    };
    return [{ condition, from, to: moments[place + 1] ?? to }];
  });
}
