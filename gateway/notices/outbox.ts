import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { type BackOff, waitAfter } from './backOff.ts';
import type { Letter, OutboxStore } from './outboxStore.ts';
import { failed, type Outcome, type Parcel, type Way, whyInWords } from './ways/way.ts';

const words = wordsIn('en').ways;

/** The clocks, chance and timer of a process; a test brings its own. Milliseconds. */
export interface OutboxClock {
  /** The wall's clock, since 1970: for people. It may be set. */
  readonly now: () => number;
  /** Goes on evenly whatever is done to the wall's clock: waits are measured by it. */
  readonly steady: () => number;
  /** From 0 to 1. */
  readonly chance: () => number;
  /** Does something later; gives back what calls it off. */
  readonly later: (ms: number, act: () => void) => () => void;
}

export interface OutboxBounds {
  readonly backOff: BackOff;
  readonly triesMost: number;
  /** How long one try may take. Milliseconds. */
  readonly tryMs: number;
  /** So many by one way at once. */
  readonly atOnce: number;
  readonly waitingMost: number;
  /** Of what has come to an end, so many are kept. */
  readonly toldKept: number;
  readonly deadKept: number;
}

/** Twenty tries come to about an hour. What is raised while a receiver is away waits five minutes at most once it is back. */
export const BOUNDS: OutboxBounds = {
  backOff: { first: 5000, most: 300_000 },
  triesMost: 20,
  tryMs: 30_000,
  atOnce: 4,
  waitingMost: 2000,
  toldKept: 5000,
  deadKept: 1000,
};

/** What has been done with a parcel: each is on the disk, or at the receiver, when it is said. */
export type OutboxStep = 'taken' | 'marked' | 'sent' | 'settled' | 'recorded';

export interface OutboxParts {
  readonly store: OutboxStore;
  readonly ways: ReadonlyMap<string, Way>;
  readonly clock: OutboxClock;
  readonly log: Pick<Logger, 'info' | 'warn' | 'error'>;
  readonly bounds?: OutboxBounds;
  /** Puts on the tape that somebody was told, or was not; asked again until it has succeeded, so it may be twice. */
  readonly record?: (letter: Letter) => Promise<void>;
  readonly stepDone?: (step: OutboxStep) => void;
}

export type AgainAnswer = 'again' | 'unknown' | 'notDead' | 'full';

/** How long it is waited when the disk or the tape refuses, and for what is being sent when it stops. Milliseconds. */
const TROUBLE_MS = 1000;
const STOPPING_MS = 1000;
const RECORDED_AT_ONCE = 100;

/**
 * Sends what it is given, and remembers it until it has been told or given up. At least once, by an id that is always
 * the same; in order for each person and way; no way and no person waits for another.
 */
export class Outbox {
  private readonly parts: OutboxParts;
  private readonly bounds: OutboxBounds;
  /** When each is due, by the steady clock. */
  private readonly due = new Map<number, number>();
  private readonly sending = new Map<number, { readonly way: string; readonly through: Promise<void> }>();
  /** What has become of letters and the disk did not take yet. */
  private readonly unsettled = new Map<number, { readonly letter: Letter; readonly outcome: Outcome }>();
  private readonly ending = new AbortController();
  private timer: { readonly at: number; readonly callOff: () => void } | undefined;
  private recording: Promise<void> | undefined;
  private stopped = false;

  constructor(parts: OutboxParts) {
    this.parts = parts;
    this.bounds = parts.bounds ?? BOUNDS;
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
    if (store.counts().waiting >= this.bounds.waitingMost) return 'full';
    store.again(letter.number, this.bounds.triesMost, clock.now());
    this.soon(0);
    return 'again';
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
    const steady = this.parts.clock.steady();
    let next: number | undefined;
    for (const letter of this.parts.store.heads()) {
      const wait = this.dueAt(letter, steady) - steady;
      if (wait > 0) next = Math.min(next ?? wait, wait);
      else if (this.isFree(letter)) this.begin(letter);
    }
    return next;
  }

  /** A wait from before this process is measured by the wall's clock, and never longer than it was to be. */
  private dueAt({ number, since, waitMs }: Letter, steady: number): number {
    const left = Math.max(0, Math.min(waitMs, since + waitMs - this.parts.clock.now()));
    const due = this.due.get(number) ?? steady + left;
    this.due.set(number, due);
    return due;
  }

  private isFree({ number, way }: Letter): boolean {
    const busy = [...this.sending.values()].filter((one) => one.way === way).length;
    return busy < this.bounds.atOnce && !this.sending.has(number) && !this.unsettled.has(number);
  }

  private begin(letter: Letter): void {
    const { store, ways, clock } = this.parts;
    const way = ways.get(letter.way);
    if (way === undefined) return this.settle(letter, failed('noWay', { lasting: true }));
    if (letter.tries >= letter.triesMost) {
      return this.settle(letter, failed('interrupted', { lasting: true }));
    }
    store.sending(letter.number, clock.now());
    this.due.delete(letter.number);
    this.stepDone('marked');
    const through = this.send({ ...letter, tries: letter.tries + 1 }, way);
    this.sending.set(letter.number, { way: way.id, through });
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
  private async tried(letter: Letter, way: Way): Promise<Outcome | undefined> {
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
      return await Promise.race([way.send(letter, breaking.signal), isOver]);
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
    if (outcome.kind === 'told') store.told(number, clock.now());
    else if (outcome.lasting || tries >= triesMost) {
      store.dead(number, outcome.why, clock.now());
      log.warn(words.log.notTold(way, whyInWords(outcome.why)));
    } else {
      const wait = waitAfter(tries, this.bounds.backOff, clock.chance(), outcome.waitMs);
      store.waiting(number, outcome.why, wait, clock.now());
      this.due.set(number, clock.steady() + wait);
      log.info(words.log.later(way, whyInWords(outcome.why)));
    }
    this.unsettled.delete(number);
    if (outcome.kind === 'told' || outcome.lasting || tries >= triesMost) this.due.delete(number);
    this.stepDone('settled');
    this.soon(0);
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
