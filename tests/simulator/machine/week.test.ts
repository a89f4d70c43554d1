import { beforeAll, expect, it } from 'vitest';
import { HOUR, type Instant, SECOND } from '../../../model/units/units.ts';
import type { LedgerEntry } from '../../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf } from '../../../simulator/ledger/ledger.ts';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { standard } from '../../../simulator/lines/variant.ts';
import {
  cartonsInPockets,
  type Machine,
  openEntries,
  runUntil,
  startMachine,
  takeEntries,
} from '../../../simulator/machine/machine.ts';
import type { PlcFact, TagValue } from '../../../simulator/machine/plc.ts';
import { monday } from '../simulatedLine.ts';

const CEILING = 600_000;
const hours = 7 * 24;
const shifts = hours / 8;
const wraps = new Map(
  tagsOf(standard).flatMap(({ tag, width }) => (width === undefined ? [] : [[tag, 2 ** width]])),
);

/** What an onlooker at the tags counts in a week. */
const seen = {
  changes: 0,
  busiest: 0,
  gained: new Map<string, number>(),
  rolledOver: new Set<string>(),
  inDark: 0,
  darks: 0,
};
let machine: Machine;
let ledger: Ledger;

beforeAll(() => {
  machine = startMachine({ seed: 2, start: monday });
  const entries: LedgerEntry[] = [];
  const watch = onlooker();
  for (let hour = 1; hour <= hours; hour += 1) {
    for (const fact of runUntil(machine, (monday + hour * HOUR) as Instant)) watch(fact);
    for (const entry of takeEntries(machine)) entries.push(entry);
  }
  ledger = ledgerOf([...entries, ...openEntries(machine)]);
}, CEILING);

function onlooker(): (fact: PlcFact) => void {
  const last = new Map<string, TagValue>();
  let dark = false;
  let second = 0;
  let inSecond = 0;
  return (fact) => {
    if ('link' in fact) {
      dark = !fact.link;
      seen.darks += dark ? 1 : 0;
      return;
    }
    seen.changes += 1;
    seen.inDark += dark ? 1 : 0;
    inSecond = Math.floor(fact.at / SECOND) === second ? inSecond + 1 : 1;
    second = Math.floor(fact.at / SECOND);
    const before = last.get(fact.tag);
    last.set(fact.tag, fact.value);
    if (before !== undefined) seen.busiest = Math.max(seen.busiest, inSecond);
    const width = wraps.get(fact.tag);
    if (width === undefined || typeof before !== 'number' || typeof fact.value !== 'number') return;
    if (fact.value < before) seen.rolledOver.add(fact.tag);
    seen.gained.set(fact.tag, (seen.gained.get(fact.tag) ?? 0) + ((fact.value - before + width) % width));
  };
}

const gained = (tag: string) => seen.gained.get(tag) ?? 0;
const perShift = (count: number) => count / shifts;

it('every blank that was picked is good, rejected, not loaded, crushed or still in a pocket', () => {
  const by = (fate: string) => ledger.cartons.filter((carton) => carton.fate === fate).length;
  const ended = by('good') + by('rejected') + by('notLoaded') + by('crushed');
  expect(ended).toBe(ledger.cartons.length);
  expect(gained('Pick.Blanks') + ledger.start.inPockets).toBe(ended + cartonsInPockets(machine));
});

