import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { statement } from '../tape/database.ts';

/** A browser that takes notices for a person by its push service (RFC 8030), with the keys to encrypt for it (RFC 8291). */
export interface Subscription {
  readonly endpoint: string;
  readonly p256dh: string;
  readonly auth: string;
}

/** One as its person sees it: its address is a secret of the browser's. */
export interface SubscriptionRow {
  readonly id: string;
  /** Milliseconds since 1970. */
  readonly since: number;
}

/** Browsers of one person at most; the oldest ends where there would be more. */
const PERSON_MOST = 10;

/** Which browsers take notices for whom. A browser takes them for one person: for who turned it on last. */
export class Subscriptions {
  private readonly database: Database;

  constructor(database: Database) {
    this.database = database;
  }

  /** Those of somebody who is not shut off. */
  of(person: string): readonly Subscription[] {
    return statement<[string], Subscription>(
      this.database,
      `SELECT endpoint, p256dh, auth FROM push JOIN person ON number = person
       WHERE person = ? AND disabled IS NULL ORDER BY since_ms`,
    ).all(person);
  }

  /** Whoever has one and is not shut off. */
  people(): readonly string[] {
    return statement<[], string>(
      this.database,
      'SELECT DISTINCT person FROM push JOIN person ON number = person WHERE disabled IS NULL ORDER BY person',
    )
      .pluck()
      .all();
  }

  rows(person: string): readonly SubscriptionRow[] {
    return statement<[string], { readonly endpoint: string; readonly since: number }>(
      this.database,
      'SELECT endpoint, since_ms AS since FROM push WHERE person = ? ORDER BY since_ms',
    )
      .all(person)
      .map(({ endpoint, since }) => ({ id: subscriptionId(endpoint), since }));
  }

  add(person: string, { endpoint, p256dh, auth }: Subscription, now: number): void {
    statement(
      this.database,
      'INSERT OR REPLACE INTO push (endpoint, person, p256dh, auth, since_ms) VALUES (?, ?, ?, ?, ?)',
    ).run(endpoint, person, p256dh, auth, now);
    statement(
      this.database,
      `DELETE FROM push WHERE person = ? AND endpoint IN (
        SELECT endpoint FROM push WHERE person = ? ORDER BY since_ms DESC, endpoint LIMIT -1 OFFSET ${PERSON_MOST}
      )`,
    ).run(person, person);
  }

  /** Whether there was one of this person by this id. */
  remove(person: string, id: string): boolean {
    const found = statement<[string], string>(this.database, 'SELECT endpoint FROM push WHERE person = ?')
      .pluck()
      .all(person)
      .find((endpoint) => subscriptionId(endpoint) === id);
    if (found !== undefined) this.drop(found);
    return found !== undefined;
  }

  /** The browser takes none any more. */
  drop(endpoint: string): void {
    statement(this.database, 'DELETE FROM push WHERE endpoint = ?').run(endpoint);
  }

  /** Nobody’s browsers take any more. */
  clear(): void {
    statement(this.database, 'DELETE FROM push').run();
  }

  dropAll(person: string): void {
    statement(this.database, 'DELETE FROM push WHERE person = ?').run(person);
  }
}

/** By what a browser knows its own one again, without its address being told. */
export function subscriptionId(endpoint: string): string {
  return createHash('sha256').update(endpoint).digest('hex');
}
