import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import type { Withdrawal } from '../../model/notices/unwanted.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { openDatabase, statement } from '../tape/database.ts';
import { onDisk } from '../tape/diskTrouble.ts';
import { prepareOutbox } from './outboxSchema.ts';
import type { Message, Parcel, WayTrouble, WayWhy } from './ways/way.ts';

/** waiting → sending → told or dead; back to waiting after a try that failed; withdrawn out of waiting. */
export const LETTER_STATES = ['waiting', 'sending', 'told', 'dead', 'withdrawn'] as const;
export type LetterState = (typeof LETTER_STATES)[number];

/** A parcel, and what has become of it. */
export interface Letter extends Parcel {
  /** In the order in which they were offered, which is the order of each person and way. */
  readonly number: number;
  readonly state: LetterState;
  readonly tries: number;
  /** It is given up when so many tries have failed. */
  readonly triesMost: number;
  /** When its state changed last, milliseconds since 1970. */
  readonly since: number;
  /** It is not tried before so long after that. Milliseconds. */
  readonly waitMs: number;
  /** Why the newest try failed. */
  readonly why?: WayWhy;
  /** It may have arrived by a try of which nobody knows what came of it. */
  readonly perhaps: boolean;
  /** Why it was sent no more, where it was withdrawn. */
  readonly withdrawn?: WithdrawnWhy;
}

/** What became of the notice before a letter went out: by whom and when, milliseconds since 1970 in line time. */
export interface WithdrawnWhy extends Pick<Withdrawal, 'why' | 'by'> {
  readonly at: EpochMs | null;
}

/** A letter that waits, without what it says. */
export interface WaitingRow {
  readonly number: number;
  readonly person: string;
  readonly way: string;
  readonly line: string;
  readonly notice: string;
  readonly round: number;
  readonly urgent: boolean;
  /** A try has failed; one that was broken off by the end of a process has not. */
  readonly hasFailed: boolean;
  readonly since: number;
  readonly waitMs: number;
}

/** What came of a try. */
interface FailedTry {
  readonly waitMs: number;
  readonly perhaps: boolean;
  readonly now: number;
}

export type Counts = Readonly<Record<LetterState, number>>;

interface Row {
  readonly number: number;
  readonly id: string;
  readonly person: string;
  readonly way: string;
  readonly message: string;
  readonly offered: number;
  readonly state: LetterState;
  readonly tries: number;
  readonly tries_most: number;
  readonly since: number;
  readonly wait: number;
  readonly trouble: WayTrouble | null;
  readonly code: string | null;
  readonly perhaps: 0 | 1;
  readonly withdrawn: string | null;
}

type WaitingColumns = Omit<WaitingRow, 'urgent' | 'hasFailed'> & {
  readonly urgent: 0 | 1;
  readonly hasFailed: 0 | 1;
};

const COLUMNS =
  'number, id, person, way, message, offered, state, tries, tries_most, since, wait, trouble, code, perhaps, withdrawn';
/** How long a writer waits for another program, such as one that copies the file. Milliseconds. */
const BUSY_MS = 200;

/** Opens the outbox in a data folder. What was being sent when its process ended is waiting again. */
export function openOutboxStore(folder: string): OutboxStore {
  const file = join(folder, 'outbox.sqlite');
  return onDisk(file, () => {
    const database = openDatabase(file, BUSY_MS);
    try {
      prepareOutbox(database);
      return new OutboxStore(database);
    } catch (error) {
      database.close();
      throw error;
    }
  });
}

/** Every change is on the disk when its function returns. */
export class OutboxStore {
  private readonly database: Database;

  constructor(database: Database) {
    this.database = database;
    // nobody knows whether it arrived
    this.run(
      `UPDATE letter SET state = 'waiting', wait = 0, trouble = 'brokenOff', code = NULL, perhaps = 1 WHERE state = 'sending'`,
    );
  }

  /** Takes a parcel; false where it was there already, in whatever state. */
  add(parcel: Parcel, triesMost: number): boolean {
    const { id, person, way, offeredAt, message } = parcel;
    const { line, notice, round, level } = message;
    const { changes } = this.run(
      `INSERT INTO letter (id, person, way, message, offered, state, tries, tries_most, since, wait,
         line, notice, round, urgent)
       VALUES (?, ?, ?, ?, ?, 'waiting', 0, ?, ?, 0, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING`,
      ...[id, person, way, JSON.stringify(message), offeredAt, triesMost, offeredAt],
      ...[line, notice, round, level === 'urgent' ? 1 : 0],
    );
    return changes > 0;
  }

  /** All or none. */
  together<Result>(act: () => Result): Result {
    return this.guarded(() => this.database.transaction(act).immediate());
  }

  /** A try begins: it counts from now on, whatever becomes of it. */
  sending(number: number, now: number): void {
    this.run(
      `UPDATE letter SET state = 'sending', tries = tries + 1, since = ? WHERE number = ?`,
      now,
      number,
    );
  }

  told(number: number, now: number): void {
    this.run(
      `UPDATE letter SET state = 'told', since = ?, wait = 0, recorded = 0, trouble = NULL, code = NULL WHERE number = ?`,
      now,
      number,
    );
  }

  /** `perhaps`: that try may have arrived all the same. */
  waiting(number: number, why: WayWhy, { waitMs, perhaps, now }: FailedTry): void {
    const set = `state = 'waiting', since = ?, wait = ?, trouble = ?, code = ?, perhaps = max(perhaps, ?)`;
    this.run(
      `UPDATE letter SET ${set} WHERE number = ?`,
      ...[now, waitMs, why.trouble, why.code ?? null, perhaps ? 1 : 0, number],
    );
  }

