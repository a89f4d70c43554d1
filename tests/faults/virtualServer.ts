import type { Message, RawValue } from '../../gateway/intake/connection.ts';
import type { Bound } from '../../gateway/binding/binding.ts';
import { after, epochMs, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault, FaultKind } from '../../simulator/faults/faults.ts';
import type { ToldValue } from '../../simulator/faults/cells.ts';
import { FaultedPlc, type ToldFact } from '../../simulator/faults/plcFaults.ts';
import { type TagType, tagsOf } from '../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../simulator/lines/variant.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { stream } from '../../simulator/machine/random.ts';
import type { FakeLink } from '../gateway/intake/fakeLink.ts';
import { type Away, isWorse, type Outage, outageOf, worstOf } from './outages.ts';
import { type LostValue, type Queued, refusedItems, VirtualQueues } from './virtualQueues.ts';

/*
 * An OPC UA server, its network and the client library below our intake, in virtual time: what they do to values was
 * measured at two independent server stacks. Publishing 250 ms, queue 100 unless a fault has it shorter, keep-alive after 8 publishes without data.
 */
export const PUBLISHING = (SECOND / 4) as Span;
const KEEP_ALIVE_AFTER = 8;
/** Publish requests that wait at the server: so many messages go into the dark before it keeps values back. */
const OUTSTANDING = 5;
/** The client finds out that nothing comes any more after so long, and is back so long after the link is. */
const FOUND_OUT = (6 * SECOND) as Span;
const BACK_AFTER = SECOND;
/** A subscription that nobody asks for publishes lives this long. */
const LIFETIME = (600 * SECOND) as Span;
/** Two missed keep-alives and a second: then the intake's own watchdog calls it silence. */
const SILENCE = (5 * SECOND) as Span;
/** OPC 10000-4, 7.39.1: InfoType DataValue and the Overflow bit. */
const OVERFLOW = 0x480;
/** OPC 10000-6, 5.1.2. */
const TYPES: { readonly [type in TagType]: number } = {
  Boolean: 1,
  UInt16: 5,
  Int32: 6,
  UInt32: 7,
  Float: 10,
  Double: 11,
  String: 12,
};

/** A message under way, and what it tells. */
interface Sent {
  readonly message: Message;
  readonly rows: readonly Queued[];
}

export class VirtualServer {
  private readonly plc: FaultedPlc;
  private readonly link: FakeLink;
  private readonly start: Instant;
  private readonly faults: readonly Fault[];
  private readonly items: ReadonlyMap<string, number>;
  private readonly types: ReadonlyMap<string, number>;
  private readonly outages: readonly Outage[];
  private readonly chance: ReturnType<typeof stream>;
  private readonly queues: VirtualQueues;
  private sent: Sent[] = [];
  private number = 1;
  private quiet = 0;
  private outstanding = OUTSTANDING;
  private away: { readonly kind: Away; readonly since: Instant; moved: boolean; breaks: boolean } | undefined;
  /** The client knows that it is cut off; when it may be back. */
  private known = false;
  private backAt: Instant | undefined;
  private lastTold: Instant;
  private isSilent = false;
  now: Instant;

  constructor(parts: {
    readonly bound: Bound;
    readonly faults: readonly Fault[];
    readonly start: Instant;
    readonly seed: number;
    readonly link: (server: VirtualServer) => FakeLink;
  }) {
    const { bound, faults, start, seed } = parts;
    const tags = tagsOf(standard);
    const twins = new Map(devicesOf(standard).map(({ tag, twinTag }) => [tag, twinTag]));
    this.plc = new FaultedPlc(faults, start, tags, twins);
    this.start = start;
    this.faults = faults;
    this.now = start;
    this.lastTold = start;
    this.chance = stream(seed, 'network');
    this.types = new Map(tags.map(({ tag, type }) => [tag, TYPES[type]]));
    this.items = new Map([...bound.tags.values()].map(({ tag }, item) => [tag, item]));
    this.outages = faults.flatMap((fault) => outageOf(fault, start));
    const refused = refusedItems(faults, this.items.size);
    this.queues = new VirtualQueues(faults, start, (tag) => !refused.has(this.items.get(tag) ?? -1));
    this.link = parts.link(this);
  }

