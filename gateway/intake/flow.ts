import { severity } from '../../model/status/status.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import type { ClockWatch } from './clockWatch.ts';
import type { Connection, Message, RawValue } from './connection.ts';
import type { Inbox, Waiting } from './inbox.ts';
import { LineClock } from './lineClock.ts';
import type { ClockOffset } from './offset.ts';
import type { Recorder } from './recorder.ts';
import { SequenceWatch } from './sequence.ts';
import type { IntakeSettings } from './settings.ts';

export interface FlowParts {
  readonly recorder: Recorder;
  readonly inbox: Inbox;
  readonly offset: ClockOffset;
  readonly clocks: ClockWatch;
  /** How far line time was ahead of our clock, as the tape says; undefined where it does not, or where that is no guide. */
  readonly lineAhead: number | undefined;
  readonly settings: IntakeSettings;
  readonly now: () => number;
  /** Gives the connection up and opens another one. */
  readonly replace: () => void;
  readonly say: (what: Told) => void;
}

export type Told = 'up' | 'whole' | 'lost' | 'missed' | 'overflowed' | 'clockSet';

/** Of what was missed again within so long, every tag is not read at once: a server may be short of queues for good. */
const AGAIN_MS = 5000;
/** Publishes waited for then. */
const AGAIN_PUBLISHES = 8;

/** apart: not heard. settling: heard, but what was missed is not yet worked in. live: every publish is recorded as it comes. */
export type Phase = 'apart' | 'settling' | 'live';

/**
 * From publishes and cuts to the tape. While a link is being repaired its changes are held back, because old and new ones
 * come mixed; after one more publish every tag is read once, all is sorted and recorded, and only then the link is
 * written as heard again: `'whole'` when the subscription lived on, no number is missing and no queue overflowed or came
 * full. A live
 * message that shows that one before it is missing, or that a queue overflowed, is held back in the same way, and the gap
 * begins with the last publish of which everything had come.
 */
export class Flow {
  phase: Phase = 'apart';
  /** Since when, by the caller's clock. */
  since: number | undefined;
  private readonly parts: FlowParts;
  private readonly lineClock: LineClock;
  private readonly watch = new SequenceWatch();
  private connection: Connection | undefined;
  private held: Message[] = [];
  private heldSize = 0;
  /** Life of the subscription up to which nothing is missing. */
  private wholeLife: number | undefined;
  private dropped = false;
  /** It has been said of this gap that queues overflowed. */
  private toldOverflow = false;
  /** Apart, though the client believes in its connection: the next message shows that it is right. */
  private silent = false;
  /** Data messages or keep-alives still wanted before the tags are read. */
  private wanted = 0;
  /** Receipt of the newest message counted for that. */
  private counted = 0;
  private lastHeard: number;
  /** When the last publish had come to its end: what the server had by then was told. */
  private allHeard: number;
  /** Publishes that were long under way are coming: the messages so far of one of them. */
  private late: Message[] | undefined;
  /** When something was missed last while live. */
  private missedAt = Number.NEGATIVE_INFINITY;
  /** When something was recorded last, by the caller's clock. */
  private recordedAt = 0;
  /** Line time from which on it was not heard last. */
  private gapFrom: Instant | undefined;

  constructor(parts: FlowParts) {
    this.parts = parts;
    this.lineClock = new LineClock(parts);
    this.lastHeard = parts.now();
    this.allHeard = this.lastHeard;
  }

  /** What an earlier run left open ends where its data ended: the time since then was not observed. */
  async begin(): Promise<void> {
    const { recorder, now, clocks, lineAhead } = this.parts;
    if (recorder.newest === undefined) return;
    if (lineAhead !== undefined) clocks.seed(epochMs(recorder.newest), lineAhead);
    if (recorder.link !== false) await recorder.writeLink(false, recorder.newest, now());
  }

  /** A new connection's subscription is there, and its tags are being watched. */
  opened(connection: Connection): void {
    this.connection = connection;
    this.parts.offset.forget();
    this.settle(2);
  }

