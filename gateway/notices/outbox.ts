import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { waitAfter } from './backOff.ts';
import { chooseDue, kindOf, type LaneKind, type OnItsWay } from './lanes.ts';
import { BOUNDS, type OutboxBounds, type OutboxClock } from './outboxBounds.ts';
import type { Letter, OutboxStore, WaitingRow, WithdrawnWhy } from './outboxStore.ts';
import {
  AWAY,
  type Failed,
  failed,
  type Outcome,
  type Parcel,
  PERHAPS,
  type Way,
  whyInWords,
} from './ways/way.ts';

const words = wordsIn('en').ways;

/** What has been done with a parcel: each is on the disk, or at the receiver, when it is said. */
export type OutboxStep = 'taken' | 'marked' | 'sent' | 'settled' | 'withdrawn' | 'recorded';

export interface OutboxParts {
  readonly store: OutboxStore;
  readonly ways: ReadonlyMap<string, Way>;
  /** What is not among the ways: one that is gone for good, or one whose letters wait until the file of ways is put right. */
  readonly missing?: (way: string) => Failed;
  readonly clock: OutboxClock;
  readonly log: Pick<Logger, 'info' | 'warn' | 'error'>;
  readonly bounds?: OutboxBounds;
  /** Puts on the tape that somebody was told, or was not; asked again until it has succeeded, so it may be twice. */
  readonly record?: (letter: Letter) => Promise<void>;
  /** Why a letter that waits is wanted no more; undefined while it is. */
  readonly unwanted?: (letter: Unwanted) => WithdrawnWhy | undefined;
  readonly stepDone?: (step: OutboxStep) => void;
}

/** What it is asked by whether a letter is wanted. */
export type Unwanted = Pick<WaitingRow, 'line' | 'notice' | 'person' | 'round'>;

export type AgainAnswer = 'again' | 'unknown' | 'notDead' | 'full' | 'unwanted';

/** How long it is waited when the disk or the tape refuses, and for what is being sent when it stops. Milliseconds. */
const TROUBLE_MS = 1000;
const STOPPING_MS = 1000;
const RECORDED_AT_ONCE = 100;

/**
 * Sends what it is given, and remembers it until it has been told, given up or withdrawn. At least once, by an id that is always
 * the same. First tries go in order for each person and way, urgent ones by themselves; what failed comes again by itself. No
 * way and no person waits for another, and nothing for what failed.
 */
export class Outbox {
  private readonly parts: OutboxParts;
  private readonly bounds: OutboxBounds;
  /** When each is due, by the steady clock. */
  private readonly due = new Map<number, number>();
  private readonly sending = new Map<number, OnItsWay & { readonly through: Promise<void> }>();
  /** Ways whose receiver took nothing when it was tried last. */
  private readonly away = new Set<string>();
  /** What has become of letters and the disk did not take yet. */
  private readonly unsettled = new Map<number, { readonly letter: Letter; readonly outcome: Outcome }>();
  private readonly ending = new AbortController();
  private timer: { readonly at: number; readonly callOff: () => void } | undefined;
  private recording: Promise<void> | undefined;
  private stopped = false;

  constructor(parts: OutboxParts) {
    this.parts = parts;
    this.bounds = parts.bounds ?? BOUNDS;
    for (const { way, hasFailed } of parts.store.allWaiting()) if (hasFailed) this.away.add(way);
    this.turn();
  }

  /** Takes parcels: on the disk when it returns. One that was taken before, by its id, is not taken again. */
  offer(parcels: readonly Parcel[]): void {
    const { store } = this.parts;
    store.together(() => {
      let { waiting } = store.counts();
      for (const parcel of parcels) {
        if (!store.add(parcel, this.bounds.triesMost)) continue;
        waiting += 1;
        if (waiting <= this.bounds.waitingMost) continue;
        store.dead(store.find(parcel.id)!.number, { trouble: 'full' }, this.parts.clock.now());
      }
    });
    this.stepDone('taken');
    this.soon(0);
  }

  /** Tries one that was given up once more, in its old place. */
  again(id: string): AgainAnswer {
    const { store, clock } = this.parts;
    const letter = store.find(id);
    if (letter === undefined) return 'unknown';
    if (letter.state !== 'dead') return 'notDead';
    const { person, message } = letter;
    if (this.parts.unwanted?.({ ...message, person }) !== undefined) return 'unwanted';
    if (store.counts().waiting >= this.bounds.waitingMost) return 'full';
    store.again(letter.number, this.bounds.triesMost, clock.now());
    this.soon(0);
    return 'again';
  }

