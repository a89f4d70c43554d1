import type { Database } from 'better-sqlite3';
import { ROLES, type Role, type SecretKind } from '../../model/access/access.ts';
import { statement } from '../tape/database.ts';

/** A person by number. The name, if there is one, is asked for apart, by whoever may see it. */
export interface Person {
  readonly number: string;
  readonly roles: readonly Role[];
  /** Milliseconds since 1970. */
  readonly created: number;
  /** Since when the number is taken for no log-in; null while it is. */
  readonly disabled: number | null;
}

export interface KeptSecret {
  readonly hash: string;
  /** Somebody else made it: it is good for choosing one of one's own, and nothing more. */
  readonly provisional: boolean;
}

/** Persons, their names and what their secrets are checked against. A number is never given up: it stands on tapes. */
export class Persons {
  private readonly database: Database;

  constructor(database: Database) {
    this.database = database;
  }

  find(number: string): Person | undefined {
    const row = statement<[string], Row>(this.database, 'SELECT * FROM person WHERE number = ?').get(number);
    return row && personOf(row);
  }

  all(): readonly Person[] {
    return statement<[], Row>(this.database, 'SELECT * FROM person ORDER BY length(number), number')
      .all()
      .map(personOf);
  }

  count(): number {
    return statement(this.database, 'SELECT count(*) FROM person').pluck().get() as number;
  }

  /** Whether there is anybody who can log in. */
  any(): boolean {
    return (
      statement(
        this.database,
        'SELECT EXISTS (SELECT 1 FROM person JOIN secret USING (number) WHERE disabled IS NULL)',
      )
        .pluck()
        .get() === 1
    );
  }

  /** Numbers of those who can be admins now: with that role, not disabled, with a password. */
  admins(): readonly string[] {
    return this.all()
      .filter(({ roles, disabled }) => disabled === null && roles.includes('admin'))
      .map(({ number }) => number)
      .filter((number) => this.secret(number, 'password') !== undefined);
  }

  /** Numbers of those whose access has ended. */
  shutOff(): readonly string[] {
    return statement<[], string>(this.database, 'SELECT number FROM person WHERE disabled IS NOT NULL')
      .pluck()
      .all();
  }

  add(number: string, roles: readonly Role[], now: number): void {
    statement(this.database, 'INSERT INTO person (number, roles, created) VALUES (?, ?, ?)').run(
      number,
      roles.join(' '),
      now,
    );
  }

  setRoles(number: string, roles: readonly Role[]): void {
    statement(this.database, 'UPDATE person SET roles = ? WHERE number = ?').run(roles.join(' '), number);
  }

  setDisabled(number: string, since: number | null): void {
    statement(this.database, 'UPDATE person SET disabled = ? WHERE number = ?').run(since, number);
  }

  name(number: string): string | undefined {
    return statement<[string], string>(this.database, 'SELECT name FROM name WHERE number = ?')
      .pluck()
      .get(number);
  }

  /** Gives a name, or erases it: what stood there is then in no file, also not where pages were moved about. */
  setName(number: string, name: string | undefined): void {
    if (name === this.name(number)) return;
    const change = this.database.transaction(() => {
      statement(this.database, 'DELETE FROM name WHERE number = ?').run(number);
      if (name !== undefined)
        statement(this.database, 'INSERT INTO name (number, name) VALUES (?, ?)').run(number, name);
    });
    const erases = this.name(number) !== undefined;
    change.immediate();
    if (erases) this.database.exec('VACUUM');
  }

  secret(number: string, kind: SecretKind): KeptSecret | undefined {
    const row = statement<[string, string], { readonly hash: string; readonly provisional: number }>(
      this.database,
      'SELECT hash, provisional FROM secret WHERE number = ? AND kind = ?',
    ).get(number, kind);
    return row && { hash: row.hash, provisional: row.provisional === 1 };
  }

  setSecret(number: string, kind: SecretKind, { hash, provisional }: KeptSecret): void {
    statement(
      this.database,
      'INSERT OR REPLACE INTO secret (number, kind, hash, provisional) VALUES (?, ?, ?, ?)',
    ).run(number, kind, hash, provisional ? 1 : 0);
  }

  dropSecrets(number: string): void {
    statement(this.database, 'DELETE FROM secret WHERE number = ?').run(number);
  }

  /** Ends what somebody else made for this person, once there is one of the person's own. */
  dropProvisional(number: string): void {
    statement(this.database, 'DELETE FROM secret WHERE number = ? AND provisional = 1').run(number);
  }
}

interface Row {
  readonly number: string;
  readonly roles: string;
  readonly created: number;
  readonly disabled: number | null;
}

/** A role that a newer version gave, and this one does not know, is none. */
function personOf({ roles, ...rest }: Row): Person {
  const held = roles.split(' ');
  return { ...rest, roles: ROLES.filter((role) => held.includes(role)) };
}
