import { describe, expect, it, vi } from 'vitest';
import { createStore, SENT_MOST } from '../../../dashboard/store/store.ts';
import type { NewEntry } from '../../../model/view/protocol.ts';
import type { LineView } from '../../../model/view/view.ts';
import { quiet } from '../views/running.ts';
import { question, stopped } from '../views/stopped.ts';

const full = { trouble: 'full', mend: 'wait' };
const note = (id: string): NewEntry => ({
  kind: 'note',
  words: 'board',
  id,
  author: { kind: 'position', position: 'front' },
});

describe('the store of a screen', () => {
  it('takes the whole view, then parts that follow it without a hole', () => {
    const store = createStore(0);
    store.whole(7, quiet, 10);
    expect(store.parts(8, { head: stopped.head }, 20)).toBe(true);
    expect(store.get().view).toEqual({ ...quiet, head: stopped.head });
    expect(store.get().number).toBe(8);
    expect(store.get().received).toBe(20);
  });

  it('refuses a part that does not follow, and keeps what it had', () => {
    const store = createStore(0);
    expect(store.parts(1, { head: stopped.head }, 5)).toBe(false);
    store.whole(7, quiet, 10);
    expect(store.parts(9, { head: stopped.head }, 20)).toBe(false);
    expect(store.get().view).toBe(quiet);
    expect(store.get().received).toBe(10);
  });

  it('keeps the identity of parts that did not change', () => {
    const store = createStore(0, quiet);
    store.parts(1, { head: stopped.head }, 20);
    expect(store.get().view?.trend).toBe(quiet.trend);
  });

  it('reads a part told as null as gone', () => {
    const store = createStore(0, question);
    store.parts(1, { question: null } as unknown as Partial<LineView>, 1);
    expect(store.get().view?.question).toBeUndefined();
  });

  it('shows an entry as on its way until it is confirmed, and lets it fade after that', () => {
    const store = createStore(0, quiet);
    expect(store.enter(note('a'), full)).toBe('taken');
    expect(store.get().sent[0]?.state).toBe('onItsWay');
    store.answered('a', { ok: true, position: 3 });
    expect(store.get().sent[0]?.state).toBe('kept');
    store.tick(7_000);
    expect(store.get().sent).toEqual([]);
  });

  it('keeps a refusal with its mend until somebody has read it', () => {
    const store = createStore(0, quiet);
    store.enter(note('a'), full);
    store.answered('a', { ok: false, trouble: 'Not known.', mend: 'Enter another.' });
    store.tick(600_000);
    expect(store.get().sent).toMatchObject([
      { state: 'refused', trouble: 'Not known.', mend: 'Enter another.' },
    ]);
    store.dismiss('a');
    expect(store.get().sent).toEqual([]);
  });

  it('[NL10] keeps what was refused of one notice when another one is closed', () => {
    const store = createStore(0, quiet);
    const closing = (id: string, notice: string) =>
      ({
        id,
        author: { kind: 'position', position: 'front' },
        kind: 'noticeClosed',
        notice,
        found: 'part',
        done: 'partChanged',
      }) as const;
    for (const [id, notice] of [
      ['a', 'n1'],
      ['b', 'n2'],
    ] as const) {
      store.enter(closing(id, notice), full);
      store.answered(id, { ok: false, trouble: 'Closed before you.', mend: 'Look.' });
    }
    expect(store.get().sent.map(({ entry }) => entry.id)).toEqual(['a', 'b']);
    store.enter(closing('c', 'n1'), full);
    expect(store.get().sent.map(({ entry }) => entry.id)).toEqual(['b', 'c']);
  });

  it('says that it is full instead of taking one entry more', () => {
    const store = createStore(0, quiet);
    for (let i = 0; i < SENT_MOST; i++) expect(store.enter(note(`n${i}`), full)).toBe('taken');
    expect(store.enter(note('over'), full)).toBe('full');
    expect(store.get().sent.at(-1)).toMatchObject({ state: 'refused', trouble: 'full', mend: 'wait' });
    expect(store.get().sent.filter((sent) => sent.state === 'onItsWay')).toHaveLength(SENT_MOST);
  });

  it('tells its listeners, and no one who has left', () => {
    const store = createStore(0, quiet);
    const told = vi.fn();
    const leave = store.subscribe(told);
    store.tick(1);
    leave();
    store.tick(2);
    expect(told).toHaveBeenCalledTimes(1);
  });
});
