import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { standard, type Variant } from '../../../simulator/lines/variant.ts';
import { lineFileText } from '../../../simulator/lines/variants.ts';
import { bundledOrders, orderAt, ordersText } from '../../../simulator/machine/orders.ts';
import { presentFacts } from '../../../simulator/machine/machine.ts';
import { runFor } from '../simulatedLine.ts';

const bundled = (name: string) =>
  readFileSync(new URL(`../../../simulator/lines/${name}`, import.meta.url), 'utf8');

it('the standard variant says what the bundled line file says', () => {
  expect(parse(lineFileText(standard))).toEqual(parse(bundled('line-3.yaml')));
});

it('the orders that the machine makes first are those of the bundled list', () => {
  expect(ordersText(bundledOrders)).toBe(bundled('orders.csv'));
});

it('after the listed orders it goes on through the sizes with numbers that follow', () => {
  const next = [4, 5, 6, 7].map((place) => orderAt(bundledOrders, 1, place));
  expect(next.map(({ number, size }) => [number, size])).toEqual([
    ['4476', 'sampler-12'],
    ['4477', 'sachet-48'],
    ['4478', 'sachet-48'],
    ['4479', 'sachet-20'],
  ]);
});

const variants: readonly Partial<Variant>[] = [
  {},
  { loading: 'four' },
  { loading: 'automatic' },
  { buttons: 'series' },
  { nearMisses: false },
  { trialTag: true },
  { encoders: false, firstOut: false, twins: false, stateTag: false, nearMisses: false },
];

for (const change of variants) {
  it(`a line file binds every tag that its machine has: ${JSON.stringify(change)}`, () => {
    const variant = { ...standard, ...change };
    const file = parse(lineFileText(variant)) as { signals: { tag: string }[] };
    const { machine } = runFor(0.02, { variant: change });
    expect(file.signals.map(({ tag }) => tag)).toEqual(
      presentFacts(machine).map((fact) => ('tag' in fact ? fact.tag : 'link')),
    );
    expect(new Set(tagsOf(variant).map(({ tag }) => tag)).size).toBe(file.signals.length);
  });
}

it('at most four adjustments have encoders, and a circuit names the buttons it may stand for', () => {
  const file = parse(lineFileText({ ...standard, buttons: 'series' })) as {
    signals: { role: string }[];
    devices: { kind?: string; candidates?: string[] }[];
  };
  expect(file.signals.filter(({ role }) => role === 'adjustment').length).toBe(4);
  expect(file.devices).toMatchObject([
    { kind: 'circuit', candidates: ['main panel', 'loading front', 'loading back'] },
  ]);
});
