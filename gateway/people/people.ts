import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import type { Plant } from '../../model/access/access.ts';
import { assert } from '../../model/trouble/trouble.ts';
import { openDatabase } from '../tape/database.ts';
import { onPeopleFile as onDisk } from './peopleFile.ts';
import { makeAdminCode } from './adminCode.ts';
import { createAdministration, type Administration } from './administration.ts';
import { forgetEnded } from './forget.ts';
import { Guesses } from './guesses.ts';
import { HASH_COST, type HashCost } from './hashing.ts';
import { createLogIn, type LogIn } from './logIn.ts';
import { Persons } from './persons.ts';
import { preparePeople } from './schema.ts';
import { type Asker, Sessions } from './sessions.ts';
import { Kept } from './settings.ts';
import { Subscriptions, type SubscriptionRow, type Subscription } from './subscriptions.ts';
import { createTurns } from './turns.ts';

/** What log-in and administration stand on. */
export interface Ground {
  readonly persons: Persons;
  readonly sessions: Sessions;
  readonly guesses: Guesses;
  readonly subscriptions: Subscriptions;
  readonly kept: Kept;
  /** Numbers of those whose access has ended: asked for every second, so it is held here beside the file. */
  readonly shutOff: Set<string>;
  readonly now: () => number;
  readonly cost: HashCost;
  /** Hashing takes memory: one after another. */
  readonly inTurn: <Result>(act: () => Promise<Result>) => Promise<Result>;
  /** Runs something on the file, all or nothing. */
  readonly whole: <Result>(act: () => Result) => Result;
  /** Runs something on the file that cannot stand within a transaction. */
  readonly alone: <Result>(act: () => Result) => Result;
}

/** Who has a number here, and who is logged in. */
export interface People {
  /** The code that makes the first admin, where this plant has nobody yet and none was made. */
  readonly firstCode: string | undefined;
  /** Makes another such code, for a plant that lost its admin. */
  newAdminCode(): string;
  plant(): Plant;
  /** Who bears a token; undefined for nobody. */
  asker(token: string): Asker | undefined;
  /** Somebody with this token does something. */
  use(token: string): void;
  /** Numbers of those whose access has ended. */
  shutOff(): ReadonlySet<string>;
  /** Drops what is kept of people for a limited time; answers the numbers that lost something. */
  forgetEnded(): readonly string[];
  readonly logIn: LogIn;
  readonly administration: Administration;
  readonly push: Push;
  close(): void;
}

/** Browsers that take notices for people. */
export interface Push {
  of(person: string): readonly Subscription[];
  /** Numbers of those who have any. */
  people(): readonly string[];
  rows(person: string): readonly SubscriptionRow[];
  add(person: string, subscription: Subscription): void;
  /** Whether there was one of this person by this id. */
  remove(person: string, id: string): boolean;
  drop(endpoint: string): void;
  /** All of them. */
  clear(): void;
}

export interface PeopleWish {
  readonly now: () => number;
  readonly cost?: HashCost;
  /** Whether what is written outlasts a loss of power; only a test does without. */
  readonly durable?: boolean;
}

/** Log-ins that wait for their hash at most. */
const WAITING_MOST = 32;
/** How long a writer waits for another program, such as one that copies the file. Milliseconds. */
const BUSY_MS = 200;

/** Opens the people of a data folder: never on the tape, and in a file that only this user reads. */
export function openPeople(folder: string, { now, cost = HASH_COST, durable = true }: PeopleWish): People {
  const file = join(folder, 'people.sqlite');
  const database = onDisk(file, () => openDatabase(file, BUSY_MS));
  try {
    onDisk(file, () => chmodSync(file, 0o600));
    const isNew = onDisk(file, () => preparePeople(database, durable));
    const kept = new Kept(database);
    const guarded = <Result>(act: () => Result): Result => {
      assert(database.open, 'the people are closed');
      return onDisk(file, act);
    };
    const guesses = new Guesses(
      database,
      guarded(() => kept.salt()),
    );
    const persons = new Persons(database);
    const ground: Ground = {
      persons,
      shutOff: new Set(guarded(() => persons.shutOff())),
      sessions: new Sessions(database),
      guesses,
      subscriptions: new Subscriptions(database),
      kept,
      now,
      cost,
      inTurn: createTurns(WAITING_MOST),
      whole: (act) => guarded(() => (database.inTransaction ? act() : database.transaction(act).immediate())),
      alone: guarded,
    };
    const firstCode = isNew ? guarded(() => makeAdminCode(kept, now())) : undefined;
    return faceOf(ground, firstCode, guarded, () => database.close());
  } catch (error) {
    database.close();
    throw error;
  }
}

function faceOf(
  ground: Ground,
  firstCode: string | undefined,
  guarded: <Result>(act: () => Result) => Result,
  close: () => void,
): People {
  const { persons, sessions, subscriptions, kept, now } = ground;
  return {
    firstCode,
    newAdminCode: () => guarded(() => makeAdminCode(kept, now())),
    plant: () => guarded(() => ({ people: persons.any(), closed: kept.settings().closed })),
    asker: (token) => guarded(() => sessions.asker(token, kept.settings(), now())),
    use: (token) => guarded(() => sessions.use(token, now())),
    shutOff: () => ground.shutOff,
    forgetEnded: () => forgetEnded(ground),
    logIn: createLogIn(ground),
    administration: createAdministration(ground),
    push: {
      of: (person) => guarded(() => subscriptions.of(person)),
      people: () => guarded(() => subscriptions.people()),
      rows: (person) => guarded(() => subscriptions.rows(person)),
      add: (person, one) => ground.whole(() => subscriptions.add(person, one, now())),
      remove: (person, id) => ground.whole(() => subscriptions.remove(person, id)),
      drop: (endpoint) => guarded(() => subscriptions.drop(endpoint)),
      clear: () => guarded(() => subscriptions.clear()),
    },
    close,
  };
}
