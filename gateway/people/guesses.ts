import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { statement } from '../tape/database.ts';

/** How wrong guesses are held off: so many are free, then each waits twice as long as the one before, up to a most. */
export interface Patience {
  readonly free: number;
  readonly firstMs: number;
  readonly mostMs: number;
  /** A wrong guess is forgotten so long after the newest one. */
  readonly forgetMs: number;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/**
 * A short code can be guessed in so many tries that few of them may be made: 24 a day. An address has many people behind
 * it, and behind a proxy that was not told of all of them, so it is held off late and never for long.
 */
export const PATIENCE = {
  code: { free: 3, firstMs: MINUTE, mostMs: HOUR, forgetMs: 24 * HOUR },
  password: { free: 5, firstMs: 10_000, mostMs: 15 * MINUTE, forgetMs: 24 * HOUR },
  address: { free: 20, firstMs: 5_000, mostMs: 30_000, forgetMs: 15 * MINUTE },
  adminCode: { free: 5, firstMs: 10_000, mostMs: 15 * MINUTE, forgetMs: 24 * HOUR },
} as const satisfies Readonly<Record<string, Patience>>;

/** Rows that are kept of numbers and addresses nobody here has; those of people are as many as the people. */
const STRANGERS_MOST = 5000;

interface Row {
  readonly wrong: number;
  readonly last: number;
  readonly until: number;
}

/** Whose guesses: a kind of patience, and what it is about. `known`: a person of this plant, whose row is never dropped. */
export interface Guesser {
  readonly kind: keyof typeof PATIENCE;
  readonly who: string;
  readonly known: boolean;
}

/** Counts wrong guesses. What is typed is kept as a hash, since a person may type a name where a number belongs. */
export class Guesses {
  private readonly database: Database;
  private readonly salt: string;

  constructor(database: Database, salt: string) {
    this.database = database;
    this.salt = salt;
  }

  /** Until when no guess is taken; undefined where one is. */
  heldUntil(guesser: Guesser, now: number): number | undefined {
    const row = this.row(guesser, now);
    return row && row.until > now ? row.until : undefined;
  }

  /** Counts a guess as wrong before it is looked at, so that many at once are not all taken; `right` takes it back. */
  begin(guesser: Guesser, now: number): void {
    const wrong = (this.row(guesser, now)?.wrong ?? 0) + 1;
    const key = this.keyOf(guesser);
    const until = now + delayOf(PATIENCE[guesser.kind], wrong);
    statement(
      this.database,
      'INSERT OR REPLACE INTO guesses (key, known, wrong, last_ms, until_ms) VALUES (?, ?, ?, ?, ?)',
    ).run(key, guesser.known ? 1 : 0, wrong, now, until);
    this.dropOldest(); // for everybody: who is known must not show in the time it takes
  }

  /** It was right: a person's are forgotten, an address has one less. */
  right(guesser: Guesser, now: number): void {
    const row = this.row(guesser, now);
    if (guesser.kind !== 'address' || !row || row.wrong <= 1) return this.release(guesser);
    const wrong = row.wrong - 1;
    statement(this.database, 'UPDATE guesses SET wrong = ?, until_ms = ? WHERE key = ?').run(
      wrong,
      Math.min(row.until, now + delayOf(PATIENCE.address, wrong - 1)),
      this.keyOf(guesser),
    );
  }

  release(guesser: Guesser): void {
    statement(this.database, 'DELETE FROM guesses WHERE key = ?').run(this.keyOf(guesser));
  }

  /** How many rows there are; for who looks that they stay few. */
  size(): number {
    return statement(this.database, 'SELECT count(*) FROM guesses').pluck().get() as number;
  }

  private row(guesser: Guesser, now: number): Row | undefined {
    const row = statement<[string], Row>(
      this.database,
      'SELECT wrong, last_ms AS last, until_ms AS until FROM guesses WHERE key = ?',
    ).get(this.keyOf(guesser));
    if (!row) return undefined;
    // a clock that was set back far would hold somebody off for as long
    const { forgetMs, mostMs } = PATIENCE[guesser.kind];
    return Math.abs(now - row.last) > forgetMs || row.until - now > mostMs ? undefined : row;
  }

  private keyOf({ kind, who }: Guesser): string {
    return createHash('sha256').update(`${this.salt} ${kind} ${who}`).digest('base64url');
  }

  private dropOldest(): void {
    statement(
      this.database,
      `DELETE FROM guesses WHERE known = 0 AND last_ms <= (
        SELECT last_ms FROM guesses WHERE known = 0 ORDER BY last_ms DESC LIMIT 1 OFFSET ${STRANGERS_MOST}
      )`,
    ).run();
  }
}

/** How long the next guess waits after so many wrong ones. Milliseconds. */
export function delayOf({ free, firstMs, mostMs }: Patience, wrong: number): number {
  return wrong < free ? 0 : Math.min(mostMs, firstMs * 2 ** Math.min(wrong - free, 40));
}
