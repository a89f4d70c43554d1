import { expect, it } from 'vitest';
import { type StateName, stateNumbers } from '../../../simulator/machine/plant.ts';
import { type TagType, tagsOf } from '../../../simulator/lines/tags.ts';
import { standard } from '../../../simulator/lines/variant.ts';
import { runFor } from '../simulatedLine.ts';

const names: ReadonlyMap<number, StateName> = new Map(
  Object.entries(stateNumbers).map(([name, number]) => [number, name as StateName]),
);

/** Two days and a half: every kind of stop happens. */
const { told, ledger } = runFor(60, { seed: 7 });

/** What may follow what in PackML (ISA-TR88.00.02); Stopping and Aborting may follow almost anything. */
const follows: Readonly<Partial<Record<StateName, readonly StateName[]>>> = {
  Execute: ['Starting', 'Unholding', 'Unsuspending'],
  Holding: ['Execute'],
  Held: ['Holding'],
  Unholding: ['Held'],
  Suspending: ['Execute'],
  Suspended: ['Suspending'],
  Unsuspending: ['Suspended'],
  Stopped: ['Stopping', 'Clearing'],
  Resetting: ['Stopped'],
  Idle: ['Resetting'],
  Starting: ['Idle'],
  Aborted: ['Aborting'],
  Clearing: ['Aborted'],
};

it('states follow one another as PackML has it, through every kind of stop', () => {
  const states = told.flatMap((fact) =>
    'tag' in fact && fact.tag === 'Cartoner.State' ? [names.get(Number(fact.value))] : [],
  );
  expect(new Set(states).size).toBe(Object.keys(stateNumbers).length);
  states.forEach((state, index) => {
    const before = states[index - 1];
    const allowed = state && follows[state];
    if (before && allowed) expect(allowed, `${before} to ${state}`).toContain(before);
  });
}, 600_000);

it('the first-out word is zero while it runs, and keeps the first number until it runs again', () => {
  let state = 6;
  let word = 0;
  for (const fact of told) {
    if (!('tag' in fact)) continue;
    if (fact.tag === 'Cartoner.State') state = Number(fact.value);
    if (fact.tag !== 'Cartoner.FirstOut') continue;
    const number = Number(fact.value);
    if (number === 0) expect(state).toBe(stateNumbers.Execute);
    else expect(word).toBe(0);
    word = number;
  }
}, 600_000);

it('a stop device pressed while the line stands leaves the first-out word as it is; pressed while it runs it is 301', () => {
  expect(ledger.presses.some(({ role }) => role === 'caused')).toBe(true);
  expect(ledger.presses.some(({ role }) => role === 'during')).toBe(true);
  for (const { pressed, role } of ledger.presses) {
    const stop = ledger.stops.find(
      ({ begin, end }) => begin - 200_000 <= pressed && (end ?? pressed) >= pressed,
    );
    expect(stop).toBeDefined();
    if (role === 'caused') {
      expect(stop?.number).toBe(301);
      expect((stop?.begin ?? 0) - pressed).toBeGreaterThan(90_000);
      expect((stop?.begin ?? 0) - pressed).toBeLessThan(110_000);
    } else expect(stop?.number).not.toBe(301);
  }
}, 600_000);

const fits: { readonly [type in TagType]: (value: unknown) => boolean } = {
  Boolean: (value) => typeof value === 'boolean',
  UInt16: (value) => whole(value, 0, 65_535),
  UInt32: (value) => whole(value, 0, 4_294_967_295),
  Int32: (value) => whole(value, -2_147_483_648, 2_147_483_647),
  Float: (value) => typeof value === 'number' && Number.isFinite(value),
  Double: (value) => typeof value === 'number' && Number.isFinite(value),
  String: (value) => typeof value === 'string',
};

function whole(value: unknown, low: number, high: number): boolean {
  return Number.isInteger(value) && (value as number) >= low && (value as number) <= high;
}

it('every value fits the type of its tag, also that of a counter that has rolled over', () => {
  const types = new Map(tagsOf(standard).map(({ tag, type }) => [tag, type]));
  const wrong = told.filter((fact) => 'tag' in fact && !fits[types.get(fact.tag)!](fact.value));
  expect(wrong).toEqual([]);
  const beats = told.flatMap((fact) =>
    'tag' in fact && fact.tag === 'Cartoner.Heartbeat' ? [fact.value] : [],
  );
  // one a second: in two days and a half it rolls over three times
  expect(beats.filter((value, place) => value === 0 && place > 0).length).toBe(3);
});
