import { setTimeout as pause } from 'node:timers/promises';
import type { Change, Signal, SignalIndex } from '../../model/signals/signals.ts';
import type { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { ClockWatch } from './clockWatch.ts';
import { openConnection, type Security } from './client.ts';
import type { Connection, Happening } from './connection.ts';
import { Flow, type Told } from './flow.ts';
import { Inbox } from './inbox.ts';
import { type ItemStatus, itemStatuses } from './itemStatus.ts';
import { type ClockSetting, LineTime } from './lineTime.ts';
import type { Known } from './memory.ts';
import { ClockOffset } from './offset.ts';
import { Recorder } from './recorder.ts';
import { Rounds } from './rounds.ts';
import { type IntakeSettings, usualSettings } from './settings.ts';
import { nodeNameOf } from './tags.ts';
import { troubleOf } from './troubles.ts';
import { Watchdog } from './watchdog.ts';

export interface IntakeOptions {
  readonly server: {
    readonly id: string;
    readonly endpoint: string;
    readonly security: Security;
    readonly clock: ClockSetting;
    /** URI of the namespace in which plain tags live. */
    readonly namespace: string;
  };
  /** The signals that this server serves, and the tag of each. */
  readonly signals: readonly { readonly signal: Signal; readonly tag: string }[];
  /** The signal that says whether this server is heard. */
  readonly linkSignal: SignalIndex;
  /** IANA zone of the line, for a server whose clock is local. */
  readonly zone: string;
  /** Folder of certificates: our own, the trusted ones, the rejected ones. No other process may write there. */
  readonly pkiFolder: string;
  /**
   * Resolves when they are recorded. Until then no more is handed over, and after a while no more is asked for. What it
   * rejects with ends the intake: without a tape there is nothing to listen for.
   */
  readonly take: (changes: Change[]) => Promise<void>;
  /**
   * What the tape says last of a signal, so that a restart does not record it again; its value is null where the tape
   * says that it is unknown.
   */
  readonly known?: (signal: SignalIndex) => Known | undefined;
  /**
   * How far line time was ahead of our clock when an earlier run ended, in milliseconds; undefined where the tape does not
   * say, or where it is no guide: a simulated clock runs as it likes.
   */
  readonly lineAhead?: number | undefined;
  readonly log: { info(words: string): void; warn(words: string): void };
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** For tests only. */
  readonly settings?: Partial<IntakeSettings>;
}

export interface IntakeStatus {
  /** The server is heard, and all it says is recorded. */
  readonly up: boolean;
  /** Since when it is, or is not; undefined before it was heard first. Milliseconds since 1970. */
  readonly since: number | undefined;
  /** How far the server's clock is ahead of ours. */
  readonly clockOffsetMs: number | undefined;
  /** How far that clock is ahead of line time, since somebody set it; 0 where nobody has. */
  readonly clockSetMs: number;
  readonly endpoint: string;
  readonly security: Security;
  /** What the server made of the wish for each tag. Milliseconds, and values. */
  readonly revised: ReadonlyMap<
    SignalIndex,
    { readonly sampling: number; readonly queue: number; readonly publishing: number }
  >;
  readonly items: ReadonlyMap<SignalIndex, ItemStatus>;
  readonly lastDataAt: number | undefined;
  /** SHA-256 of the server's certificate; undefined without security. */
  readonly fingerprint: string | undefined;
  /** Why there is no connection. */
  readonly trouble: LineError | undefined;
}

export interface Intake {
  status(): IntakeStatus;
  /** Records what is there, writes the link as not heard, and closes. */
  stop(): Promise<void>;
}

/** Time between two looks of the watchdog, and the longest wait for a connection to close. Milliseconds. */
const TICK_MS = 250;
const CLOSE_MS = 8000;

/** Begins to listen to a server, and goes on until it is stopped, whatever happens to the server and the network. */
export function startIntake(options: IntakeOptions): Intake {
  const running = new RunningIntake(options);
  return { status: () => running.status(), stop: () => running.stop() };
}

class RunningIntake {
  private readonly options: IntakeOptions;
  private readonly settings: IntakeSettings;
  private readonly words = wordsIn('en').gateway.intake;
  private readonly offset = new ClockOffset();
  private readonly inbox = new Inbox();
  private readonly recorder: Recorder;
  private readonly flow: Flow;
  private readonly watchdog: Watchdog;
  private readonly rounds: Rounds;
  private readonly time: LineTime;
  private readonly clocks: ClockWatch;
  private readonly stopping = new AbortController();
  private readonly timer: NodeJS.Timeout;
  private readonly done: Promise<void>;
  private connection: Connection | undefined;
  private attempt = 0;
  private lives = 0;
  private opening: Promise<void> = Promise.resolve();
  private readonly closing = new Set<Promise<void>>();
  private trouble: LineError | undefined;
  private paused = false;
  private lastMessage = 0;

  constructor(options: IntakeOptions) {
    this.options = options;
    this.settings = { ...usualSettings, ...options.settings };
    const { server, signals, linkSignal, zone, take, now, known = () => undefined } = options;
    const { offset, inbox, settings } = this;
    this.time = new LineTime(server.clock, zone);
    this.recorder = new Recorder({
      signals: signals.map(({ signal }) => signal),
      linkSignal,
      clock: server.clock,
      time: this.time,
      offset,
      known,
      take,
    });
    this.clocks = new ClockWatch({
      offset,
      time: this.time,
      now: () => ({ wall: now(), steady: performance.now() }),
    });
    this.flow = new Flow({
      recorder: this.recorder,
      inbox,
      offset,
      clocks: this.clocks,
      lineAhead: options.lineAhead,
      settings,
      now,
      replace: () => this.replace(),
      say: (what) => this.say(what),
    });
    this.watchdog = new Watchdog(settings.wedgedMs);
    this.rounds = new Rounds({
      settings,
      clocks: this.clocks,
      inbox,
      isCurrent: (one) => this.connection === one,
    });
    this.timer = setInterval(() => inbox.push({ kind: 'tick' }), TICK_MS);
    this.done = this.work();
  }

  status(): IntakeStatus {
    const { connection, flow, recorder, offset, words } = this;
    const { server, signals } = this.options;
    const publishing = connection?.publishingMs ?? 0;
    return {
      up: flow.phase === 'live',
      since: flow.since,
      clockOffsetMs: offset.ms,
      clockSetMs: recorder.aheadMs,
      endpoint: server.endpoint,
      security: server.security,
      // of each tag, and not wanted each second
      get revised() {
        return new Map(
          (connection?.items() ?? []).map(({ sampling, queue }, place) => [
            signals[place]!.signal.index,
            { sampling, queue, publishing },
          ]),
        );
      },
      get items() {
        return itemStatuses(signals, connection?.items() ?? [], recorder.verdicts, words);
      },
      lastDataAt: recorder.lastDataAt,
      fingerprint: connection?.fingerprint,
      trouble: this.trouble,
    };
  }

  async stop(): Promise<void> {
    clearInterval(this.timer);
    this.stopping.abort();
    this.inbox.push({ kind: 'stop' });
    await this.done;
    await this.opening;
    if (this.connection) this.letGo(this.connection);
    await Promise.all(this.closing);
  }

  /** One thing after the other, so that what is recorded is in the order in which it happened. */
  private async work(): Promise<void> {
    await this.flow.begin();
    this.open();
    for (;;) {
      const one = await this.inbox.next();
      if (one.kind === 'stop') break;
      if (one.kind === 'lost' || one.kind === 'restored') this.watchdog.restart();
      await this.flow.handle(one);
      if (this.paused && this.inbox.size === 0) await this.resume();
      if (one.kind === 'tick') await this.look();
    }
    await this.flow.apart();
  }

  private async look(): Promise<void> {
    const { connection, flow, lastMessage, paused } = this;
    if (!connection || paused) return;
    const now = performance.now();
    const live = flow.phase === 'live';
    const { keepAliveMs, lifetimeMs } = connection;
    const lastAnswer = connection.lastAnswer();
    const judged = this.watchdog.look({ live, now, lastMessage, lastAnswer, keepAliveMs, lifetimeMs });
    if (judged === 'silent') await flow.fellSilent();
    if (judged === 'wedged') this.replace();
    else if (live) this.rounds.look(connection, now);
  }

  /** Tries until there is a connection. The last one's happenings no longer count once another is being opened. */
  private open(): void {
    this.attempt += 1;
    const { attempt, options, settings, stopping } = this;
    const { server, signals, pkiFolder, now } = options;
    const tell = (happening: Happening) => {
      if (attempt === this.attempt) this.tell(happening);
    };
    const once = async () => {
      const connection = await openConnection({
        endpoint: server.endpoint,
        security: server.security,
        pkiFolder,
        nodes: signals.map(({ tag }) => nodeNameOf(tag, server.namespace)),
        settings,
        now,
        nextLife: () => {
          this.lives += 1;
          return this.lives;
        },
        tell,
        waiting: (error) => this.tellTrouble(error),
        stopped: stopping.signal,
      });
      this.trouble = undefined;
      this.connection = connection;
      this.lastMessage = performance.now();
      this.watchdog.restart();
      this.flow.opened(connection);
    };
    this.opening = this.untilOpen(once);
  }

  private async untilOpen(once: () => Promise<void>): Promise<void> {
    const { signal } = this.stopping;
    while (!signal.aborted) {
      try {
        return await once();
      } catch (error) {
        if (signal.aborted) return;
        this.tellTrouble(error);
        // rejects as soon as it is stopped, and then there is nothing more to try
        await pause(this.settings.retryMs, undefined, { signal }).catch(() => undefined);
      }
    }
  }

  private tell(happening: Happening): void {
    if (happening.kind === 'message') this.lastMessage = performance.now();
    this.inbox.push(happening);
    if (!this.paused && this.inbox.size > this.settings.waitingMost) this.pause();
  }

  /** Back-pressure: the server keeps what we cannot take yet, as far as its queues reach. */
  private pause(): void {
    this.paused = true;
    this.connection?.pause(true);
  }

  /** Whether its queues reached is told by what they hold now. */
  private async resume(): Promise<void> {
    this.paused = false;
    this.lastMessage = performance.now();
    await this.flow.resumed();
    this.connection?.pause(false);
  }

  private replace(): void {
    const { connection, options, words } = this;
    options.log.warn(words.replaced(options.server.id));
    this.connection = undefined;
    this.paused = false;
    if (connection) this.letGo(connection);
    if (!this.stopping.signal.aborted) this.open();
  }

  /** Closing a client that hangs may hang as well: nobody waits for it longer than a while. */
  private letGo(connection: Connection): void {
    const { log, server } = this.options;
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<void>((resolve) => {
      timer = setTimeout(resolve, CLOSE_MS);
    });
    const closed = connection
      .close()
      .catch((error: unknown) => log.warn(this.words.notClosed(server.id, String(error))));
    const over: Promise<void> = Promise.race([closed, late]).finally(() => {
      clearTimeout(timer);
      this.closing.delete(over);
    });
    this.closing.add(over);
  }

  private tellTrouble(error: unknown): void {
    const { id, endpoint, security } = this.options.server;
    const trouble = troubleOf(error, { server: id, endpoint, security }, this.words);
    if (trouble.message !== this.trouble?.message) {
      this.options.log.warn([trouble.message, trouble.why, trouble.mend].join(' '));
    }
    this.trouble = trouble;
  }

  private say(what: Told): void {
    if (this.stopping.signal.aborted) return; // whoever stops it knows
    const { log, server } = this.options;
    if (what === 'lost') log.warn(this.words.lost(server.id));
    else if (what === 'missed') log.warn(this.words.missed(server.id));
    else if (what === 'overflowed') log.warn(this.words.overflowed(server.id));
    else if (what === 'clockSet') log.warn(this.words.clockSet(server.id, this.recorder.aheadMs));
    else {
      this.trouble = undefined;
      log.info(this.words.up(server.id, what === 'whole'));
    }
  }
}
