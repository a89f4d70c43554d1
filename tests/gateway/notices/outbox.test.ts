import fc from 'fast-check';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { parcel } from './parcels.ts';
import { failed } from '../../../gateway/notices/ways/way.ts';
import type { Letter } from '../../../gateway/notices/outboxStore.ts';
import { describe, expect, it } from 'vitest';
import {
  MINUTE,
  told,
  never,
  folder,
  clock,
  stores,
  logged,
  open,
  seen,
  type Answers,
  withOutboxes,
} from './outboxSite.ts';

withOutboxes();

describe('what is given to the outbox', () => {
  it('is sent once, is told, and is not taken again', async () => {
    const { outbox, store, sent } = open({ mail: () => told });
    outbox.offer([parcel('n1'), parcel('n2')]);
    expect(store.counts()).toEqual({ waiting: 2, sending: 0, told: 0, dead: 0, withdrawn: 0 });
    await clock.pass(1);
    outbox.offer([parcel('n1')]);
    await clock.pass(MINUTE);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n2']);
    expect(store.newest(10).map(seen)).toEqual([
      ['n2', 'told', 1, undefined],
      ['n1', 'told', 1, undefined],
    ]);
  });

  it('is tried again after 5, 10, 20 … seconds, and holds up nothing that comes after it', async () => {
    let refusals = 3;
    const { outbox, store, sent } = open({
      mail: ({ message }) => (message.notice === 'n1' && refusals-- > 0 ? failed('notNow') : told),
    });
    outbox.offer([parcel('n1'), parcel('n2')]);
    await clock.pass(1);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n2']);
    for (const [ms, count] of [
      [4998, 2],
      [1, 3],
      [9999, 3],
      [1, 4],
      [19_999, 4],
      [1, 5],
    ] as const) {
      await clock.pass(ms);
      expect(sent.length, `${clock.steady()} ms`).toBe(count);
    }
    expect(sent.slice(2)).toEqual(['mail 12 n1', 'mail 12 n1', 'mail 12 n1']);
    expect(store.counts().told).toBe(2);
  });

  it('is not tried before the receiver asks, but never later than the longest wait', async () => {
    const asks = [60_000, 1e12];
    const { outbox, sent } = open({ mail: () => ({ ...failed('notNow'), waitMs: asks.shift() ?? 0 }) });
    outbox.offer([parcel('n1')]);
    await clock.pass(59_999);
    expect(sent).toHaveLength(1);
    await clock.pass(1);
    expect(sent).toHaveLength(2);
    await clock.pass(5 * MINUTE);
    expect(sent).toHaveLength(3);
  });

  it('is given up at once when it would fail again, and after twenty tries else; each is kept with why', async () => {
    const { outbox, store, sent } = open({
      mail: ({ message }) => failed('refused', { code: '550', lasting: message.notice === 'n1' }),
    });
    outbox.offer([parcel('n1'), parcel('n2'), parcel('n3', 'gone')]);
    await clock.pass(24 * 60 * MINUTE);
    expect(sent).toHaveLength(21);
    expect(store.newest(10, 'dead').map(seen)).toEqual([
      ['n3', 'dead', 0, 'noWay'],
      ['n2', 'dead', 20, 'refused'],
      ['n1', 'dead', 1, 'refused'],
    ]);
    expect(logged.filter((text) => text.includes('not tried again'))).toHaveLength(3);
  });

  it('is tried again when a person says so, and only what was given up', async () => {
    let works = false;
    const { outbox, store } = open({ mail: () => (works ? told : failed('refused', { lasting: true })) });
    const { id } = parcel('n1');
    outbox.offer([parcel('n1')]);
    expect(outbox.again(id)).toBe('notDead');
    await clock.pass(1);
    expect(store.find(id)).toMatchObject({ state: 'dead', why: { trouble: 'refused' } });
    works = true;
    expect(outbox.again(id)).toBe('again');
    await clock.pass(1);
    expect(store.find(id)).toMatchObject({ state: 'told', tries: 2 });
    expect(store.find(id)).not.toHaveProperty('why');
    expect(outbox.again(id)).toBe('notDead');
    expect(outbox.again('none')).toBe('unknown');
  });

  it('is kept as given up where too many wait', async () => {
    const { outbox, store } = open({ mail: never }, { bounds: { waitingMost: 2 } });
    outbox.offer(['n1', 'n2', 'n3', 'n4'].map((notice) => parcel(notice)));
    expect(store.newest(10).map(seen)).toEqual([
      ['n4', 'dead', 0, 'full'],
      ['n3', 'dead', 0, 'full'],
      ['n2', 'waiting', 0, undefined],
      ['n1', 'waiting', 0, undefined],
    ]);
    expect(outbox.again(parcel('n4').id)).toBe('full');
  });

  it('is kept for a while after its end, the newest most, and the log says what is dropped', async () => {
    const bounds = { toldKept: 2, deadKept: 1 };
    const { outbox, store } = open(
      { mail: () => told, pager: () => failed('refused', { lasting: true }) },
      { bounds },
    );
    for (const notice of ['n1', 'n2', 'n3']) outbox.offer([parcel(notice), parcel(notice, 'pager')]);
    await clock.pass(MINUTE);
    expect(store.newest(10, 'told').map(({ message }) => message.notice)).toEqual(['n3', 'n2']);
    expect(store.newest(10, 'dead').map(({ message }) => message.notice)).toEqual(['n3']);
    expect(logged.join()).toContain('no longer listed');
  });
});