  /** The server's clock, milliseconds since 1970. */
  clock(): number {
    return epochMs(this.plc.says(this.now));
  }

  /** Every tag as it stands now; throws while the server is not reached. */
  reading(): readonly RawValue[] {
    if (this.away) throw new Error('the server is not reached');
    const present = this.plc.present();
    this.queues.came(present);
    return present.map((told) => this.raw(told, false));
  }

  /** True when the namespace has another number than when the tags were looked up. */
  moved(): boolean {
    return this.away === undefined && this.namespaceMoved;
  }

  /** The intake has given its connection up and opens another one. */
  reopened(): void {
    this.namespaceMoved = false;
    this.newLife();
  }

  /** What it tells a client that it keeps of each tag. */
  queue(): number {
    return this.queues.size;
  }

  /** What the client was never told. */
  lost(): readonly LostValue[] {
    return this.queues.lost();
  }

  /** What the machine told before anybody listens. */
  skip(facts: readonly PlcFact[], until: Instant): void {
    for (const fact of this.plc.pass(facts, until)) if ('link' in fact) this.power = fact.link;
    this.now = until;
    this.lastTold = until;
    this.link.now = epochMs(until);
  }

  /** Begins to serve. */
  async open(): Promise<void> {
    this.queues.now = this.now;
    this.queues.begin(this.plc.present());
    await this.link.open();
  }

  /** Takes what the machine told up to a moment, one publishing interval after the other. */
  async pass(facts: readonly PlcFact[], until: Instant): Promise<void> {
    let place = 0;
    for (let at = after(this.now, PUBLISHING); at <= until; at = after(at, PUBLISHING)) {
      const begin = place;
      while (place < facts.length && facts[place]!.at < at) place += 1;
      const told = this.plc.pass(facts.slice(begin, place), at);
      this.now = at;
      this.queues.now = at;
      for (const fact of told) this.take(fact);
      this.queues.sample(this.isLive);
      await this.turn();
      await this.publish();
    }
  }

  private namespaceMoved = false;

  private take(fact: ToldFact): void {
    if ('link' in fact) {
      // locked out, the PLC is dark; what it knew it knows again
      this.power = fact.link;
      return;
    }
    if (this.away?.kind === 'gone') this.queues.miss(fact);
    else this.queues.take(fact, this.isLive);
  }

  /** Publishes come through. */
  private get isLive(): boolean {
    return this.away === undefined && !this.known;
  }

  private power = true;

  private isDuring(kind: FaultKind): boolean {
    return this.faults.some((fault) => {
      const from = after(this.start, fault.at);
      return fault.kind === kind && 'lasts' in fault && this.now >= from && this.now < from + fault.lasts;
    });
  }

  /** What becomes of the link in this interval. */
  private async turn(): Promise<void> {
    const during = this.outages.filter(({ from, to }) => from <= this.now && this.now < to);
    const kind = this.power ? worstOf(during) : 'gone';
    const breaks = during.some(({ announced }) => announced);
    if (kind && !this.away && breaks) await this.saysNothingMore();
    if (kind && isWorse(kind, this.away?.kind)) await this.goes(kind);
    if (!kind && this.away) await this.comes();
    if (this.away && breaks) this.away.breaks = true;
    if (this.away && during.some(({ moved }) => moved)) this.away.moved = true;
    if (this.away && !this.known && this.now - this.away.since >= FOUND_OUT) await this.foundOut();
    if (!this.known && !this.isSilent && this.now - this.lastTold >= SILENCE) {
      this.isSilent = true;
      this.link.now = epochMs(this.now);
      await this.link.flow.fellSilent();
    }
    if (this.backAt !== undefined && this.now >= this.backAt) await this.back();
  }

  /** All that has changed is told, and then that nothing more has. */
  private async saysNothingMore(): Promise<void> {
    await this.publish();
    await this.deliver({ message: this.message([], true), rows: [] });
  }

  private async goes(kind: Away): Promise<void> {
    this.away = { moved: false, breaks: false, since: this.now, ...this.away, kind };
    this.backAt = undefined;
    if (kind === 'gone') {
      this.queues.clear();
      this.sent = [];
    }
    if (kind !== 'dark' && !this.known) await this.foundOut();
  }

