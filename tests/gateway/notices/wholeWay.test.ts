import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text as textOf } from 'node:stream/consumers';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { OutboxStep } from '../../../gateway/notices/outbox.ts';
import type { WatchStep } from '../../../gateway/notices/watcher.ts';
import type { NoticeRecord } from '../../../model/notices/notice.ts';
import { hookServer } from './hookServer.ts';

const program = join(import.meta.dirname, 'watching.ts');

async function run(folder: string, address: string, ...endAfter: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', program, folder, address, ...endAfter], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = once(child, 'close') as Promise<[number | null, string | null]>;
  const [said, [, signal]] = await Promise.all([textOf(child.stdout), ended]);
  return { said, signal };
}

describe('a gateway that is killed on the way from a notice to a person', () => {
  const steps: readonly (readonly [WatchStep | OutboxStep, number])[] = [
    ['judged', 1],
    ['written', 1],
    ['written', 2],
    ['offered', 1],
    ['offered', 2],
    ['taken', 1],
    ['taken', 2],
    ['marked', 1],
    ['marked', 4],
    ['sent', 1],
    ['sent', 3],
    ['settled', 1],
    ['settled', 4],
    ['recorded', 1],
    ['recorded', 4],
  ];

  it.each(steps)(
    'right after %s for the time %i has raised each notice once, and told each person of it under one id',
    async (step, times) => {
      const folder = mkdtempSync(join(tmpdir(), 'scoreline-whole-way-'));
      onTestFinished(() => rmSync(folder, { recursive: true }));
      const taken = new Map<string, string>();
      const receiver = await hookServer((response, { headers, body }) => {
        const id = String(headers['idempotency-key']);
        const { notice, person } = JSON.parse(body) as { notice: string; person: string };
        taken.set(id, `${notice} ${person}`);
        response.end();
      });
      expect((await run(folder, receiver.address, step, String(times))).signal).toBe('SIGKILL');
      const { said } = await run(folder, receiver.address);
      const notices = JSON.parse(said) as readonly NoticeRecord[];
      expect(notices.map(({ key, story }) => [key, story.map(({ what }) => what)])).toEqual([
        ['stops/fold', ['raised']],
        ['stops/pick', ['raised']],
      ]);
      const told = notices.flatMap(({ id, told: rows }) =>
        rows.map(({ person, way, failed }) => `${id} ${person} ${way} ${failed}`),
      );
      const wanted = notices.flatMap(({ id }) => ['12', '13'].map((person) => `${id} ${person}`));
      expect([...new Set(told)].toSorted()).toEqual(wanted.map((one) => `${one} pager false`).toSorted());
      expect([...taken.values()].toSorted()).toEqual(wanted.toSorted());
      // what was sent, and of which the disk did not know it yet, is all that may come twice
      expect(receiver.heard.length).toBeLessThanOrEqual(wanted.length + 4);
    },
  );
});
