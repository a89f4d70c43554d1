import { describe, expect, it } from 'vitest';
import { leftSheets } from '../../../dashboard/sheet/left.ts';
import { keepOwnSheet } from '../../../dashboard/store/ownSheet.ts';
import { createStore, KEPT_MOST } from '../../../dashboard/store/store.ts';
import { keepWaiting } from '../../../dashboard/store/waiting.ts';
import type { Author } from '../../../model/entries/entries.ts';
import type { EpochMs } from '../../../model/units/units.ts';
import type { NewEntry } from '../../../model/view/protocol.ts';
import type { EndedSheet } from '../../../model/view/sheetView.ts';
import { shelf } from '../store/shelf.ts';
import { quiet } from '../views/running.ts';

const author: Author = { kind: 'screen', screen: 'phone' };
const told = { old: { trouble: 'old', mend: 'again' }, full: { trouble: 'full', mend: 'wait' } };
const replaced: EndedSheet = {
  ...{ id: 'phone', alsoBegun: ['other'], kind: 'size', size: { id: 'sampler-12', name: 'Sampler 12' } },
  ...{ at: 0 as EpochMs, how: 'replaced', author: undefined, why: undefined, atRate: undefined },
  by: {
    kind: 'size',
    size: { id: 'sachet-20', name: 'Sachet 20' },
    author: { kind: 'screen', screen: 'desk' },
  },
};
const begun: NewEntry = { kind: 'sheetBegun', size: 'sampler-12', in: 'size', id: 'phone', author };
const step = (id: string, sheet = 'phone'): NewEntry => ({
  ...{ kind: 'stepDone', sheet, step: 'cups', well: true },
  ...{ id, author },
});

function page(kept: ReturnType<typeof shelf>) {
  const store = createStore(0, quiet);
  keepWaiting(store, kept, author, { now: () => 0, ...told });
  keepOwnSheet(store, kept, author);
  return store;
}

const leftOf = (store: ReturnType<typeof page>, before: readonly EndedSheet[] = [replaced]) => {
  const { sent, ownSheet } = store.get();
  return leftSheets(before, sent, ownSheet).map(({ sheet, entries }) => ({
    sheet: sheet?.id,
    entries: entries.map(({ entry }) => entry.id),
  }));
};

describe('a sheet that was left', () => {
  it('[SH10] is told with what was entered in it here, also after the page was loaded again, until somebody has read it', () => {
    const kept = shelf();
    const store = page(kept);
    store.enter(begun, told.full);
    store.enter(step('a'), told.full);
    store.enter(step('b', 'lost'), told.full);
    expect(leftOf(store, [])).toEqual([]);
    store.answered('phone', { ok: true, position: 1, aside: { sheet: replaced } });
    store.answered('a', { ok: true, position: 2, aside: { sheet: replaced } });
    store.answered('b', { ok: true, position: 3, aside: { sheet: undefined } });
    store.tick(60_000);
    const all = [
      { sheet: 'phone', entries: ['phone', 'a'] },
      { sheet: undefined, entries: ['b'] },
    ];
    expect(leftOf(store)).toEqual(all);
    const again = page(kept);
    expect(leftOf(again)).toEqual(all);
    for (const id of ['phone', 'a', 'b']) again.dismiss(id);
    again.keepOwnSheet(undefined);
    expect(leftOf(again)).toEqual([]);
    expect(leftOf(page(kept))).toEqual([]);
  });

  it('[SH10] is told where nothing came too late as well, by any of its names; not one that was done, nor another’s', () => {
    const kept = shelf();
    const store = page(kept);
    store.enter(step('a', 'other'), told.full);
    store.answered('a', { ok: true, position: 1 });
    store.tick(60_000);
    expect(leftOf(store)).toEqual([{ sheet: 'phone', entries: [] }]);
    expect(leftOf(page(kept))).toEqual([{ sheet: 'phone', entries: [] }]);
    expect(leftOf(store, [{ ...replaced, how: 'done' }])).toEqual([]);
    expect(leftOf(page(shelf()))).toEqual([]);
    // whoever goes on in another has left it on purpose
    store.enter(step('c', 'desk'), told.full);
    expect(leftOf(store)).toEqual([]);
  });

  it('[SH10] keeps no more than there is room for: what is not read yet is never given up for it', () => {
    const store = page(shelf());
    for (let n = 0; n < KEPT_MOST; n += 1) {
      store.enter(step(`s${n}`), told.full);
      store.answered(`s${n}`, { ok: true, position: n, aside: { sheet: replaced } });
    }
    expect(store.enter(step('more'), told.full)).toBe('full');
    expect(leftOf(store)[0]?.entries).toHaveLength(KEPT_MOST);
  });
});