  private async foundOut(): Promise<void> {
    this.known = true;
    await this.tell({ kind: 'lost' });
  }

  private async comes(): Promise<void> {
    const { kind, since, moved, breaks } = this.away!;
    this.away = undefined;
    if (breaks && !this.known) await this.foundOut();
    if (moved) this.namespaceMoved = true;
    const lived = kind !== 'gone' && this.now - since < LIFETIME;
    // asked again for it, the server no longer has it
    if (!lived || this.isDuring('empty')) this.sent = [];
    this.survived = lived;
    if (this.known) this.backAt = after(this.now, BACK_AFTER);
    else {
      // nobody noticed: the network sends again what it held
      await this.sendAgain([]);
      this.outstanding = OUTSTANDING;
    }
  }

  private survived = true;

  /** The client is connected again: what it missed is sent again, sometimes with what it had, or all begins anew. */
  private async back(): Promise<void> {
    this.backAt = undefined;
    this.known = false;
    this.outstanding = OUTSTANDING;
    if (this.survived) {
      await this.sendAgain(this.lastDelivered && this.chance() < 1 / 7 ? [this.lastDelivered] : []);
      await this.tell({ kind: 'restored' });
      return;
    }
    this.newLife();
    await this.tell({ kind: 'restored' });
  }

  private lastDelivered: Sent | undefined;

  private async sendAgain(before: readonly Sent[]): Promise<void> {
    const received = epochMs(this.now);
    for (const { message, rows } of [...before, ...this.sent.splice(0)])
      await this.deliver({ message: { ...message, received }, rows });
  }

  private newLife(): void {
    this.link.life += 1;
    this.number = 1;
    this.quiet = 0;
    this.sent = [];
    this.queues.begin(this.plc.present());
  }

  private async publish(): Promise<void> {
    if (this.away?.kind === 'gone' || this.known) return;
    const reached = this.away === undefined;
    if (!reached && this.outstanding === 0) return;
    const rows = this.queues.drain();
    if (rows.length === 0) {
      this.quiet += 1;
      if (this.quiet % KEEP_ALIVE_AFTER === 0 && reached)
        await this.deliver({ message: this.message([], true), rows });
      return;
    }
    this.quiet = 0;
    const sent = { message: this.message(this.isDuring('mixed') ? this.mix(rows) : rows, false), rows };
    this.number += 1;
    if (!reached) {
      this.outstanding -= 1;
      this.sent.push(sent);
      return;
    }
    await this.deliver(sent);
    if (this.isDuring('twice')) await this.deliver(sent);
  }

  private mix(rows: readonly Queued[]): readonly Queued[] {
    return rows
      .map((row) => ({ row, by: this.chance() }))
      .sort((a, b) => a.by - b.by)
      .map(({ row }) => row);
  }

  private message(rows: readonly Queued[], keepAlive: boolean): Message {
    const values = rows.map(({ told, overflow }) => this.raw(told, overflow));
    return {
      kind: 'message',
      life: this.link.life,
      number: this.number,
      keepAlive,
      received: epochMs(this.now),
      size: values.length,
      more: false,
      values: () => values,
    };
  }

  private async deliver(sent: Sent): Promise<void> {
    const { message, rows } = sent;
    this.lastTold = this.now;
    this.isSilent = false;
    if (!message.keepAlive) this.lastDelivered = sent;
    this.queues.came(rows.map(({ told }) => told));
    await this.link.tell(message);
  }

  private async tell(happening: { readonly kind: 'lost' | 'restored' }): Promise<void> {
    this.link.now = epochMs(this.now);
    await this.link.tell(happening);
  }

  private raw({ source, server, tag, value, status }: ToldValue, overflow: boolean): RawValue {
    return {
      item: this.items.get(tag)!,
      wire: value === null ? undefined : { dataType: this.types.get(tag)!, scalar: true, value },
      status: (status | (overflow ? OVERFLOW : 0)) >>> 0,
      sourceMs: source === undefined ? undefined : wholeMs(source),
      sourceTicks: source === undefined ? 0 : source % 10_000,
      serverMs: wholeMs(server),
      serverTicks: server % 10_000,
    };
  }
}

/** Its 100 ns go apart from it. */
function wholeMs(at: Instant): number {
  return epochMs((at - (at % 10_000)) as Instant);
}
