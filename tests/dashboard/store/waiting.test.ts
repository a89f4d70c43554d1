import { describe, expect, it } from 'vitest';
import { createStore } from '../../../dashboard/store/store.ts';
import { keepWaiting } from '../../../dashboard/store/waiting.ts';
import type { Author } from '../../../model/entries/entries.ts';
import type { NewEntry } from '../../../model/view/protocol.ts';
import { quiet } from '../views/running.ts';
import { shelf } from './shelf.ts';

const author: Author = { kind: 'position', position: 'front' };
const told = { old: { trouble: 'old', mend: 'again' }, full: { trouble: 'full', mend: 'wait' } };
const note = (id: string): NewEntry => ({ kind: 'note', words: 'board', id, author });

function page(kept: Pick<Storage, 'getItem' | 'setItem'>, minute: number, of = author) {
  const store = createStore(0, quiet);
  keepWaiting(store, kept, of, { now: () => minute * 60_000, ...told });
  return store;
}

describe('entries on their way', () => {
  it('are there again after the page was loaded anew, and only those', () => {
    const kept = shelf();
    const first = page(kept, 0);
    first.enter(note('a'), told.full);
    first.enter(note('b'), told.full);
    first.answered('a', { ok: true, position: 7 });
    expect(page(kept, 5).get().sent).toMatchObject([{ entry: note('b'), state: 'onItsWay' }]);
    first.answered('b', { ok: true, position: 8 });
    expect(page(kept, 5).get().sent).toEqual([]);
  });

  it('that waited too long are given back in words, however often the page was loaded since', () => {
    const kept = shelf();
    page(kept, 0).enter(note('a'), told.full);
    expect(page(kept, 9).get().sent).toMatchObject([{ state: 'onItsWay' }]);
    const late = page(kept, 11);
    expect(late.get().sent).toMatchObject([{ entry: note('a'), state: 'refused', ...told.old }]);
    late.dismiss('a');
    expect(page(kept, 12).get().sent).toEqual([]);
  });

  it('of another position are its own', () => {
    const kept = shelf();
    page(kept, 0).enter(note('a'), told.full);
    expect(page(kept, 0, { kind: 'position', position: 'back' }).get().sent).toEqual([]);
  });

  it('are not kept by a browser that keeps nothing, and what is kept may be anything', () => {
    const none = {
      getItem: () => null,
      setItem: () => {
        throw new Error('no room');
      },
    };
    const store = page(none, 0);
    store.enter(note('a'), told.full);
    expect(store.get().sent).toHaveLength(1);
    for (const text of ['', '{', '{}', '[1, null, "x", {"at": 1}, {"at": "1", "entry": {}}]']) {
      expect(page({ getItem: () => text, setItem: () => {} }, 0).get().sent).toEqual([]);
    }
  });

  it('[SH6] of a setter’s sheet wait as long as they have to, with the moment they were made', () => {
    const reading: NewEntry = {
      ...{ kind: 'reading', station: 'pick', adjustment: '1.1', value: 30, how: 'typed' },
      ...{ id: 'r', author },
    };
    const kept = shelf();
    page(kept, 0).enter(reading, told.full, { clock: 5, day: 1234 });
    const late = page(kept, 2000);
    expect(late.get().sent).toMatchObject([
      { entry: reading, state: 'onItsWay', made: { clock: undefined, day: 1234 } },
    ]);
    // refused they are not lost either, before somebody has read it
    late.answered('r', { ok: false, trouble: 'no such step', mend: 'look again' });
    const after = page(kept, 2001);
    expect(after.get().sent).toMatchObject([{ entry: reading, state: 'refused', trouble: 'no such step' }]);
    after.dismiss('r');
    expect(page(kept, 2002).get().sent).toEqual([]);
  });

  it('of another page of the same screen are left there', () => {
    const kept = shelf();
    const first = page(kept, 0);
    const second = page(kept, 0);
    first.enter(note('a'), told.full);
    second.enter(note('b'), told.full);
    expect(page(kept, 1).get().sent).toMatchObject([{ entry: note('a') }, { entry: note('b') }]);
    second.answered('b', { ok: true, position: 7 });
    first.answered('a', { ok: true, position: 8 });
    expect(page(kept, 1).get().sent).toEqual([]);
  });
});
