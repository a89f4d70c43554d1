import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';
import { Outbox, type OutboxParts } from '../../../gateway/notices/outbox.ts';
import { BOUNDS, type OutboxBounds } from '../../../gateway/notices/outboxBounds.ts';
import { type Letter, openOutboxStore, type OutboxStore } from '../../../gateway/notices/outboxStore.ts';
import type { Outcome, Parcel, Way } from '../../../gateway/notices/ways/way.ts';
import type { EpochMs } from '../../../model/units/units.ts';
import { TestClock } from './testClock.ts';

export const MINUTE = 60_000;
export const told: Outcome = { kind: 'told' };
export const clockAt = (clock: string) => Date.parse(`2026-03-03T${clock}:00Z`) as EpochMs;
export const never = () => new Promise<Outcome>(() => {});

export let folder: string;
export let clock: TestClock;
export let stores: OutboxStore[];
export let logged: string[];

/** Each test of a file has a folder and a clock of its own. */
export function withOutboxes(): void {
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scoreline-outbox-'));
    clock = new TestClock();
    stores = [];
    logged = [];
  });
  afterEach(() => {
    for (const store of stores) store.close();
    rmSync(folder, { recursive: true });
  });
}

export type Answers = (parcel: Parcel, signal: AbortSignal) => Outcome | Promise<Outcome>;

interface Wish {
  readonly bounds?: Partial<OutboxBounds>;
  readonly record?: OutboxParts['record'];
  readonly unwanted?: OutboxParts['unwanted'];
}

/** An outbox on the folder, with ways that answer as they are told to. */
export function open(
  answers: Readonly<Record<string, Answers>>,
  { bounds = {}, record, unwanted }: Wish = {},
) {
  const store = openOutboxStore(folder);
  stores.push(store);
  const sent: string[] = [];
  const ways = Object.entries(answers).map(([id, answer]): [string, Way] => [
    id,
    {
      id,
      send: async (one, signal) => {
        sent.push(`${one.way} ${one.person} ${one.message.notice}`);
        return answer(one, signal);
      },
    },
  ]);
  const say = (_object: unknown, text?: string) => void logged.push(text ?? String(_object));
  const log = { info: say, warn: say, error: say };
  const more = { ...(record && { record }), ...(unwanted && { unwanted }) };
  const parts = { store, ways: new Map(ways), clock, log, bounds: { ...BOUNDS, ...bounds }, ...more };
  return { outbox: new Outbox(parts), store, sent };
}

export const seen = ({ message, state, tries, why }: Letter) => [message.notice, state, tries, why?.trouble];
