import { describe, expect, it } from 'vitest';
import {
  closingOf,
  dropTakenDrafts,
  keepDraft,
  readDraft,
  shelfOf,
} from '../../../dashboard/store/drafts.ts';
import { createStore } from '../../../dashboard/store/store.ts';
import type { NewEntry } from '../../../model/view/protocol.ts';
import { quiet } from '../views/running.ts';
import { shelf } from './shelf.ts';

const full = { trouble: 'full', mend: 'wait' };
const typed = { found: 'part', done: '', words: 'the cam follower is worn' };
const { id: line } = quiet.line;

function closing(id: string, notice: string): NewEntry {
  return {
    ...{ kind: 'noticeClosed', id, notice, found: 'part', done: 'partChanged' },
    author: { kind: 'screen', screen: 'phone' },
  };
}

describe('what somebody typed', () => {
  it('stays when it is refused, and as long as nothing has answered', () => {
    const kept = shelf();
    const store = createStore(0, quiet);
    dropTakenDrafts(store, kept);
    keepDraft(kept, closingOf(line, 'n1'), typed);
    store.enter(closing('a', 'n1'), full);
    expect(readDraft(kept, closingOf(line, 'n1'))).toEqual(typed);
    store.answered('a', { ok: false, trouble: 'It has ended.', why: 'It was closed.', mend: 'Look again.' });
    expect(readDraft(kept, closingOf(line, 'n1'))).toEqual(typed);
  });

  it('goes when the gateway has it on the tape, and nothing else goes with it', () => {
    const kept = shelf();
    const store = createStore(0, quiet);
    dropTakenDrafts(store, kept);
    for (const of of [closingOf(line, 'n1'), closingOf(line, 'n2'), shelfOf(line, 'n1')])
      keepDraft(kept, of, typed);
    store.enter(closing('a', 'n1'), full);
    store.answered('a', { ok: true, position: 7 });
    expect(readDraft(kept, closingOf(line, 'n1'))).toBeUndefined();
    expect(readDraft(kept, closingOf(line, 'n2'))).toEqual(typed);
    expect(readDraft(kept, shelfOf(line, 'n1'))).toEqual(typed);
    // what is typed anew, while the entry is still told as kept, is a draft of its own
    keepDraft(kept, closingOf(line, 'n1'), typed);
    store.enter(closing('b', 'n2'), full);
    expect(readDraft(kept, closingOf(line, 'n1'))).toEqual(typed);
  });

  it('is kept of the newest forty, and whatever else a browser has there is nothing', () => {
    const kept = shelf();
    for (let n = 0; n < 45; n += 1) keepDraft(kept, closingOf(line, `n${n}`), typed);
    expect(readDraft(kept, closingOf(line, 'n4'))).toBeUndefined();
    expect(readDraft(kept, closingOf(line, 'n5'))).toEqual(typed);
    for (const text of ['', '{', 'null', '[null]', '[{"of":1}]', '[{"of":"a","fields":{"b":2}}]']) {
      kept.rows.set('drafts', text);
      expect(readDraft(kept, closingOf(line, 'n5'))).toBeUndefined();
    }
  });
});
