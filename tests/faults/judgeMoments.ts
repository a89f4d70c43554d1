import type { Instant } from '../../model/units/units.ts';
import { type Seen, tags } from './seen.ts';

/** Something that began at a moment: a size, an order, an opening of a guard, a changeover. */
interface Begun {
  readonly at: Instant;
  readonly what: string;
}

/** What a line's sizes, orders, guards and changeovers did, each at the moment at which it was told. */
export function wrongMoments(seen: Seen): readonly string[] {
  return [...wrongSizes(seen), ...wrongOrders(seen), ...wrongOpenings(seen), ...wrongChangeovers(seen)];
}

/** Those that were to be seen were told, and none that was not. */
function compared(
  seen: Seen,
  name: string,
  on: readonly string[],
  made: readonly Begun[],
  told: readonly Begun[],
  isVouched: (one: Begun) => boolean = () => true,
): readonly string[] {
  const off = seen.off(...on);
  const isOf = (a: Begun, b: Begun) => a.what === b.what && Math.abs(a.at - b.at) <= off;
  const text = ({ at, what }: Begun) => `${at} ${what}`;
  const only = (some: readonly Begun[], others: readonly Begun[]) =>
    some.filter((a) => seen.isSeen(a.at, ...on) && isVouched(a) && !others.some((b) => isOf(a, b)));
  return [
    ...only(made, told).map((one) => `${name} not seen: ${text(one)}`),
    ...only(told, made).map((one) => `${name} that was none: ${text(one)}`),
  ];
}

/** A size begins when the tag says so; one that comes late begins so much later. */
export function sizesTold(seen: Seen): readonly Begun[] {
  return seen.run.ledger.targets
    .filter(({ size }, place, all) => all[place - 1]?.size !== size)
    .map(({ at, size }) => ({ at: place(seen, tags.size, at), what: size }));
}

/** Orders, likewise; undefined where the machine's own facts are not known. */
export function ordersTold(seen: Seen): readonly Begun[] | undefined {
  return seen.run.facts
    ?.filter(({ tag }) => tag === tags.order)
    .map(({ at, value }) => ({ at: place(seen, tags.order, at), what: String(value) }));
}

/** What was so before anything was told was told then. */
function place(seen: Seen, tag: string, at: Instant): Instant {
  return at <= seen.start ? at : seen.toldAt(tag, at);
}

/** The first is what was so when somebody began to look. */
const rest = <Item>(list: readonly Item[]): readonly Item[] => list.slice(1);

function wrongSizes(seen: Seen): readonly string[] {
  const told = seen.events.flatMap((event) =>
    event.kind === 'SizeBegan' ? [{ at: event.at, what: event.size }] : [],
  );
  return compared(seen, 'a size', [tags.size], rest(sizesTold(seen)), rest(told));
}

function wrongOrders(seen: Seen): readonly string[] {
  const made = ordersTold(seen);
  if (!made) return [];
  const told = seen.events.flatMap((event) =>
    event.kind === 'OrderBegan' ? [{ at: event.at, what: event.order }] : [],
  );
  return compared(
    seen,
    'an order',
    [tags.order],
    made.filter(({ at }) => at > seen.start),
    rest(told),
  );
}

function wrongOpenings(seen: Seen): readonly string[] {
  // locked out, nobody watched
  const isWatched = ({ at }: Begun) => seen.isolated.every(({ from, to }) => at < from || at > to);
  return seen.signals('guard').flatMap((signal) => {
    const made = seen.run.ledger.guards.flatMap(({ guard, opened }) =>
      guard === signal.of ? [{ at: opened, what: guard }] : [],
    );
    const told = seen.events.flatMap((event) =>
      event.kind === 'GuardMoved' && event.open && event.guard === signal.of
        ? [{ at: event.at, what: event.guard }]
        : [],
    );
    const on = [seen.tagOf(signal)];
    return compared(seen, 'an opening', on, made, told, isWatched);
  });
}

/** Tags by which a changeover begins. */
const changing = [tags.state, tags.mode, tags.firstOut] as const;

/** A changeover begins with its stop; where its size is told when it is over already, another one begins then ([CH1]). */
function wrongChangeovers(seen: Seen): readonly string[] {
  const { ledger } = seen.run;
  const isOver = ({ at }: Begun) =>
    ledger.changeovers.every(
      ({ begin, returned }) => at < begin || (returned !== undefined && at > returned),
    );
  const made = [
    ...ledger.changeovers.map(({ begin }) => begin),
    ...rest(sizesTold(seen))
      .filter(isOver)
      .map(({ at }) => at),
  ].map((at) => ({ at, what: '' }));
  const told = seen.events.flatMap((event) =>
    event.kind === 'ChangeoverBegan' ? [{ at: event.changeover.begin, what: '' }] : [],
  );
  const isClear = ({ at }: Begun) => !seen.isBlurred(at, at);
  return [...compared(seen, 'a changeover', changing, made, told, isClear), ...wrongKinds(seen)];
}

function wrongKinds(seen: Seen): readonly string[] {
  const off = seen.off(...changing, tags.size);
  const ends = seen.events.flatMap((event) => (event.kind === 'ChangeoverEnded' ? [event.changeover] : []));
  return seen.run.ledger.changeovers.flatMap(({ begin, returned, change, fromSize, toSize }) => {
    const told = ends.find((end) => Math.abs(end.begin - begin) <= off);
    const isSeen = returned !== undefined && seen.isAllSeen(begin, returned, ...changing, tags.size);
    const isBlurred = seen.isBlurred(begin, returned ?? begin);
    const isLate = seen.toldAt(tags.size, begin) > begin;
    if (!told || !isSeen || isLate || isBlurred) return [];
    return told.kind === change && told.from === fromSize && told.to === toSize
      ? []
      : [`a changeover of another kind: ${begin} ${told.kind} ${told.from} ${told.to}`];
  });
}