  /** Withdraws what waits and is wanted no more. What is being sent goes out. */
  withdraw(): void {
    if (!this.stopped) this.stillWanted();
  }

  /** Sends something once, now, and remembers nothing of it. */
  async trial(parcel: Parcel): Promise<Outcome> {
    const way = this.parts.ways.get(parcel.way);
    if (way === undefined) return failed('noWay');
    return (await this.tried(parcel, way)) ?? failed('brokenOff');
  }

  /** What is being sent may end for a moment; what then has not ended is sent again at the next start. */
  async stop(): Promise<void> {
    this.stopped = true;
    this.timer?.callOff();
    const over = new Promise<void>((resolve) =>
      this.ending.signal.addEventListener('abort', () => resolve()),
    );
    const callOff = this.parts.clock.later(STOPPING_MS, () => this.ending.abort());
    await Promise.all([...this.sending.values()].map(({ through }) => through));
    await Promise.race([this.recording, over]);
    callOff();
    this.ending.abort();
  }

  /** Begins what is due, and comes again when something else is. */
  private turn(): void {
    if (this.stopped) return;
    this.timer?.callOff();
    this.timer = undefined;
    try {
      for (const { letter, outcome } of this.unsettled.values()) this.settle(letter, outcome);
      const next = this.beginDue();
      this.recordEnded();
      if (next !== undefined) this.soon(next);
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      this.parts.log.warn(words.log.disk(error.message));
      this.soon(TROUBLE_MS);
    }
  }

  /** Another turn in so long, unless one comes before. */
  private soon(ms: number): void {
    const { clock } = this.parts;
    const at = clock.steady() + ms;
    if (this.stopped || (this.timer !== undefined && this.timer.at <= at)) return;
    this.timer?.callOff();
    this.timer = { at, callOff: clock.later(ms, () => this.turn()) };
  }

  /** How long until the next one is due; undefined where nothing waits for time. */
  private beginDue(): number | undefined {
    const { store, clock } = this.parts;
    const steady = clock.steady();
    const { begin, next } = chooseDue(this.stillWanted(), [...this.sending.values()], {
      atOnce: this.bounds.atOnce,
      waitOf: (row) => this.dueAt(row, steady) - steady,
    });
    for (const row of begin) {
      const letter = store.letter(row.number);
      if (letter) this.begin(letter, kindOf(row));
    }
    return next;
  }

  /** What waits, once that is withdrawn which is wanted no more: all of it together, and kept with why. */
  private stillWanted(): readonly WaitingRow[] {
    const { store, clock, unwanted } = this.parts;
    const waiting = store.allWaiting().filter(({ number }) => !this.isOnItsWay(number));
    if (unwanted === undefined) return waiting;
    const judged = waiting.map((row) => ({ row, why: unwanted(row) }));
    const found = judged.flatMap(({ row: { number }, why }) => (why === undefined ? [] : [{ number, why }]));
    if (found.length === 0) return waiting;
    store.together(() => {
      for (const { number, why } of found) store.withdrawn(number, why, clock.now());
    });
    for (const { number } of found) this.due.delete(number);
    this.stepDone('withdrawn');
    this.soon(0);
    return judged.flatMap(({ row, why }) => (why === undefined ? [row] : []));
  }

  /** What became of it may be known, and not stored yet. */
  private isOnItsWay(number: number): boolean {
    return this.sending.has(number) || this.unsettled.has(number);
  }

  /** A wait from before this process is measured by the wall's clock, and never longer than it was to be. */
  private dueAt({ number, since, waitMs }: WaitingRow, steady: number): number {
    const left = Math.max(0, Math.min(waitMs, since + waitMs - this.parts.clock.now()));
    const due = this.due.get(number) ?? steady + left;
    this.due.set(number, due);
    return due;
  }

  private begin(letter: Letter, kind: LaneKind): void {
    const { store, ways, clock, missing } = this.parts;
    const way = ways.get(letter.way);
    if (way === undefined)
      return this.settle(letter, missing?.(letter.way) ?? failed('noWay', { lasting: true }));
    if (letter.tries >= letter.triesMost) {
      return this.settle(letter, failed('interrupted', { lasting: true }));
    }
    store.sending(letter.number, clock.now());
    this.due.delete(letter.number);
    this.stepDone('marked');
    const through = this.send({ ...letter, tries: letter.tries + 1 }, way);
    this.sending.set(letter.number, { way: way.id, person: letter.person, kind, through });
  }