  async handle(one: Waiting): Promise<void> {
    this.move(await this.lineClock.seeOwn(this.lastHeard, this.connection));
    switch (one.kind) {
      case 'message':
        return this.message(one);
      case 'lost':
        this.silent = false;
        return this.apart();
      case 'restored':
        return this.settle(this.connection?.life() === this.wholeLife ? 1 : 2);
      case 'dead':
        await this.apart();
        return this.parts.replace();
      case 'clock':
        if (this.phase === 'live')
          this.lineClock.read(one.reading, this.parts.recorder.lineNow(this.allHeard));
        return undefined;
      case 'tick':
      case 'stop':
        return undefined;
    }
  }

  /** Somebody set our own clock: moments kept by it move with it. */
  private move(by: number): void {
    this.lastHeard += by;
    this.allHeard += by;
    this.recordedAt += by;
    this.missedAt += by;
  }

  /** Not heard any more: from the last word on nothing is known. */
  async apart(): Promise<void> {
    const was = this.phase;
    this.phase = 'apart';
    if (was !== 'live') return;
    this.parts.say('lost');
    await this.beginGap(this.allHeard);
  }

  private async beginGap(from: number): Promise<void> {
    const { recorder, now } = this.parts;
    this.since = now();
    this.gapFrom = recorder.lineNow(from);
    await recorder.writeLink(false, this.gapFrom, now(), from < this.lastHeard);
  }

  /** Neither data nor keep-alive for too long, and yet no connection was lost. */
  async fellSilent(): Promise<void> {
    this.silent = true;
    await this.apart();
  }

  private settle(wanted: number): void {
    this.silent = false;
    this.phase = 'settling';
    this.wanted = wanted;
    this.counted = 0;
  }

  private async message(message: Message): Promise<void> {
    const { recorder } = this.parts;
    const [from, before] = [this.allHeard, this.lastHeard];
    if (!this.hear(message)) return this.again(message, from);
    if (this.phase !== 'live') return this.hold(message);
    const values = message.values();
    const once = { ...message, values: () => values };
    if (this.watch.hole) return this.missed('missed', once, from);
    if (recorder.overflows(values) || this.mayHaveDropped(once, before))
      return this.missed('overflowed', once, from);
    if (this.connection) await this.lineClock.seeLive(once, this.connection, recorder.lineNow(from));
    await recorder.record({ messages: [once], live: true });
    if (message.keepAlive) return this.stillHeard(message);
    this.recordedAt = message.received;
    return this.lineClock.noteLead(message.received);
  }

  /** False for a message that came twice. */
  private hear({ life, number, keepAlive, received, more }: Message): boolean {
    this.lastHeard = received;
    if (!more) this.allHeard = received;
    return this.watch.note(life, number, keepAlive) === 'new';
  }

  /** A message that comes twice is dropped; one that was never taken, by a number that was, shows that they began anew. */
  private async again(message: Message, from: number): Promise<void> {
    if (this.phase !== 'live' || message.keepAlive || !this.parts.recorder.isNews(message)) return;
    this.parts.say('missed');
    await this.beginGap(from);
    this.phase = 'apart';
    this.parts.replace();
  }

  /**
   * Publishes come one upon the other after a while without any, and a queue in one of them is full: what came before its
   * values was dropped, and some servers do not say so. In time, a short queue may be just full.
   */
  private mayHaveDropped(message: Message, before: number): boolean {
    const { connection } = this;
    if (!connection) return false;
    const waited = message.received - before;
    if (waited > connection.keepAliveMs + connection.publishingMs) this.late = [];
    else if (waited >= connection.publishingMs / 2) this.late = undefined;
    if (this.late === undefined || message.keepAlive) return false;
    this.late.push(message);
    const dropped = this.parts.recorder.mayHaveDropped(this.late, queuesOf(connection));
    this.dropped ||= dropped;
    if (!message.more) this.late = [];
    return dropped;
  }

  /** Back-pressure is over: while it lasted the server's queues kept what they could hold. */
  async resumed(): Promise<void> {
    if (this.phase !== 'live') return;
    await this.beginGap(this.allHeard);
    this.settle(2);
  }

  /** What is missing lies between the last whole publish and this message. */
  private async missed(what: 'missed' | 'overflowed', message: Message, from: number): Promise<void> {
    const again = this.parts.now() - this.missedAt < AGAIN_MS;
    this.missedAt = this.parts.now();
    this.parts.say(what);
    this.toldOverflow = what === 'overflowed';
    await this.beginGap(from);
    this.settle(again ? AGAIN_PUBLISHES : 1);
    return this.hold(message);
  }

