import { describe, expect, it } from 'vitest';
import { sendsInOrder } from '../../../dashboard/store/inOrder.ts';
import { keptFor } from '../../../dashboard/store/keptFor.ts';
import { createStore, KEPT_MOST, SENT_MOST } from '../../../dashboard/store/store.ts';
import type { Author } from '../../../model/entries/entries.ts';
import type { EntryAnswer, NewEntry } from '../../../model/view/protocol.ts';
import { quiet } from '../views/running.ts';

const author: Author = { kind: 'position', position: 'front' };
const full = { trouble: 'full', mend: 'wait' };
const taken: EntryAnswer = { ok: true, position: 7 };
const reading = (id: string, adjustment = id): NewEntry => ({
  ...{ kind: 'reading', station: 'pick', adjustment, value: 30, how: 'typed' },
  ...{ id, author },
});
const note = (id: string): NewEntry => ({ kind: 'note', words: 'board', id, author });

/** A store with what is kept, and a gateway that answers when it is told to. */
function sending() {
  const store = createStore(0, quiet);
  const ways = { ready: true, clock: 0 };
  const asked: { id: string; done: (answer: EntryAnswer | undefined) => void }[] = [];
  const waits: { act: () => void; wait: number }[] = [];
  const inOrder = sendsInOrder({
    first: () => store.get().sent.find(({ state }) => state === 'onItsWay'),
    ready: () => ways.ready,
    offer: ({ entry }, done) => void asked.push({ id: entry.id, done }),
    answered: (id, answer) => store.answered(id, answer),
    now: () => ways.clock,
    later: (act, wait) => void waits.push({ act, wait }),
  });
  const enter = (...ids: readonly string[]) => {
    for (const id of ids) store.enter(reading(id), full);
    inOrder.go();
  };
  return { store, ways, asked, waits, inOrder, enter, ids: () => asked.map(({ id }) => id) };
}

describe('what is kept', () => {
  it('[SH6] goes one after another, the oldest first', () => {
    const { asked, ids, enter } = sending();
    enter('a', 'b', 'c');
    expect(ids()).toEqual(['a']);
    asked[0]!.done(taken);
    asked[1]!.done(taken);
    expect(ids()).toEqual(['a', 'b', 'c']);
  });

  it('[SH6] without an answer goes again under the same id, and what is behind it waits', () => {
    const { asked, ids, enter } = sending();
    enter('a', 'b');
    asked[0]!.done(undefined);
    expect(ids()).toEqual(['a', 'a']);
    asked[1]!.done(taken);
    expect(ids()).toEqual(['a', 'a', 'b']);
  });

  it('[SH6] begins anew with the oldest on a new connection, whatever the one before did', () => {
    const { asked, ids, enter, inOrder, ways, store } = sending();
    enter('a', 'b');
    ways.ready = false;
    asked[0]!.done(undefined);
    ways.ready = true;
    inOrder.anew();
    expect(ids()).toEqual(['a', 'a']);
    // an answer that comes late is an answer, and does not send what is behind it twice
    asked[0]!.done(taken);
    asked[1]!.done(taken);
    expect(ids()).toEqual(['a', 'a', 'b']);
    expect(store.get().sent.map(({ state }) => state)).toEqual(['kept', 'onItsWay']);
  });

  it('goes on past what is refused, which stays', () => {
    const { asked, ids, enter, store } = sending();
    enter('a', 'b');
    asked[0]!.done({ ok: false, trouble: 'no', mend: 'look again' });
    expect(ids()).toEqual(['a', 'b']);
    expect(store.get().sent[0]).toMatchObject({ state: 'refused', trouble: 'no' });
  });

  it('goes no faster than the gateway takes entries', () => {
    const { asked, ids, enter, waits, ways } = sending();
    enter(...Array.from({ length: 30 }, (_, n) => `e${n}`));
    for (let n = 0; n < asked.length; n += 1) asked[n]!.done(taken);
    expect(ids()).toHaveLength(15);
    expect(waits).toHaveLength(1);
    ways.clock += waits[0]!.wait;
    waits[0]!.act();
    expect(ids()).toHaveLength(16);
    ways.clock += 60_000;
    asked.at(-1)!.done(taken);
    for (let n = 16; n < asked.length; n += 1) asked[n]!.done(taken);
    expect(ids()).toHaveLength(30);
  });
});

describe('how long it was kept', () => {
  it('[SH6] is told by the screen’s own clock, whatever its time of day does', () => {
    expect(keptFor({ clock: 1000, day: 5_000_000 }, { clock: 61_000, day: 5_060_000 })).toBe(60_000);
    expect(keptFor({ clock: 1000, day: 5_000_000 }, { clock: 61_000, day: 1_000_000 })).toBe(60_000);
    // a panel that had lost its time of day gets it again from the network
    expect(keptFor({ clock: 1000, day: 0 }, { clock: 61_000, day: 1_700_000_000_000 })).toBe(60_000);
  });

  it('[SH6] is told by the time of day where the clock stood still, or the page was loaded since', () => {
    expect(keptFor({ clock: 1000, day: 5_000_000 }, { clock: 3000, day: 6_200_000 })).toBe(1_200_000);
    expect(keptFor({ clock: undefined, day: 5_000_000 }, { clock: 3000, day: 5_090_000 })).toBe(90_000);
    expect(keptFor({ clock: undefined, day: 5_000_000 }, { clock: 3000, day: 4_000_000 })).toBe(0);
  });
});

describe('the store of entries', () => {
  it('[SH6] keeps a whole sheet and more, and says when it is full; others have room beside it', () => {
    const store = createStore(0, quiet);
    for (let n = 0; n < KEPT_MOST; n += 1) expect(store.enter(reading(`k${n}`), full)).toBe('taken');
    expect(store.enter(reading('more'), full)).toBe('full');
    expect(store.get().sent.at(-1)).toMatchObject({ state: 'refused', ...full });
    for (let n = 0; n < SENT_MOST; n += 1) expect(store.enter(note(`n${n}`), full)).toBe('taken');
    expect(store.enter(note('more'), full)).toBe('full');
    expect(store.get().sent.filter(({ state }) => state === 'onItsWay')).toHaveLength(KEPT_MOST + SENT_MOST);
  });

  it('holds what was refused of a sheet until that step is entered anew, and sends it again as it was made', () => {
    const store = createStore(0, quiet);
    const made = { clock: 1, day: 2 };
    for (const id of ['a', 'b']) {
      store.enter(reading(id), full, made);
      store.answered(id, { ok: false, trouble: 'no', mend: 'again' });
    }
    store.enter(reading('c', 'a'), full);
    expect(store.get().sent.map(({ entry, state }) => [entry.id, state])).toEqual([
      ['b', 'refused'],
      ['c', 'onItsWay'],
    ]);
    store.again('b');
    expect(store.get().sent[0]).toEqual({ entry: reading('b'), made, state: 'onItsWay', since: 0 });
  });

  it('says of what was taken by which view it is not yet shown', () => {
    const store = createStore(0, quiet);
    store.enter(reading('a'), full);
    store.answered('a', taken);
    expect(store.get().sent[0]).toMatchObject({ state: 'kept', tookAt: 0 });
    store.parts(1, {}, 10);
    expect(store.get().number).toBe(1);
  });
});