  private async send(letter: Letter, way: Way): Promise<void> {
    const outcome = await this.tried(letter, way);
    if (outcome?.kind === 'told') this.stepDone('sent');
    this.sending.delete(letter.number);
    if (outcome === undefined) return;
    this.unsettled.set(letter.number, { letter, outcome });
    if (this.stopped) this.settleLast(letter, outcome);
    else this.turn();
  }

  /** Undefined when it was broken off because the outbox stops: then nobody knows, and it stays as being sent. */
  private async tried(parcel: Parcel, way: Way): Promise<Outcome | undefined> {
    const { clock, log } = this.parts;
    const breaking = new AbortController();
    const isOver = new Promise<Outcome | undefined>((resolve) => {
      breaking.signal.addEventListener('abort', () =>
        resolve(this.ending.signal.aborted ? undefined : failed('hung')),
      );
    });
    const end = () => breaking.abort();
    const callOff = clock.later(this.bounds.tryMs, end);
    this.ending.signal.addEventListener('abort', end);
    try {
      return await Promise.race([way.send(parcel, breaking.signal), isOver]);
    } catch (error) {
      // a mistake of our own in one way must not end the others, nor what watches the line
      log.error({ err: error }, words.log.threw(way.id));
      return failed('mistake');
    } finally {
      callOff();
      this.ending.signal.removeEventListener('abort', end);
    }
  }

  /** Stores what has become of a letter; what the disk refuses stays among the unsettled, and is not sent again. */
  private settle(letter: Letter, outcome: Outcome): void {
    const { store, clock, log } = this.parts;
    const { number, tries, triesMost, way } = letter;
    if (outcome.kind === 'told') {
      store.told(number, clock.now());
      this.due.delete(number);
      this.reached(way);
    } else if (outcome.lasting || tries >= triesMost) {
      store.dead(number, outcome.why, clock.now());
      this.due.delete(number);
      log.warn(words.log.notTold(way, whyInWords(outcome.why)));
    } else this.postpone(letter, outcome);
    this.unsettled.delete(number);
    this.stepDone('settled');
    this.soon(0);
  }

  private postpone({ number, tries, way }: Letter, { why, waitMs: asked }: Failed): void {
    const { store, clock, log } = this.parts;
    const waitMs = waitAfter(tries, this.bounds.backOff, clock.chance(), asked);
    store.waiting(number, why, { waitMs, perhaps: PERHAPS.includes(why.trouble), now: clock.now() });
    this.due.set(number, clock.steady() + waitMs);
    if (AWAY.includes(why.trouble)) this.away.add(way);
    log.info(words.log.later(way, whyInWords(why)));
  }

  /** After a receiver was away, all that waited for it goes out at once, in its order. */
  private reached(way: string): void {
    if (!this.away.delete(way)) return;
    const { store, clock } = this.parts;
    for (const number of store.hurry(way, AWAY)) this.due.set(number, clock.steady());
  }

  private settleLast(letter: Letter, outcome: Outcome): void {
    try {
      this.settle(letter, outcome);
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      this.parts.log.warn(words.log.disk(error.message));
    }
  }

  /** One round at a time; what comes to an end meanwhile is looked for when it is through. */
  private recordEnded(): void {
    if (this.recording !== undefined) return;
    const ended = this.parts.store.notRecorded(RECORDED_AT_ONCE);
    if (ended.length === 0) return;
    this.recording = this.recordAll(ended).then((ms) => {
      this.recording = undefined;
      this.soon(ms);
    });
  }

  /** How long to wait before the next round. */
  private async recordAll(ended: readonly Letter[]): Promise<number> {
    const { store, record, log } = this.parts;
    try {
      for (const letter of ended) {
        await record?.(letter);
        // it stopped meanwhile, and the store may be closed: what is not marked is recorded again, and counts once
        if (this.ending.signal.aborted) return 0;
        store.recorded(letter.number);
        this.stepDone('recorded');
      }
      store.keep('told', this.bounds.toldKept);
      store.keep('withdrawn', this.bounds.withdrawnKept);
      const dropped = store.keep('dead', this.bounds.deadKept);
      if (dropped > 0) log.warn(words.log.dropped(dropped));
      return 0;
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      log.warn({ why: error.message }, words.log.notRecorded);
      return TROUBLE_MS;
    }
  }

  private stepDone(step: OutboxStep): void {
    this.parts.stepDone?.(step);
  }
}
