import { parcel } from './parcels.ts';
import { failed, type Outcome } from '../../../gateway/notices/ways/way.ts';
import type { WithdrawnWhy } from '../../../gateway/notices/outboxStore.ts';
import { describe, expect, it } from 'vitest';
import { MINUTE, told, clockAt, never, clock, open, withOutboxes } from './outboxSite.ts';

withOutboxes();

describe('what is wanted no more', () => {
  const taken: WithdrawnWhy = { why: 'taken', by: { kind: 'person', number: '7' }, at: clockAt('03:12') };

  it('[NR3] is withdrawn before it goes out, is kept with why, and stands so on the tape', async () => {
    const recorded: unknown[] = [];
    const notices = new Set<string>();
    const { outbox, store, sent } = open(
      { mail: () => failed('notReached') },
      {
        record: async ({ message, state, perhaps }) => void recorded.push([message.notice, state, perhaps]),
        unwanted: ({ notice }) => (notices.has(notice) ? taken : undefined),
      },
    );
    outbox.offer([parcel('n1'), parcel('n2')]);
    await clock.pass(1);
    expect(sent).toHaveLength(2);
    notices.add('n1');
    await clock.pass(6000);
    expect(sent).toEqual(['mail 12 n1', 'mail 12 n2', 'mail 12 n2']);
    expect(store.find(parcel('n1').id)).toMatchObject({
      state: 'withdrawn',
      withdrawn: taken,
      perhaps: false,
    });
    expect(recorded).toEqual([['n1', 'withdrawn', false]]);
    expect(store.counts()).toMatchObject({ waiting: 1, withdrawn: 1 });
    // the same again is the same letter, and stays withdrawn
    outbox.offer([parcel('n1')]);
    await clock.pass(MINUTE);
    expect(sent.filter((one) => one.endsWith('n1'))).toHaveLength(1);
  });

  it('[NR3] is withdrawn as soon as that is asked for, and not only when it is due', async () => {
    let isTaken = false;
    const { outbox, store } = open(
      { mail: () => failed('notReached') },
      { unwanted: () => (isTaken ? taken : undefined) },
    );
    outbox.offer([parcel('n1')]);
    await clock.pass(1);
    isTaken = true;
    outbox.withdraw();
    expect(store.counts()).toMatchObject({ waiting: 0, withdrawn: 1 });
  });

  it('[NR3] goes out where it is being sent, and is told where it arrives', async () => {
    let isTaken = false;
    let answer: (outcome: Outcome) => void = () => {};
    const { outbox, store } = open(
      { mail: () => new Promise((resolve) => (answer = resolve)) },
      { unwanted: () => (isTaken ? taken : undefined) },
    );
    outbox.offer([parcel('n1')]);
    await clock.pass(1);
    isTaken = true;
    outbox.withdraw();
    expect(store.counts()).toMatchObject({ sending: 1, withdrawn: 0 });
    answer(told);
    await clock.pass(1);
    expect(store.counts()).toMatchObject({ told: 1, withdrawn: 0 });
  });

  it.each([
    ['a process ended', never, true],
    ['the receiver hung', never, false],
    ['the receiver ended the connection', () => failed('closed'), false],
  ] as const)(
    '[NR3] says that it may have arrived where %s in the middle of a try',
    async (_what, answer, ends) => {
      let isTaken = false;
      const unwanted = () => (isTaken ? taken : undefined);
      const first = open({ mail: answer }, { unwanted });
      first.outbox.offer([parcel('n1')]);
      await clock.pass(ends ? 1 : 31_000);
      isTaken = true;
      // a try that was refused later makes it no surer
      const { outbox, store } = ends ? open({ mail: () => told }, { unwanted }) : first;
      outbox.withdraw();
      await clock.pass(1);
      expect(store.find(parcel('n1').id)).toMatchObject({ state: 'withdrawn', perhaps: true });
    },
  );

  it('[NR3] is not tried again when a person says so', async () => {
    let isTaken = false;
    const { outbox, store } = open(
      { mail: () => failed('refused', { lasting: true }) },
      { unwanted: () => (isTaken ? taken : undefined) },
    );
    outbox.offer([parcel('n1')]);
    await clock.pass(1);
    isTaken = true;
    expect(outbox.again(parcel('n1').id)).toBe('unwanted');
    expect(store.counts().dead).toBe(1);
  });
});
