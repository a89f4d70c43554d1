import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text as textOf } from 'node:stream/consumers';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { OutboxStep } from '../../../gateway/notices/outbox.ts';
import { hookServer } from './hookServer.ts';

const program = join(import.meta.dirname, 'sender.ts');

/** Runs the sender to its end; what it printed, and by which signal it ended. */
async function run(folder: string, address: string, ...endAfter: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', program, folder, address, ...endAfter], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = once(child, 'close') as Promise<[number | null, string | null]>;
  const [said, [, signal]] = await Promise.all([textOf(child.stdout), ended]);
  return { said: said.split('\n').filter(Boolean), signal };
}

describe('an outbox whose process is killed', () => {
  const steps: readonly (readonly [OutboxStep, number])[] = [
    ['taken', 1],
    ['marked', 1],
    ['sent', 1],
    ['settled', 1],
    ['recorded', 1],
    ['sent', 3],
    ['withdrawn', 1],
  ];

  it.each(steps)(
    '[NR3] right after %s for the time %i loses nothing, a receiver that honours the id has each once, and what was taken back never',
    async (step, times) => {
      const folder = mkdtempSync(join(tmpdir(), 'scoreline-kills-'));
      onTestFinished(() => rmSync(folder, { recursive: true }));
      const taken = new Map<string, string>();
      const order: string[] = [];
      const receiver = await hookServer((response, { headers, body }) => {
        const id = String(headers['idempotency-key']);
        if (!taken.has(id)) order.push((JSON.parse(body) as { notice: string }).notice);
        if (taken.has(id)) expect(body).toBe(taken.get(id));
        taken.set(id, body);
        response.end();
      });
      const first = await run(folder, receiver.address, step, String(times));
      expect(first.signal).toBe('SIGKILL');
      const second = await run(folder, receiver.address);
      expect(second.said.at(-1)).toBe('through');
      expect(order).toEqual(['n1', 'n2', 'n3']);
      const recorded = new Set([...first.said, ...second.said].filter((one) => one !== 'through'));
      expect([...recorded].toSorted()).toEqual(['n1 told', 'n2 told', 'n3 told', 'taken withdrawn']);
      // one that was sent, and of which the disk did not know it yet, is the only one that may come twice
      expect(receiver.heard.length).toBeLessThanOrEqual(4);
    },
  );

  it('while the receiver has the request and has not answered, sends it again with the same id', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'scoreline-kills-'));
    onTestFinished(() => rmSync(folder, { recursive: true }));
    const receiver = await hookServer((response, _heard, count) => {
      if (count > 1) response.end();
    });
    const child = spawn(process.execPath, ['--import', 'tsx', program, folder, receiver.address], {
      stdio: 'ignore',
    });
    await expect.poll(() => receiver.heard.length, { timeout: 240_000 }).toBe(1);
    child.kill('SIGKILL');
    await once(child, 'close');
    expect((await run(folder, receiver.address)).said.at(-1)).toBe('through');
    const [one, again, ...others] = receiver.heard.map(({ headers }) => headers['idempotency-key']);
    expect(again).toBe(one);
    expect(others).toHaveLength(2);
  });
});
