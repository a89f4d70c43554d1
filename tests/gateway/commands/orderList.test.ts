import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { followOrders, listOrders } from '../../../gateway/commands/orderList.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { changes, running, smallLine } from '../../model/smallLine.ts';
import { msAt, stand } from '../live/shell.ts';

const line = smallLine();
const head = 'number,size,blend,quantity,due';
let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scoreline-orders-'));
  file = join(folder, 'orders.csv');
});
afterEach(() => rmSync(folder, { recursive: true }));

function write(...rows: string[]): void {
  writeFileSync(file, `${[head, ...rows].join('\n')}\n`);
}

async function desk() {
  const stood = await stand(line, { second: 10 });
  await stood.live.offer(changes(line, running()));
  let ids = 0;
  const newId = () => {
    ids += 1;
    return `listed-${ids}`;
  };
  return { ...stood, newId, bound: { line, servers: [], tags: new Map(), ordersFile: file } };
}

describe('the list of orders', () => {
  it('puts new and changed rows on the tape, and nothing for rows that are as they were', async () => {
    const { live, tape, bound, newId } = await desk();
    write('7701,sachet-20,mint,5000,', '7702,sachet-48,rose,900,');
    await listOrders(bound, live, newId, msAt(10));
    const end = tape.end(line.id);
    expect(end).toBe(running().length + 2);
    await listOrders(bound, live, newId, msAt(11));
    expect(tape.end(line.id)).toBe(end);
    write('7701,sachet-20,mint,5200,', '7702,sachet-48,rose,900,');
    await listOrders(bound, live, newId, msAt(12));
    expect(tape.end(line.id)).toBe(end + 1);
    expect(live.view().orders.map(({ number, quantity }) => [number, quantity])).toEqual([
      ['7701', 5200],
      ['7702', 900],
    ]);
  });

  it('is taken again when its file changes; what is wrong in it is said, and the orders stay', async () => {
    const { live, bound, newId } = await desk();
    write('7701,sachet-20,mint,5000,');
    await listOrders(bound, live, newId, msAt(10));
    const said: string[] = [];
    const log = { warn: (words: string) => void said.push(words) };
    const stop = followOrders(bound, live, { newId, now: () => msAt(20), log: log as never, lookMs: 20 });
    try {
      write('7701,sachet-99,mint,5000,');
      await until(() => said.length > 0);
      expect(said[0]).toContain('sachet-99');
      expect(live.view().orders.map(({ number }) => number)).toEqual(['7701']);
      await new Promise((resolve) => setTimeout(resolve, 100));
      expect(said).toHaveLength(1);
      write('7701,sachet-20,mint,5000,', '7703,sachet-48,rose,100,');
      await until(() => live.view().orders.length === 2);
    } finally {
      await stop();
    }
  });

  it('that could not be recorded is tried again, although its file stays as it is', async () => {
    let full = false;
    const stood = await stand(line, {
      second: 10,
      through: (tape) => ({
        ...tape,
        append: (id, some) =>
          full
            ? Promise.reject(new LineError('The disk is full.', { why: 'No space.', mend: 'Make room.' }))
            : tape.append(id, some),
      }),
    });
    await stood.live.offer(changes(line, running()));
    write('7701,sachet-20,mint,5000,');
    full = true;
    const said: string[] = [];
    const log = { warn: (words: string) => void said.push(words) };
    const bound = { line, servers: [], tags: new Map(), ordersFile: file };
    let ids = 0;
    const newId = () => `listed-${ids++}`;
    const stop = followOrders(bound, stood.live, {
      newId,
      now: () => msAt(20),
      log: log as never,
      lookMs: 20,
    });
    try {
      await until(() => said.length > 0);
      full = false;
      await until(() => stood.live.view().orders.length === 1);
      expect(said).toEqual(['The disk is full. No space. Make room.']);
    } finally {
      await stop();
    }
  });
});

async function until(holds: () => boolean): Promise<void> {
  const ceiling = Date.now() + 60_000;
  while (!holds()) {
    if (Date.now() > ceiling) throw new Error('It never came');
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}