it('the counters of the PLC count what the ledger knows', () => {
  const count = (test: (carton: Ledger['cartons'][number]) => boolean) => ledger.cartons.filter(test).length;
  expect(gained('Discharge.Good')).toBe(count(({ fate }) => fate === 'good'));
  expect(gained('Discharge.RejectTopOpen')).toBe(count(({ reason }) => reason === 'top-open'));
  expect(gained('Discharge.RejectBottomOpen')).toBe(count(({ reason }) => reason === 'bottom-open'));
  expect(gained('Discharge.RejectEmpty')).toBe(count(({ reason }) => reason === 'empty'));
  expect(gained('Discharge.RejectCrushed')).toBe(count(({ reason }) => reason === 'crushed'));
  expect(gained('Discharge.RejectCode')).toBe(count(({ reason }) => reason === 'code'));
  expect(gained('Pick.Missed')).toBe(ledger.missed.length);
  expect(gained('Stop.MainPanelCount')).toBe(
    ledger.presses.filter(({ device }) => device === 'main-panel').length,
  );
  const cleared = [...seen.gained]
    .filter(([tag]) => tag.endsWith('.Cleared'))
    .reduce((sum, [, n]) => sum + n, 0);
  expect(cleared).toBe(count(({ fate }) => fate === 'crushed'));
  expect(cleared).toBe(ledger.crushed.reduce((sum, { cartons }) => sum + cartons, 0));
});

it('16-bit and 32-bit counters roll over within a week', () => {
  for (const tag of ['Pick.Count', 'TuckCam.Count', 'Cartoner.Cycles', 'Discharge.Good']) {
    expect(seen.rolledOver).toContain(tag);
  }
});

it('nothing is written while the PLC has no power, and it happens within stops only', () => {
  expect(seen.darks).toBeGreaterThan(3);
  expect(seen.inDark).toBe(0);
  for (const { from, to } of ledger.darks) {
    const stop = ledger.stops.find(({ begin, end }) => begin < from && (end === undefined || end > from));
    expect(stop).toBeDefined();
    expect(to ?? from).toBeLessThanOrEqual(stop?.end ?? Number.POSITIVE_INFINITY);
  }
});

it('a shift has the stops, changeovers, rejects and presses of a line that runs fairly well', () => {
  const unplanned = ledger.stops.filter(
    ({ stopKind, truth }) => stopKind !== 'changeover' && truth !== 'break',
  );
  expect(perShift(unplanned.length)).toBeGreaterThan(7);
  expect(perShift(unplanned.length)).toBeLessThan(22);
  const lengths = unplanned.flatMap(({ begin, end }) => (end === undefined ? [] : [(end - begin) / SECOND]));
  const usual = lengths.filter((seconds) => seconds >= 15 && seconds <= 420).length / lengths.length;
  expect(usual).toBeGreaterThan(0.85);
  expect(perShift(ledger.changeovers.length)).toBeGreaterThan(0.5);
  expect(perShift(ledger.changeovers.length)).toBeLessThan(2.2);
  expect(perShift(ledger.presses.length)).toBeGreaterThan(0.4);
  expect(perShift(ledger.presses.length)).toBeLessThan(4);
  const ended = ledger.cartons.filter(({ mode, fate }) => mode === 'produce' && fate !== 'crushed');
  const share = (fate: string) => ended.filter((carton) => carton.fate === fate).length / ended.length;
  expect(share('rejected')).toBeGreaterThan(0.005);
  expect(share('rejected')).toBeLessThan(0.025);
  expect(share('good')).toBeGreaterThan(0.95);
});

it('the signals change some ten times a second, and never hundreds of times', () => {
  expect(seen.changes / (hours * 3_600)).toBeGreaterThan(6);
  expect(seen.changes / (hours * 3_600)).toBeLessThan(30);
  expect(seen.busiest).toBeLessThanOrEqual(100);
});

it('a jam comes most from the bottom major and the top major flap among the folding stations', () => {
  const jams = (number: number) => ledger.stops.filter((stop) => stop.number === number).length;
  expect(jams(51) + jams(91)).toBeGreaterThan(jams(41) + jams(81));
});

it('presses come before their release, release before reset, reset before restart, restart before a good carton', () => {
  expect(ledger.presses.length).toBeGreaterThan(5);
  for (const { pressed, released, reset, restarted, firstGood } of ledger.presses) {
    const moments = [pressed, released, reset, restarted, firstGood].filter((moment) => moment !== undefined);
    expect(moments).toEqual([...moments].sort((a, b) => a - b));
  }
});
