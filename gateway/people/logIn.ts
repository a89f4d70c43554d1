import { randomBytes } from 'node:crypto';
import type { Place, SecretKind } from '../../model/access/access.ts';
import { secretFault, secretKind } from '../../model/access/secrets.ts';
import { wordsIn } from '../../model/words/words.ts';
import { dropAdminCode, isAdminCode } from './adminCode.ts';
import type { Guesser } from './guesses.ts';
import { hashSecret, isOfOtherCost, isSecret } from './hashing.ts';
import type { Ground } from './people.ts';
import { conflict, heldOff, notAllowed } from './refusals.ts';
import type { Asker } from './sessions.ts';

const words = wordsIn('en').people;
/** Persons that there can be: a number that is made by a slip stays for ever. */
export const PERSONS_MOST = 5000;

export interface Trying {
  readonly number: string;
  readonly secret: string;
  readonly place: Place;
  /** Where it comes from, as the network says. */
  readonly address: string;
}

export interface FirstAdmin extends Trying {
  readonly code: string;
}

/** Every way to a session; each answers its token. */
export interface LogIn {
  withSecret(trying: Trying): Promise<string>;
  /** By the code that the gateway printed: makes this number an admin, with this password. */
  asAdmin(first: FirstAdmin): Promise<string>;
  /** Another secret of one's own; every other session of the person ends, and this one goes on under the new token. */
  changeSecret(
    asker: Asker,
    trying: { readonly secret: string; readonly next: string; readonly address: string },
  ): Promise<string>;
  /** The person's own sessions end here; the others of the person go on. */
  logOut(token: string): void;
}

export function createLogIn(ground: Ground): LogIn {
  return {
    withSecret: async ({ number, secret, place, address }) => {
      const { kind, provisional } = await checked(ground, number, secret, address);
      return opened(ground, { number, kind, place, provisional });
    },
    asAdmin: (first) => asAdmin(ground, first),
    changeSecret: async (asker, { secret, next, address }) => {
      refuseFault(next, asker.number);
      refuseWeaker(ground, asker.number, secret, next);
      await checked(ground, asker.number, secret, address);
      return ownSecret(ground, asker, next);
    },
    logOut: (token) => ground.whole(() => ground.sessions.end(token)),
  };
}

/** Refuses a secret that is too easily guessed. */
export function refuseFault(secret: string, number: string): void {
  const fault = secretFault(secret, number);
  if (fault !== undefined) throw conflict(words.fault[fault]);
}

/** A short code must not lead to what only a password carries. */
function refuseWeaker({ persons, whole }: Ground, number: string, secret: string, next: string): void {
  if (secretKind(next) === 'code' || secretKind(secret) === 'password') return;
  if (whole(() => persons.secret(number, 'password'))) throw conflict(words.passwordByPassword);
}

interface Checked {
  readonly kind: SecretKind;
  readonly provisional: boolean;
}

/**
 * Whether it is this person's secret; refused otherwise, always with the same words and after the same work, whether
 * there is such a person or not. A guess counts as wrong until it is known to be right.
 */
async function checked(ground: Ground, number: string, secret: string, address: string): Promise<Checked> {
  const { persons, guesses, now, cost, whole } = ground;
  const kind = secretKind(secret);
  const kept = () => (persons.find(number)?.disabled === null ? persons.secret(number, kind) : undefined);
  const guessers = whole((): readonly Guesser[] => {
    const known = persons.find(number) !== undefined;
    const all: readonly Guesser[] = [
      { kind: 'address', who: address, known: false },
      { kind, who: number, known },
    ];
    beginAll(ground, all);
    return all;
  });
  const before = whole(kept);
  const right = await ground.inTurn(() => isSecret(secret, before?.hash ?? noSecret(ground)));
  // it may have been changed meanwhile
  if (!right || !before || whole(kept)?.hash !== before.hash) throw notAllowed(words.wrong);
  whole(() => {
    for (const guesser of guessers) guesses.right(guesser, now());
  });
  if (isOfOtherCost(before.hash, cost)) {
    const hash = await ground.inTurn(() => hashSecret(secret, cost));
    whole(() => {
      if (kept()?.hash === before.hash) persons.setSecret(number, kind, { ...before, hash });
    });
  }
  return { kind, provisional: before.provisional };
}

/** Counts a guess for each, or refuses where one of them is held off: then nothing is counted for any. */
function beginAll({ guesses, now }: Ground, guessers: readonly Guesser[]): void {
  for (const guesser of guessers) {
    const until = guesses.heldUntil(guesser, now());
    if (until === undefined) continue;
    throw heldOff(guesser.kind === 'address' ? words.heldAddress : words.held, until - now());
  }
  for (const guesser of guessers) guesses.begin(guesser, now());
}

/** What nobody's secret is checked against: as costly as anybody's, and never right. */
function noSecret({ cost: { cost, block, parallel } }: Ground): string {
  const bytes = (length: number) => randomBytes(length).toString('base64url');
  return ['scrypt', cost, block, parallel, bytes(16), bytes(32)].join('$');
}

function opened(
  { sessions, kept, now, whole }: Ground,
  opening: {
    readonly number: string;
    readonly kind: SecretKind;
    readonly place: Place;
    readonly provisional: boolean;
  },
): string {
  return whole(() => sessions.open(opening, kept.settings(), now()));
}

async function asAdmin(
  ground: Ground,
  { code, number, secret, place, address }: FirstAdmin,
): Promise<string> {
  const { persons, sessions, guesses, kept, now, whole } = ground;
  const guesser: Guesser = { kind: 'adminCode', who: address, known: false };
  if (secretKind(secret) !== 'password') throw conflict(words.adminNeedsPassword);
  refuseFault(secret, number);
  const right = whole(() => {
    beginAll(ground, [guesser]);
    return isAdminCode(kept, code, now());
  });
  if (!right) throw notAllowed(words.wrongAdminCode);
  const hash = await ground.inTurn(() => hashSecret(secret, ground.cost));
  whole(() => {
    // two may have come with it at once
    if (!isAdminCode(kept, code, now())) throw notAllowed(words.wrongAdminCode);
    dropAdminCode(kept);
    guesses.release(guesser);
    const person = persons.find(number);
    if (!person) persons.add(number, [], now());
    persons.setRoles(number, [...new Set([...(person?.roles ?? []), 'admin' as const])]);
    persons.setDisabled(number, null);
    persons.dropSecrets(number);
    persons.setSecret(number, 'password', { hash, provisional: false });
    sessions.endAll(number);
  });
  return opened(ground, { number, kind: 'password', place, provisional: false });
}

async function ownSecret(ground: Ground, asker: Asker, next: string): Promise<string> {
  const { persons, sessions, whole } = ground;
  const { number, place } = asker;
  const kind = secretKind(next);
  const hash = await ground.inTurn(() => hashSecret(next, ground.cost));
  whole(() => {
    if (persons.find(number)?.disabled !== null) throw notAllowed(words.wrong);
    persons.dropProvisional(number);
    persons.setSecret(number, kind, { hash, provisional: false });
    sessions.endAll(number);
  });
  // who came by a password goes on by it, also where what was chosen is a code
  const by = asker.kind === 'password' ? 'password' : kind;
  return opened(ground, { number, kind: by, place, provisional: false });
}
