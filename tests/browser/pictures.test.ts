import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readLineFile } from '../../gateway/binding/binding.ts';
import { readOrders } from '../../gateway/binding/orders.ts';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import type { Entry } from '../../model/entries/entries.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Change } from '../../model/signals/signals.ts';
import { epochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import type { LineView } from '../../model/view/view.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { changesOf, monday } from '../simulator/simulatedLine.ts';
import { openStage, type Stage } from './stage.ts';

/** A shift of the simulated line, and two moments of it: a jam at the bottom major flap, and rest. */
const SEED = 1;
const JAM = instantFromMs(Date.parse('2026-03-16T09:24:40Z'));
const REST = instantFromMs(Date.parse('2026-03-16T08:50:00Z'));

const shots = [
  { name: 'wall', at: JAM, path: '/wall', size: { width: 1920, height: 1080 } },
  { name: 'wall-dark', at: JAM, path: '/wall?theme=dark', size: { width: 1920, height: 1080 } },
  { name: 'wall-quiet', at: REST, path: '/wall', size: { width: 1920, height: 1080 } },
  { name: 'phone', at: JAM, path: '/', size: { width: 390, height: 844 } },
  { name: 'panel', at: REST, path: '/panel/front', size: { width: 1280, height: 800 } },
] as const;

const output = join(import.meta.dirname, 'output');
/** Where the README's pictures stand; SCORELINE_PICTURES=1 renews them. */
const kept = join(import.meta.dirname, 'pictures');

let stage: Stage;
const views = new Map<Instant, LineView>();

beforeAll(async () => {
  const bound = await readLineFile(demoLineFile);
  const machine = startMachine({ seed: SEED, start: monday });
  const fold = new LineFold(bound.line);
  fold.take(listed(await readOrders(bound.ordersFile!, bound.line), bound.line.signals.length - 1));
  for (const at of [REST, JAM]) {
    fold.take(changesOf(bound, runUntil(machine, at)));
    views.set(at, viewOf(fold, at, { servers: [{ id: 'plc', up: true }] }));
  }
  stage = await openStage(views.get(REST)!);
});

afterAll(async () => stage?.end());

function listed(
  orders: readonly { number: string; size: string; blend: string; quantity: number }[],
  signal: number,
): Change[] {
  return orders.map((order) => {
    const entry: Entry = {
      ...order,
      kind: 'orderListed',
      id: order.number,
      at: epochMs(monday),
      author: { kind: 'file', file: 'orders' },
    };
    return { signal, at: 1 as Instant, received: monday, status: 0, value: JSON.stringify(entry) };
  });
}

describe('the pictures of the README', () => {
  it.each(shots)(
    '$name shows a simulated shift, and its cartons lost add up on the screen',
    async ({ name, at, path, size }) => {
      const view = views.get(at)!;
      stage.show(view);
      const page = await stage.page(size.width, size.height);
      await page.goto(`${stage.address}${path}`);
      await page.waitForSelector('main:not(.waiting)');
      await page.waitForTimeout(500);
      mkdirSync(output, { recursive: true });
      const file = join(output, `readme-${name}.png`);
      const picture = await page.screenshot({ path: file });
      expect(picture.length).toBeGreaterThan(20_000);
      const text = ((await page.locator('body').textContent()) ?? '').replaceAll(/\s+/g, ' ');
      expect(view.path.total).toBeGreaterThan(500);
      if (name !== 'panel') expect(text).toContain(view.path.total.toLocaleString('en-GB'));
      expect(view.path.total).toBe(view.path.possible - view.path.good);
      if (process.env.SCORELINE_PICTURES === '1') {
        mkdirSync(kept, { recursive: true });
        copyFileSync(file, join(kept, `${name}.png`));
      }
    },
  );
});
