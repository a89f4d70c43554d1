import { LineError } from '../../../model/trouble/trouble.ts';
import { parcel } from './parcels.ts';
import { failed, type Outcome } from '../../../gateway/notices/ways/way.ts';
import type { Letter } from '../../../gateway/notices/outboxStore.ts';
import { describe, expect, it } from 'vitest';
import { MINUTE, told, never, clock, stores, logged, open, seen, withOutboxes } from './outboxSite.ts';

withOutboxes();

describe('an outbox that is stopped and begun again', () => {
  it('sends again what was being sent, and leaves what was told', async () => {
    const first = open({ mail: never, pager: () => told });
    first.outbox.offer([parcel('n1'), parcel('n1', 'pager')]);
    await clock.pass(1);
    const stopped = first.outbox.stop();
    await clock.pass(2000);
    await stopped;
    expect(first.store.counts()).toEqual({ waiting: 0, sending: 1, told: 1, dead: 0, withdrawn: 0 });
    first.store.close();
    stores.pop();
    const { sent, store } = open({ mail: () => told, pager: () => told });
    await clock.pass(1);
    expect(sent).toEqual(['mail 12 n1']);
    expect(store.counts()).toEqual({ waiting: 0, sending: 0, told: 2, dead: 0, withdrawn: 0 });
  });

  it('waits a moment for what is being sent, and stores what became of it', async () => {
    let answer: (outcome: Outcome) => void = () => {};
    const { outbox, store } = open({ mail: () => new Promise((resolve) => (answer = resolve)) });
    outbox.offer([parcel('n1')]);
    await clock.pass(1);
    const stopped = outbox.stop();
    answer(told);
    await stopped;
    expect(store.counts().told).toBe(1);
  });

  it.each([-24, 24])(
    'keeps its waits by the steady clock, when the other is set by %i hours',
    async (hours) => {
      const { outbox, sent } = open({ mail: () => failed('notNow') });
      outbox.offer([parcel('n1')]);
      await clock.pass(1);
      clock.wall += hours * 60 * MINUTE;
      await clock.pass(4998);
      expect(sent).toHaveLength(1);
      await clock.pass(1);
      expect(sent).toHaveLength(2);
    },
  );

  it('waits no longer than it was to after a start with a clock that was set back', async () => {
    const first = open({ mail: () => failed('notNow') });
    first.outbox.offer([parcel('n1')]);
    await clock.pass(1);
    await first.outbox.stop();
    clock.wall -= 24 * 60 * MINUTE;
    const { sent } = open({ mail: () => told });
    await clock.pass(4999);
    expect(sent).toEqual([]);
    await clock.pass(1);
    expect(sent).toEqual(['mail 12 n1']);
  });

  it('stores what became of one as soon as the disk takes it, and does not send it again meanwhile', async () => {
    const { outbox, store, sent } = open({ mail: () => told });
    const tell = store.told.bind(store);
    let refusals = 3;
    store.told = (number, now) => {
      if (refusals-- > 0) throw new LineError('Disk full.', { why: 'No room.', mend: 'Make room.' });
      tell(number, now);
    };
    outbox.offer([parcel('n1'), parcel('n2')]);
    await clock.pass(500);
    expect(store.counts()).toEqual({ waiting: 1, sending: 1, told: 0, dead: 0, withdrawn: 0 });
    await clock.pass(MINUTE);
    expect(store.counts().told).toBe(2);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n2']);
    expect(logged.filter((text) => text.includes('not stored yet'))).toHaveLength(3);
  });

  it('gives up what its process ended over, try after try', async () => {
    const bounds = { triesMost: 2 };
    for (let start = 0; start < 3; start += 1) {
      const { outbox } = open({ mail: never }, { bounds });
      if (start === 0) outbox.offer([parcel('n1')]);
      await clock.pass(1);
    }
    expect(stores.at(-1)!.newest(1).map(seen)).toEqual([['n1', 'dead', 2, 'interrupted']]);
  });
});

describe('what the tape is told', () => {
  it('is each end, in order, until the tape has taken it', async () => {
    const recorded: unknown[] = [];
    let refusals = 2;
    const record = async (letter: Letter) => {
      if (refusals-- > 0) throw new LineError('Disk full.', { why: 'No room.', mend: 'Make room.' });
      recorded.push(seen(letter));
    };
    const { outbox } = open(
      { mail: () => told, pager: () => failed('refused', { lasting: true }) },
      { record },
    );
    outbox.offer([parcel('n1'), parcel('n2', 'pager')]);
    await clock.pass(500);
    expect(recorded).toEqual([]);
    await clock.pass(MINUTE);
    expect(recorded).toEqual([
      ['n1', 'told', 1, undefined],
      ['n2', 'dead', 1, 'refused'],
    ]);
  });

  it('is told again after a start where the tape did not take it, and not where it did', async () => {
    const recorded: string[] = [];
    const first = open({ mail: () => told }, { record: () => new Promise(() => {}) });
    first.outbox.offer([parcel('n1')]);
    await clock.pass(1);
    const stopped = first.outbox.stop();
    await clock.pass(2000);
    await stopped;
    for (let start = 0; start < 2; start += 1) {
      const record = async ({ message }: Letter) => void recorded.push(message.notice);
      const { outbox, sent } = open({ mail: () => told }, { record });
      await clock.pass(1);
      expect(sent).toEqual([]);
      await outbox.stop();
    }
    expect(recorded).toEqual(['n1']);
  });
});