describe('what is urgent', () => {
  const press = (notice: string, person = '12') => parcel(notice, 'mail', person, { level: 'urgent' });

  it('waits neither for what is tried again nor for a try that hangs, to the same person by the same way', async () => {
    const { outbox, sent } = open({
      mail: ({ message }) =>
        message.notice === 'n1' ? failed('notNow') : message.notice === 'n2' ? never() : told,
    });
    outbox.offer([parcel('n1'), parcel('n2'), parcel('n3')]);
    await clock.pass(1);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n2']);
    outbox.offer([press('n4'), press('n5')]);
    await clock.pass(1);
    // among themselves they keep their order
    expect(sent.slice(2)).toEqual(['mail 12 n4', 'mail 12 n5']);
  });

  it('waits for no urgent one that is tried again either', async () => {
    let tries = 0;
    const { outbox, sent } = open({
      mail: ({ message }) => {
        if (message.notice !== 'n1') return told;
        tries += 1;
        return tries === 1 ? failed('notNow') : never();
      },
    });
    outbox.offer([press('n1')]);
    await clock.pass(5001);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n1']);
    outbox.offer([press('n2')]);
    await clock.pass(1);
    expect(sent.at(-1)).toBe('mail 12 n2');
  });

  it('has room where all others hang, and goes before those that wait for room', async () => {
    const { outbox, sent } = open(
      { mail: ({ message }) => (message.level === 'urgent' ? told : never()) },
      { bounds: { atOnce: 2 } },
    );
    outbox.offer(['1', '2', '3', '4'].map((person) => parcel('n1', 'mail', person)));
    await clock.pass(1);
    outbox.offer([press('n2', '9')]);
    await clock.pass(1);
    expect(sent).toEqual(['mail 1 n1', 'mail 2 n1', 'mail 9 n2']);
  });
});

describe('a receiver that was away', () => {
  it('gets what waited for it at once when it is back, in its order', async () => {
    let isBack = false;
    const { outbox, sent } = open({ mail: () => (isBack ? told : failed('notReached')) });
    outbox.offer(['n1', 'n2', 'n3'].map((notice) => parcel(notice)));
    await clock.pass(60 * MINUTE);
    const tried = sent.length;
    isBack = true;
    outbox.offer([parcel('n4')]);
    await clock.pass(1);
    expect(sent.slice(tried)).toEqual(['mail 12 n4', 'mail 12 n1', 'mail 12 n2', 'mail 12 n3']);
  });

  it('is tried no oftener for what it refused by itself', async () => {
    const { outbox, sent } = open({
      mail: ({ message }) => (message.notice === 'n1' ? failed('notNow') : told),
    });
    outbox.offer([parcel('n1')]);
    await clock.pass(1);
    outbox.offer([parcel('n2'), parcel('n3')]);
    await clock.pass(1000);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n2', 'mail 12 n3']);
  });
});

