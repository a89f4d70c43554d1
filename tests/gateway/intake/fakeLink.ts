import type { Connection, Happening, Message, RawValue } from '../../../gateway/intake/connection.ts';
import { ClockWatch } from '../../../gateway/intake/clockWatch.ts';
import { Flow, type Told } from '../../../gateway/intake/flow.ts';
import { Inbox } from '../../../gateway/intake/inbox.ts';
import { type ClockSetting, LineTime } from '../../../gateway/intake/lineTime.ts';
import { ClockOffset } from '../../../gateway/intake/offset.ts';
import type { Known } from '../../../gateway/intake/memory.ts';
import { Recorder } from '../../../gateway/intake/recorder.ts';
import { type IntakeSettings, usualSettings } from '../../../gateway/intake/settings.ts';
import type { Change, Signal, SignalIndex } from '../../../model/signals/signals.ts';

export interface FakeLinkOptions {
  readonly signals: readonly Signal[];
  readonly linkSignal: SignalIndex;
  readonly clock?: ClockSetting;
  readonly settings?: Partial<IntakeSettings>;
  /** What an earlier run recorded; and where changes go, beside `changes`, before anything else is handled. */
  readonly known?: (signal: SignalIndex) => Known | undefined;
  readonly lineAhead?: number;
  /** A clock that nobody sets, where ours is set. Milliseconds. */
  readonly steady?: () => number;
  readonly take?: (changes: readonly Change[]) => Promise<void>;
  /** Our clock at the beginning. Milliseconds since 1970. */
  readonly began: number;
  /** Every tag as it stands at the server now. */
  readonly reading: () => readonly RawValue[];
  /** The server's clock, where it is not ours; whether its namespaces have other numbers now. */
  readonly clockMs?: () => number;
  readonly moved?: () => boolean;
  /** Values that the server keeps of each tag, or said of this subscription that it keeps; 100 unless said. */
  readonly queue?: number | (() => number);
  /** Tags that the server reads out but will not watch, and the status that it gives for that. */
  readonly refused?: ReadonlyMap<number, number>;
  /** Another connection was opened in the place of this one. */
  readonly reopened?: () => void;
  /** What comes while every tag is being read. */
  readonly whileRead?: () => readonly Message[];
}

/** A server's side of a connection with a clock of its own, and everything that the intake makes of what it tells. */
export class FakeLink {
  now: number;
  life = 1;
  readonly changes: Change[] = [];
  readonly said: Told[] = [];
  readings = 0;
  readonly flow: Flow;
  private readonly clocks: ClockWatch;
  private clockReadAt = 0;
  private readonly inbox = new Inbox();
  private readonly options: FakeLinkOptions;

  constructor(options: FakeLinkOptions) {
    this.options = options;
    this.now = options.began;
    const clock = options.clock ?? 'utc';
    const time = new LineTime(clock, 'Europe/Berlin');
    const offset = new ClockOffset();
    const recorder = new Recorder({
      signals: options.signals,
      linkSignal: options.linkSignal,
      clock,
      time,
      offset,
      known: options.known ?? (() => undefined),
      take: async (changes) => {
        this.changes.push(...changes);
        await options.take?.(changes);
      },
    });
    this.clocks = new ClockWatch({
      offset,
      time,
      now: () => ({ wall: this.now, steady: options.steady?.() ?? this.now }),
    });
    this.flow = new Flow({
      recorder,
      inbox: this.inbox,
      offset,
      clocks: this.clocks,
      lineAhead: options.lineAhead,
      settings: { ...usualSettings, ...options.settings },
      now: () => this.now,
      replace: () => {
        if (!options.reopened) throw new Error('the connection is given up');
        options.reopened();
        this.flow.opened(this.connection());
      },
      say: (what) => void this.said.push(what),
    });
  }

  async open(): Promise<void> {
    await this.flow.begin();
    this.flow.opened(this.connection());
  }

  async tell(...happenings: readonly Happening[]): Promise<void> {
    for (const one of happenings) {
      if (one.kind === 'message') this.now = one.received;
      await this.flow.handle(one);
      if (this.flow.phase === 'live' && this.now - this.clockReadAt >= usualSettings.clockMs) {
        this.clockReadAt = this.now;
        await this.flow.handle({ kind: 'clock', reading: await this.clocks.readServer(this.connection()) });
      }
    }
  }

  of(signal: SignalIndex): Change[] {
    return this.changes.filter((one) => one.signal === signal);
  }

  private queue(): number {
    const { queue = 100 } = this.options;
    return typeof queue === 'number' ? queue : queue();
  }

  private connection(): Connection {
    return {
      openedAt: this.now,
      publishingMs: 250,
      keepAliveMs: 2000,
      lifetimeMs: 600_000,
      fingerprint: undefined,
      life: () => this.life,
      items: () =>
        this.options.signals.map((_signal, place) => ({
          status: this.options.refused?.get(place) ?? 0,
          sampling: 0,
          queue: this.queue(),
        })),
      read: async () => {
        this.readings += 1;
        const values = this.options.reading();
        for (const message of this.options.whileRead?.() ?? []) {
          this.now = message.received;
          this.inbox.push(message);
        }
        return values;
      },
      serverClock: async () => this.options.clockMs?.() ?? this.now,
      namespacesMoved: async () => this.options.moved?.() ?? false,
      giveUpMissing: () => {},
      pause: () => {},
      lastAnswer: () => 0,
      close: async () => {},
    };
  }
}