  /** Sent no more: only one that waits, never one that is being sent. */
  withdrawn(number: number, why: WithdrawnWhy, now: number): void {
    const set = `state = 'withdrawn', since = ?, wait = 0, recorded = 0, withdrawn = ?`;
    this.run(
      `UPDATE letter SET ${set} WHERE number = ? AND state = 'waiting'`,
      ...[now, JSON.stringify(why), number],
    );
  }

  /** The receiver of a way is reached again: what waited for it waits no longer. Their numbers. */
  hurry(way: string, troubles: readonly WayTrouble[]): readonly number[] {
    return this.guarded(() =>
      statement<[string, string], number>(
        this.database,
        `UPDATE letter SET wait = 0 WHERE state = 'waiting' AND way = ?
         AND trouble IN (SELECT value FROM json_each(?)) RETURNING number`,
      )
        .pluck()
        .all(way, JSON.stringify(troubles)),
    );
  }

  dead(number: number, why: WayWhy, now: number): void {
    const set = `state = 'dead', since = ?, wait = 0, recorded = 0, trouble = ?, code = ?`;
    this.run(`UPDATE letter SET ${set} WHERE number = ?`, now, why.trouble, why.code ?? null, number);
  }

  /** One that was given up is tried so many times more. */
  again(number: number, tries: number, now: number): void {
    const set = `state = 'waiting', since = ?, wait = 0, tries_most = tries + ?`;
    this.run(`UPDATE letter SET ${set} WHERE number = ?`, now, tries, number);
  }

  /** The tape has what became of it. */
  recorded(number: number): void {
    this.run('UPDATE letter SET recorded = 1 WHERE number = ?', number);
  }

  find(id: string): Letter | undefined {
    return this.rows(`SELECT ${COLUMNS} FROM letter WHERE id = ?`, id)[0];
  }

  letter(number: number): Letter | undefined {
    return this.rows(`SELECT ${COLUMNS} FROM letter WHERE number = ?`, number)[0];
  }

  /** All that wait: urgent ones before others, older ones before newer. */
  allWaiting(): readonly WaitingRow[] {
    return this.guarded(() =>
      statement<[], WaitingColumns>(
        this.database,
        `SELECT number, person, way, line, notice, round, urgent, since, wait AS waitMs,
           trouble IS NOT NULL AND trouble <> 'brokenOff' AS hasFailed
         FROM letter WHERE state = 'waiting' ORDER BY urgent DESC, number`,
      )
        .all()
        .map((row) => ({ ...row, urgent: row.urgent === 1, hasFailed: row.hasFailed === 1 })),
    );
  }

  /** What has come to an end and is not on the tape yet, the oldest first. */
  notRecorded(most: number): readonly Letter[] {
    return this.rows(`SELECT ${COLUMNS} FROM letter WHERE recorded = 0 ORDER BY number LIMIT ?`, most);
  }

  /** The newest first. */
  newest(most: number, state?: LetterState): readonly Letter[] {
    const order = 'ORDER BY number DESC LIMIT ?';
    if (state === undefined) return this.rows(`SELECT ${COLUMNS} FROM letter ${order}`, most);
    return this.rows(`SELECT ${COLUMNS} FROM letter WHERE state = ? ${order}`, state, most);
  }

  counts(): Counts {
    const found = this.guarded(() =>
      statement<[], { readonly state: LetterState; readonly count: number }>(
        this.database,
        'SELECT state, count(*) AS count FROM letter GROUP BY state',
      ).all(),
    );
    const of = (state: LetterState) => found.find((one) => one.state === state)?.count ?? 0;
    return {
      ...{ waiting: of('waiting'), sending: of('sending') },
      ...{ told: of('told'), dead: of('dead'), withdrawn: of('withdrawn') },
    };
  }

  /** Drops the oldest of a state beyond so many, once they are on the tape; how many those were. */
  keep(state: 'told' | 'dead' | 'withdrawn', most: number): number {
    const newest = 'SELECT number FROM letter WHERE state = ? ORDER BY since DESC, number DESC LIMIT ?';
    return this.run(
      `DELETE FROM letter WHERE state = ? AND recorded = 1 AND number NOT IN (${newest})`,
      ...[state, state, most],
    ).changes;
  }

  close(): void {
    this.database.close();
  }

  private run(text: string, ...values: unknown[]) {
    return this.guarded(() => statement(this.database, text).run(...values));
  }

  private rows(text: string, ...values: unknown[]): readonly Letter[] {
    return this.guarded(() =>
      statement<unknown[], Row>(this.database, text)
        .all(...values)
        .map(letterOf),
    );
  }

  private guarded<Result>(act: () => Result): Result {
    return onDisk(this.database.name, act);
  }
}

function letterOf(row: Row): Letter {
  const { number, id, person, way, state, tries, since, trouble, code } = row;
  const why = trouble === null ? undefined : { trouble, ...(code === null ? {} : { code }) };
  return {
    ...{ number, id, person, way, state, tries, since },
    offeredAt: row.offered,
    message: JSON.parse(row.message) as Message,
    triesMost: row.tries_most,
    waitMs: row.wait,
    perhaps: row.perhaps === 1,
    ...(why === undefined ? {} : { why }),
    ...(row.withdrawn === null ? {} : { withdrawn: JSON.parse(row.withdrawn) as WithdrawnWhy }),
  };
}