  /** Nothing changes and the server is there: that is known, and would be a gap if the gateway ended now. */
  private async stillHeard({ received }: Message): Promise<void> {
    const { recorder, settings } = this.parts;
    if (received - this.recordedAt < settings.heardMs) return;
    this.recordedAt = received;
    await recorder.writeLink(true, recorder.lineNow(received), received);
  }

  private async hold(message: Message): Promise<void> {
    // what waited may come in several messages: one more publish shows that it is over
    if (this.silent) this.settle(2);
    this.keepBack(message);
    if (this.phase !== 'settling' || !this.connection || message.more) return;
    if (message.keepAlive) this.wanted = 0;
    else if (message.received - this.counted >= this.connection.publishingMs / 2) {
      this.counted = message.received;
      this.wanted -= 1;
      if (this.wholeLife === undefined && this.wanted === 0) this.parts.clocks.see(message);
    }
    if (this.wanted <= 0) await this.catchUp(this.connection);
  }

  private keepBack(message: Message): void {
    this.held.push(message);
    this.heldSize += message.size;
    while (this.heldSize > this.parts.settings.heldMost) {
      this.heldSize -= this.held.shift()!.size;
      this.dropped = true;
    }
  }

  /** Reads every tag once, records all that was held back, and says that the server is heard. */
  private async catchUp(connection: Connection): Promise<void> {
    const { recorder, inbox, now, replace, say } = this.parts;
    const reading = await this.readAll(connection);
    if (reading === 'moved') {
      this.phase = 'apart';
      return replace();
    }
    if (!reading || inbox.broken) {
      // lost again, or worth another try with the next message
      this.phase = 'apart';
      this.silent = !inbox.broken;
      return undefined;
    }
    const since = inbox.messages().filter((message) => this.hear(message));
    if (since.at(-1)?.more) {
      // with the end of this publish
      for (const message of since) this.keepBack(message);
      return undefined;
    }
    this.lineClock.afterOutage(reading, this.gapFrom ?? recorder.newest ?? recorder.lineNow(this.allHeard));
    const floor = await this.firstLink(connection);
    const messages = this.held;
    this.held = [];
    this.heldSize = 0;
    const { overflow } = await recorder.record({ messages, reading, since, floor });
    const full = recorder.mayHaveDropped([...messages, ...since], queuesOf(connection));
    const whole =
      connection.life() === this.wholeLife && !this.watch.hole && !this.dropped && !overflow && !full;
    if ((overflow || full) && !this.toldOverflow) say('overflowed');
    this.toldOverflow = false;
    this.watch.giveUp();
    connection.giveUpMissing();
    this.dropped = false;
    this.wholeLife = connection.life();
    this.phase = 'live';
    this.since = now();
    this.recordedAt = now();
    if (recorder.link === false) {
      await recorder.writeLink(whole ? 'whole' : true, recorder.lineNow(now()), now());
    }
    say(whole ? 'whole' : 'up');
    return undefined;
  }

  /** Where the tape knows nothing of this server yet: it is heard from when the connection was opened. */
  private async firstLink({ openedAt }: Connection): Promise<Instant> {
    const { recorder } = this.parts;
    const from = recorder.lineNow(openedAt);
    if (recorder.link === undefined) await recorder.writeLink(true, from, openedAt);
    return (from + 1) as Instant;
  }

  /** Undefined when it could not be read: then the link is lost again, or the watchdog gives it up. */
  private async readAll(connection: Connection) {
    const { now, clocks } = this.parts;
    try {
      if (await connection.namespacesMoved()) return 'moved';
      const clock = await clocks.readServer(connection);
      const values = (await connection.read()).map(watchedOnly(connection));
      return { values, received: now(), clock };
    } catch {
      return undefined;
    }
  }
}

function queuesOf(connection: Connection): readonly number[] {
  return connection.items().map(({ queue }) => queue);
}

/** What a server reads out but will not watch is not known from the next moment on, whatever time it carries. */
function watchedOnly(connection: Connection): (read: RawValue) => RawValue {
  const items = connection.items();
  return (read) => {
    const status = items[read.item]?.status ?? 0;
    const unknown = { status, wire: undefined, sourceMs: undefined, serverMs: undefined };
    return severity(status) === 'bad' ? { ...read, ...unknown } : read;
  };
}
