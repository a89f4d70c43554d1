import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { openOutboxStore } from '../../../gateway/notices/outboxStore.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { messageOf, parcel } from './parcels.ts';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'scoreline-outbox-'));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

/** As the version before wrote it, with a letter that waits and one that was being sent. */
function outboxBefore(data: string): void {
  const database = openDatabase(join(data, 'outbox.sqlite'), 200);
  database.exec(`
    CREATE TABLE letter (
      number INTEGER PRIMARY KEY AUTOINCREMENT,
      id TEXT NOT NULL UNIQUE, person TEXT NOT NULL, way TEXT NOT NULL, message TEXT NOT NULL, offered INTEGER NOT NULL,
      state TEXT NOT NULL, tries INTEGER NOT NULL, tries_most INTEGER NOT NULL,
      since INTEGER NOT NULL, wait INTEGER NOT NULL, trouble TEXT, code TEXT, recorded INTEGER
    );
    CREATE INDEX by_state ON letter (state, way, person, number);
    CREATE INDEX not_recorded ON letter (number) WHERE recorded = 0;
    PRAGMA application_id = ${0x53434c4f};
    PRAGMA user_version = 1;
  `);
  const add = statement(
    database,
    `INSERT INTO letter (id, person, way, message, offered, state, tries, tries_most, since, wait) VALUES (?, '12', 'mail', ?, 0, ?, 1, 20, 0, 0)`,
  );
  add.run('a', JSON.stringify(messageOf('n1')), 'waiting');
  add.run('b', JSON.stringify(messageOf('n2', { level: 'urgent', round: 2 })), 'sending');
  database.close();
}

it('an outbox of the version before is brought up to this one, with all its letters', () => {
  const data = folder();
  outboxBefore(data);
  for (let start = 0; start < 2; start += 1) {
    const store = openOutboxStore(data);
    expect(store.allWaiting()).toMatchObject([
      { line: 'line-3', notice: 'n2', round: 2, urgent: true, hasFailed: false },
      { line: 'line-3', notice: 'n1', round: 0, urgent: false },
    ]);
    expect(store.find('b')).toMatchObject({ why: { trouble: 'brokenOff' }, perhaps: true });
    store.close();
  }
});

it('an outbox of a newer version is refused', () => {
  const data = folder();
  outboxBefore(data);
  const database = openDatabase(join(data, 'outbox.sqlite'), 200);
  database.exec('PRAGMA user_version = 3');
  database.close();
  expect(() => openOutboxStore(data)).toThrow(/has the format 3; this version of Scoreline knows 2/);
});

it('[NR3] only what waits is withdrawn, never what is being sent or was told', () => {
  const store = openOutboxStore(folder());
  onTestFinished(() => store.close());
  for (const notice of ['n1', 'n2', 'n3']) store.add(parcel(notice), 20);
  const [one, two, three] = store.allWaiting().map(({ number }) => number);
  store.sending(one!, 5);
  store.sending(two!, 5);
  store.told(two!, 6);
  for (const number of [one!, two!, three!]) store.withdrawn(number, { why: 'taken', by: null, at: null }, 7);
  expect(store.counts()).toEqual({ waiting: 0, sending: 1, told: 1, dead: 0, withdrawn: 1 });
});
