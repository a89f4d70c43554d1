import { randomInt } from 'node:crypto';
import type { Role, SecretKind } from '../../model/access/access.ts';
import { secretFault } from '../../model/access/secrets.ts';
import { wordsIn } from '../../model/words/words.ts';
import { hashSecret } from './hashing.ts';
import { PERSONS_MOST } from './logIn.ts';
import type { Ground } from './people.ts';
import type { Person } from './persons.ts';
import { conflict, notFound } from './refusals.ts';
import type { Settings } from './settings.ts';

const words = wordsIn('en').people;
const CODE_DIGITS = 8;
const KINDS: readonly SecretKind[] = ['password', 'code'];

/** A person as an admin sees one. */
export interface PersonRow extends Person {
  /** Null where none was given, or it was erased. */
  readonly name: string | null;
  /** By what the person can log in. */
  readonly secrets: readonly SecretKind[];
  /** Whether the person has yet to choose a secret of their own. */
  readonly provisional: boolean;
  readonly sessions: number;
  /** Until when wrong guesses keep this number from logging in; null while they do not. */
  readonly heldUntil: number | null;
}

export interface PersonChange {
  readonly roles?: readonly Role[] | undefined;
  readonly name?: string | undefined;
  readonly disabled?: boolean | undefined;
}

/** What an admin does. Whether the one who asks is one is asked before. */
export interface Administration {
  all(): readonly PersonRow[];
  name(number: string): string | undefined;
  roles(number: string): readonly Role[];
  /** A number with a provisional code, which is told once. */
  add(person: {
    readonly number: string;
    readonly roles: readonly Role[];
    readonly name?: string | undefined;
  }): Promise<string>;
  change(number: string, change: PersonChange): void;
  eraseName(number: string): void;
  /** Another provisional code in place of all secrets that the person has. */
  newCode(number: string): Promise<string>;
  endSessions(number: string): void;
  /** Wrong guesses hold this number off no longer. */
  release(number: string): void;
  settings(): Settings;
  set(settings: Settings): void;
}

export function createAdministration(ground: Ground): Administration {
  const { persons, sessions, kept, whole } = ground;
  return {
    all: () => whole(() => persons.all().map((person) => rowOf(ground, person))),
    name: (number) => whole(() => persons.name(number)),
    roles: (number) => whole(() => persons.find(number)?.roles ?? []),
    add: async ({ number, roles, name }) => {
      refuseTaken(ground, number);
      const { code, hash } = await newCode(ground, number);
      whole(() => {
        refuseTaken(ground, number);
        persons.add(number, roles, ground.now());
        persons.setSecret(number, 'code', { hash, provisional: true });
      });
      if (name !== undefined) named(ground, number, name);
      return code;
    },
    change: (number, change) => changed(ground, number, change),
    eraseName: (number) => {
      whole(() => {
        found(ground, number);
        ground.subscriptions.dropAll(number);
      });
      named(ground, number, undefined);
    },
    newCode: async (number) => {
      whole(() => found(ground, number));
      const { code, hash } = await newCode(ground, number);
      whole(() => {
        keepAnAdmin(ground, number);
        persons.dropSecrets(number);
        persons.setSecret(number, 'code', { hash, provisional: true });
        sessions.endAll(number);
        release(ground, number);
      });
      return code;
    },
    endSessions: (number) =>
      whole(() => {
        found(ground, number);
        sessions.endAll(number);
      }),
    release: (number) =>
      whole(() => {
        found(ground, number);
        release(ground, number);
      }),
    settings: () => whole(() => kept.settings()),
    set: (settings) => whole(() => kept.set(settings)),
  };
}

function rowOf({ persons, sessions, guesses, kept, now }: Ground, person: Person): PersonRow {
  const { number } = person;
  const secrets = KINDS.filter((kind) => persons.secret(number, kind) !== undefined);
  const held = KINDS.flatMap((kind) => guesses.heldUntil({ kind, who: number, known: true }, now()) ?? []);
  return {
    ...person,
    name: persons.name(number) ?? null,
    secrets,
    provisional: secrets.some((kind) => persons.secret(number, kind)?.provisional),
    sessions: sessions.count(number, kept.settings(), now()),
    heldUntil: held.length === 0 ? null : Math.max(...held),
  };
}

function changed(ground: Ground, number: string, { roles, name, disabled }: PersonChange): void {
  const { persons, sessions, now, whole } = ground;
  whole(() => {
    const person = found(ground, number);
    if (disabled === true || (roles && !roles.includes('admin'))) keepAnAdmin(ground, number);
    if (roles) persons.setRoles(number, roles);
    if (disabled === false) persons.setDisabled(number, null);
    if (disabled === true) {
      persons.setDisabled(number, person.disabled ?? now());
      sessions.endAll(number);
      ground.subscriptions.dropAll(number);
    }
  });
  if (disabled === true) ground.shutOff.add(number);
  if (disabled === false) ground.shutOff.delete(number);
  if (name !== undefined) named(ground, number, name);
}

/** By itself: what clears the file of the name before cannot stand within another change. */
function named({ persons, alone }: Ground, number: string, name: string | undefined): void {
  alone(() => persons.setName(number, name));
}

function found({ persons }: Ground, number: string): Person {
  const person = persons.find(number);
  if (!person) throw notFound(words.noPerson(number));
  return person;
}

function refuseTaken({ persons, whole }: Ground, number: string): void {
  whole(() => {
    if (persons.find(number)) throw conflict(words.taken(number));
    if (persons.count() >= PERSONS_MOST) throw conflict(words.full(PERSONS_MOST));
  });
}

/** Somebody must be left who can let others in. */
function keepAnAdmin({ persons }: Ground, number: string): void {
  const admins = persons.admins();
  if (admins.length === 1 && admins[0] === number) throw conflict(words.lastAdmin);
}

function release({ guesses }: Ground, number: string): void {
  for (const kind of KINDS) guesses.release({ kind, who: number, known: true });
}

/** A code that nobody chose. */
async function newCode(
  ground: Ground,
  number: string,
): Promise<{ readonly code: string; readonly hash: string }> {
  let code: string;
  do code = String(randomInt(10 ** CODE_DIGITS)).padStart(CODE_DIGITS, '0');
  while (secretFault(code, number) !== undefined);
  const hash = await ground.inTurn(() => hashSecret(code, ground.cost));
  return { code, hash };
}
