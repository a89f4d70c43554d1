import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import type { Condition } from '../../model/notices/condition.ts';
import { decide } from '../../model/notices/decide.ts';
import type { NoticeRecord } from '../../model/notices/notice.ts';
import type { NoticeProgramBody } from '../../model/notices/noticeEntries.ts';
import type { Telling } from '../../model/notices/recipients.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../model/notices/settings.ts';
import { NOBODY_SHUT_OFF } from '../../model/notices/shutOff.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs, Instant } from '../../model/units/units.ts';
import { seenAt } from '../../model/view/seen.ts';
import type { Outside } from '../../model/view/lineView.ts';
import { conditionsOf } from '../../model/watch/conditions.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { tellingsOf } from './telling.ts';

const words = wordsIn('en').notices.log;

/** How often it is looked when nothing happens; after something happened it is looked so much later. Milliseconds. */
const EVERY_MS = 1000;
const SOON_MS = 50;
/** In one turn no more is written than this: what is left is written a second later. */
const WRITTEN_MOST = 200;

export interface WatcherParts {
  readonly live: LiveLine;
  readonly outside: () => Outside;
  /** The gateway's clock, milliseconds since 1970. */
  readonly now: () => number;
  /** What stations are judged to be; undefined while their past is not known. */
  readonly stations: (settings: NoticeSettings) => readonly Condition[] | undefined;
  /** Undefined while the past is not known. */
  readonly tested: () => ReadonlyMap<string, Instant> | undefined;
  readonly recordedSince?: () => Instant | undefined;
  readonly disk: () => Promise<{ readonly freeBytes: number } | undefined>;
  readonly isOpenFor: (person: string) => boolean;
  /** Gives parcels to the ways out; the same again is the same. */
  readonly offer: (notice: Readonly<NoticeRecord>, tellings: readonly Telling[]) => void;
  /** Takes back from the ways out what is wanted no more. */
  readonly withdraw?: () => void;
  readonly log: Pick<Logger, 'warn'>;
  readonly stepDone?: (step: WatchStep) => void;
}

/** What has been done for a notice: each is on the disk when it is said. */
export type WatchStep = 'judged' | 'written' | 'offered';

export interface Watcher {
  /** One turn, when the one before is through: for tests, and after settings were changed. */
  turn(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * Looks at a line every second, and at once when something happened: writes on the tape what is raised and what has returned,
 * and gives those who are to be told to the ways out. It remembers nothing itself: whatever it is killed at, the next turn
 * goes on from what is written.
 */
export function startWatcher(parts: WatcherParts): Watcher {
  return new RunningWatcher(parts);
}

class RunningWatcher implements Watcher {
  private readonly parts: WatcherParts;
  private readonly begun: EpochMs;
  private readonly timer: NodeJS.Timeout;
  private readonly quiet: () => void;
  private soon: NodeJS.Timeout | undefined;
  private running: Promise<void> | undefined;
  private again = false;
  private stopped = false;
  private trouble: string | undefined;
  private unread: string | undefined;

  constructor(parts: WatcherParts) {
    this.parts = parts;
    this.begun = parts.now() as EpochMs;
    this.timer = setInterval(() => void this.turn(), EVERY_MS);
    this.quiet = parts.live.onEvents(() => {
      this.soon ??= setTimeout(() => {
        this.soon = undefined;
        void this.turn();
      }, SOON_MS);
    });
  }

  turn(): Promise<void> {
    if (this.running) {
      this.again = true;
      return this.running;
    }
    this.running = this.turns().finally(() => {
      this.running = undefined;
    });
    return this.running;
  }

  async stop(): Promise<void> {
    this.stopped = true;
    clearInterval(this.timer);
    clearTimeout(this.soon);
    this.quiet();
    await this.running;
  }

  private async turns(): Promise<void> {
    do {
      this.again = false;
      await this.once();
    } while (this.again && !this.stopped);
  }

  /** What the disk does not take is written a second later: nothing of it was told before. */
  private async once(): Promise<void> {
    // what stands on the tape is told also where nothing new can be judged or written
    const troubles = [
      await this.tried(() => this.judge()),
      await this.tried(async () => this.parts.withdraw?.()),
      await this.tried(() => this.tell()),
    ];
    const trouble = troubles.find((one) => one !== undefined);
    if (trouble !== undefined && trouble !== this.trouble) this.parts.log.warn(words.notWritten(trouble));
    this.trouble = trouble;
  }

  private async tried(act: () => Promise<void>): Promise<string | undefined> {
    try {
      await act();
      return undefined;
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      return error.message;
    }
  }

  /** The past is a cache: where it cannot be read, what it would say is not known, and all else is judged. */
  private known<Value>(ask: () => Value): Value | undefined {
    try {
      return ask();
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      if (error.message !== this.unread) this.parts.log.warn(words.notRead(error.message));
      this.unread = error.message;
      return undefined;
    }
  }

  private settings(): NoticeSettings {
    return this.parts.live.fold().state.noticeSettings?.settings ?? FIRST_SETTINGS;
  }

  private async judge(): Promise<void> {
    const { live, outside, now } = this.parts;
    const disk = await this.parts.disk();
    for (let written = 0; written < WRITTEN_MOST && !this.stopped; ) {
      const fold = live.fold();
      // before anything was heard nobody knows the line's time
      if (fold.state.heardAt < 0) return;
      const settings = this.settings();
      const at = live.now();
      const conditions = conditionsOf({
        seen: seenAt(fold, at),
        outside: outside(),
        wall: now() as EpochMs,
        begun: this.begun,
        rules: settings.when,
        holding: new Set(Object.keys(fold.state.noticeKeys)),
        stations: this.known(() => this.parts.stations(settings)),
        tested: this.known(() => this.parts.tested()),
        recordedSince: this.known(() => this.parts.recordedSince?.()),
        disk,
      });
      this.parts.stepDone?.('judged');
      const bodies = decide({ state: fold.state, rules: settings.when, conditions, now: at });
      if (bodies.length === 0) return;
      for (const body of bodies) await this.write(body);
      written += bodies.length;
    }
  }

  private async tell(): Promise<void> {
    const { live, isOpenFor, offer, outside } = this.parts;
    const shutOff = outside().shutOff ?? NOBODY_SHUT_OFF;
    const open = live.fold().state.notices.filter(({ ended }) => ended === null);
    for (const notice of open) {
      if (this.stopped) return;
      const settings = this.settings();
      const { out, entries } = tellingsOf(notice, {
        ...{ line: live.line, settings, now: live.now(), isOpenFor, shutOff },
      });
      if (out.length > 0) {
        offer(notice, out);
        this.parts.stepDone?.('offered');
      }
      for (const body of entries) await this.write(body);
    }
  }

  private async write(body: NoticeProgramBody): Promise<void> {
    const { live, now } = this.parts;
    await live.enter({
      id: randomUUID(),
      at: Math.round(now()) as EpochMs,
      author: { kind: 'itself' },
      ...body,
    });
    this.parts.stepDone?.('written');
  }
}
