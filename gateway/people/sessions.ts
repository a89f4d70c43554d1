import { createHash, randomBytes } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { type Place, type Role, rolesBy, type SecretKind } from '../../model/access/access.ts';
import { statement } from '../tape/database.ts';
import { Persons } from './persons.ts';
import type { Settings } from './settings.ts';

/** Somebody who is logged in. */
export interface Asker {
  readonly number: string;
  /** What this session may stand on: a code carries no admin's, and a secret of somebody else's making carries none. */
  readonly roles: readonly Role[];
  readonly kind: SecretKind;
  readonly place: Place;
  /** A secret of one's own has to be chosen before anything else. */
  readonly provisional: boolean;
  /** When it ends whatever is done, milliseconds since 1970. */
  readonly until: number;
}

export interface Opening {
  readonly number: string;
  readonly kind: SecretKind;
  readonly place: Place;
  readonly provisional: boolean;
}

/** Sessions of one person at once; the oldest ends where there would be more. */
const SESSIONS_MOST = 10;
/** How exactly it is kept when one was used last. Milliseconds. */
const USED_EXACT = 5_000;

/** Who is logged in. A token is known only to the browser that got it: here lies its hash. */
export class Sessions {
  private readonly database: Database;
  private readonly persons: Persons;

  constructor(database: Database) {
    this.database = database;
    this.persons = new Persons(database);
  }

  /** Opens one, and answers its token. */
  open({ number, kind, place, provisional }: Opening, { hoursMost }: Settings, now: number): string {
    const token = randomBytes(32).toString('base64url');
    statement(
      this.database,
      'INSERT INTO session (token, person, kind, place, provisional, from_ms, until_ms, used_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    ).run(hashOf(token), number, kind, place, provisional ? 1 : 0, now, now + hoursMost * 3_600_000, now);
    this.dropOver(now);
    statement(
      this.database,
      `DELETE FROM session WHERE person = ? AND token IN (
        SELECT token FROM session WHERE person = ? ORDER BY from_ms DESC, used_ms DESC LIMIT -1 OFFSET ${SESSIONS_MOST}
      )`,
    ).run(number, number);
    return token;
  }

  /** Who bears a token; nobody where it is unknown, over, left alone too long, or its person is disabled. */
  asker(token: string, settings: Settings, now: number): Asker | undefined {
    const row = statement<[Buffer], Row>(this.database, 'SELECT * FROM session WHERE token = ?').get(
      hashOf(token),
    );
    if (!row || isOver(row, settings, now)) return undefined;
    const person = this.persons.find(row.person);
    if (!person || person.disabled !== null) return undefined;
    const provisional = row.provisional === 1;
    return {
      number: row.person,
      roles: provisional ? [] : rolesBy(person.roles, row.kind),
      kind: row.kind,
      place: row.place,
      provisional,
      until: row.until_ms,
    };
  }

  /** Somebody does something: it is not left alone. */
  use(token: string, now: number): void {
    statement(this.database, 'UPDATE session SET used_ms = ? WHERE token = ? AND used_ms < ?').run(
      now,
      hashOf(token),
      now - USED_EXACT,
    );
  }

  /** Those that can last no longer. */
  dropOver(now: number): void {
    statement(this.database, 'DELETE FROM session WHERE until_ms <= ?').run(now);
  }

  end(token: string): void {
    statement(this.database, 'DELETE FROM session WHERE token = ?').run(hashOf(token));
  }

  endAll(number: string): void {
    statement(this.database, 'DELETE FROM session WHERE person = ?').run(number);
  }

  /** How many of a person go on. */
  count(number: string, settings: Settings, now: number): number {
    return statement<[string], Row>(this.database, 'SELECT * FROM session WHERE person = ?')
      .all(number)
      .filter((row) => !isOver(row, settings, now)).length;
  }
}

interface Row {
  readonly person: string;
  readonly kind: SecretKind;
  readonly place: Place;
  readonly provisional: number;
  readonly from_ms: number;
  readonly until_ms: number;
  readonly used_ms: number;
}

/** Also where the clock was set back to before it began: then nobody can say how old it is. */
function isOver(
  { place, from_ms: from, until_ms: until, used_ms: used }: Row,
  settings: Settings,
  now: number,
) {
  const idle = (place === 'panel' ? settings.panelIdleMinutes : settings.idleMinutes) * 60_000;
  return now >= until || now - used >= idle || now < from - SET_BACK_MOST;
}

const SET_BACK_MOST = 60_000;

function hashOf(token: string): Buffer {
  return createHash('sha256').update(token).digest();
}