describe('ways and people beside each other', () => {
  it('a way that hangs holds up no other way, and only so many of its own at once', async () => {
    const { outbox, sent } = open({ mail: never, pager: () => told }, { bounds: { atOnce: 2 } });
    const people = ['1', '2', '3', '4'];
    outbox.offer(people.flatMap((person) => [parcel('n1', 'mail', person), parcel('n1', 'pager', person)]));
    await clock.pass(1);
    expect(sent.filter((one) => one.startsWith('mail'))).toEqual(['mail 1 n1', 'mail 2 n1']);
    expect(sent.filter((one) => one.startsWith('pager'))).toHaveLength(4);
  });

  it('a try that hangs is ended after its time, and the next person’s turn comes', async () => {
    const { outbox, store, sent } = open({ mail: never }, { bounds: { atOnce: 1, tryMs: 1000 } });
    outbox.offer([parcel('n1', 'mail', '1'), parcel('n1', 'mail', '2')]);
    await clock.pass(999);
    expect(sent).toEqual(['mail 1 n1']);
    await clock.pass(1);
    expect(sent).toEqual(['mail 1 n1', 'mail 2 n1']);
    expect(store.newest(1, 'waiting')[0]).toMatchObject({ person: '1', why: { trouble: 'hung' } });
  });

  it('one person’s refusals keep nobody else waiting', async () => {
    const { outbox, sent } = open({ mail: ({ person }) => (person === '1' ? failed('notNow') : told) });
    outbox.offer([parcel('n1', 'mail', '1'), parcel('n1', 'mail', '2'), parcel('n2', 'mail', '2')]);
    await clock.pass(100);
    expect(sent).toEqual(['mail 1 n1', 'mail 2 n1', 'mail 2 n2']);
  });

  it('a mistake of ours in one way ends neither that way nor the others', async () => {
    let calls = 0;
    const { outbox, store } = open({
      mail: () => {
        calls += 1;
        if (calls === 1) throw new TypeError('ours');
        return told;
      },
    });
    outbox.offer([parcel('n1')]);
    await clock.pass(1);
    expect(store.newest(1)[0]).toMatchObject({ state: 'waiting', why: { trouble: 'mistake' } });
    expect(logged).toContain('The way mail failed by a mistake of Scoreline’s own.');
    await clock.pass(MINUTE);
    expect(store.counts().told).toBe(1);
  });
});

describe('whatever ways do', () => {
  const act = fc.constantFrom('told', 'notNow', 'refused', 'hangs', 'throws');
  const offered = fc.array(fc.tuple(fc.constantFrom('mail', 'pager'), fc.constantFrom('1', '2')), {
    maxLength: 12,
  });

  it('each parcel ends told or given up, and those that arrive at the first try in the order of their person and way', async () => {
    await fc.assert(
      fc.asyncProperty(offered, fc.array(act, { maxLength: 30 }), async (asked, acts) => {
        const left = [...acts];
        const ended: string[] = [];
        const answer: Answers = () => {
          const one = left.shift() ?? 'told';
          if (one === 'throws') throw new TypeError('ours');
          if (one === 'hangs') return never();
          return one === 'told'
            ? told
            : failed(one === 'refused' ? 'refused' : 'notNow', { lasting: one === 'refused' });
        };
        const first: string[] = [];
        const record = async ({ way, person, message, tries, state }: Letter) => {
          ended.push(`${way} ${person} ${message.notice}`);
          if (state === 'told' && tries === 1) first.push(ended.at(-1)!);
        };
        const { outbox, store } = open({ mail: answer, pager: answer }, { record });
        outbox.offer(asked.map(([way, person], index) => parcel(String(index), way, person)));
        await clock.pass(24 * 60 * MINUTE);
        const { waiting, sending } = store.counts();
        expect([waiting, sending, ended.length]).toEqual([0, 0, asked.length]);
        for (const lane of ['mail 1', 'mail 2', 'pager 1', 'pager 2']) {
          const order = first.filter((one) => one.startsWith(lane)).map((one) => Number(one.split(' ')[2]));
          expect(order).toEqual(order.toSorted((a, b) => a - b));
        }
        await outbox.stop();
        store.close();
        stores.pop();
        for (const end of ['', '-wal', '-shm']) rmSync(join(folder, `outbox.sqlite${end}`), { force: true });
      }),
      { numRuns: 25 },
    );
  });
});
