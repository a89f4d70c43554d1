import type { Message, RawValue } from '../../gateway/intake/connection.ts';
import type { Bound } from '../../gateway/binding/binding.ts';
import { after, epochMs, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { ToldValue } from '../../simulator/faults/cells.ts';
import { FaultedPlc, type ToldFact } from '../../simulator/faults/plcFaults.ts';
import { type TagType, tagsOf } from '../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../simulator/lines/variant.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { stream } from '../../simulator/machine/random.ts';
import type { FakeLink } from '../gateway/intake/fakeLink.ts';

/*
 * An OPC UA server, its network and the client library below our intake, in virtual time: what they do to values was
 * measured at two independent server stacks. Publishing 250 ms, queue 100, keep-alive after 8 publishes without data.
 */
export const PUBLISHING = (SECOND / 4) as Span;
const QUEUE = 100;
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

interface Queued {
  readonly told: ToldValue;
  overflow: boolean;
}

type Away = 'cut' | 'dark' | 'gone';

/** Time that a fault takes away from the link, and what of the subscription outlives it. */
interface Outage {
  readonly kind: Away;
  readonly from: Instant;
  readonly to: Instant;
  readonly moved: boolean;
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
  private queues = new Map<string, Queued[]>();
  private sent: Message[] = [];
  private number = 1;
  private quiet = 0;
  private outstanding = OUTSTANDING;
  private away: { readonly kind: Away; readonly since: Instant; moved: boolean } | undefined;
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
    this.link = parts.link(this);
  }

  /** The server's clock, milliseconds since 1970. */
  clock(): number {
    return epochMs(this.plc.says(this.now));
  }

  /** Every tag as it stands now; throws while the server is not reached. */
  reading(): readonly RawValue[] {
    if (this.away) throw new Error('the server is not reached');
    return this.plc.present().map((told) => this.raw(told, false));
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

  /** What the machine told before anybody listens. */
  skip(facts: readonly PlcFact[], until: Instant): void {
    for (const fact of this.plc.pass(facts, until)) if ('link' in fact) this.power = fact.link;
    this.now = until;
    this.lastTold = until;
    this.link.now = epochMs(until);
  }

  /** Begins to serve. */
  async open(): Promise<void> {
    await this.link.open();
    this.tellAll(this.plc.present());
  }

  /** Takes what the machine told up to a moment, one publishing interval after the other. */
  async pass(facts: readonly PlcFact[], until: Instant): Promise<void> {
    let place = 0;
    for (let at = after(this.now, PUBLISHING); at <= until; at = after(at, PUBLISHING)) {
      const begin = place;
      while (place < facts.length && facts[place]!.at < at) place += 1;
      const told = this.plc.pass(facts.slice(begin, place), at);
      this.now = at;
      for (const fact of told) this.take(fact);
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
    if (this.away?.kind === 'gone') return;
    const queue = this.queues.get(fact.tag) ?? [];
    this.queues.set(fact.tag, queue);
    queue.push({ told: fact, overflow: false });
    const { size, silent } = this.queueNow();
    if (queue.length <= size) return;
    queue.splice(0, queue.length - size);
    if (!silent) queue[0]!.overflow = true;
  }

  private power = true;

  private queueNow(): { readonly size: number; readonly silent: boolean } {
    const fault = this.faults.find((one) => one.kind === 'queue' && this.isDuring(one.at, one.lasts));
    return fault?.kind === 'queue' ? fault : { size: QUEUE, silent: false };
  }

  private isDuring(at: Span, lasts: Span): boolean {
    return this.now >= this.start + at && this.now < this.start + at + lasts;
  }

  /** What becomes of the link in this interval. */
  private async turn(): Promise<void> {
    const outage = this.outages.find(({ from, to }) => from <= this.now && this.now < to);
    const kind = this.power ? outage?.kind : 'gone';
    if (kind && !this.away) await this.goes(kind, outage?.moved ?? false);
    else if (!kind && this.away) await this.comes();
    else if (kind === 'gone' && this.away?.kind !== 'gone') await this.goes(kind, outage?.moved ?? false);
    if (this.away && !this.known && this.now - this.away.since >= FOUND_OUT) await this.foundOut();
    if (!this.known && !this.isSilent && this.now - this.lastTold >= SILENCE) {
      this.isSilent = true;
      this.link.now = epochMs(this.now);
      await this.link.flow.fellSilent();
    }
    if (this.backAt !== undefined && this.now >= this.backAt) await this.back();
  }

  private async goes(kind: Away, moved: boolean): Promise<void> {
    this.away = { kind, since: this.now, moved: moved || (this.away?.moved ?? false) };
    this.backAt = undefined;
    if (kind === 'gone') {
      this.queues = new Map();
      this.sent = [];
    }
    if (kind !== 'dark' && !this.known) await this.foundOut();
  }

  private async foundOut(): Promise<void> {
    this.known = true;
    await this.tell({ kind: 'lost' });
  }

  private async comes(): Promise<void> {
    const { kind, since, moved } = this.away!;
    this.away = undefined;
    if (moved) this.namespaceMoved = true;
    const lived = kind !== 'gone' && this.now - since < LIFETIME;
    if (!lived) this.sent = [];
    this.survived = lived;
    if (this.known) this.backAt = after(this.now, BACK_AFTER);
    else {
      // nobody noticed: the network sends again what it held
      for (const message of this.sent.splice(0))
        await this.deliver({ ...message, received: epochMs(this.now) });
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
      const received = epochMs(this.now);
      const again = this.lastDelivered && this.chance() < 1 / 7 ? [this.lastDelivered] : [];
      for (const message of [...again, ...this.sent.splice(0)]) await this.deliver({ ...message, received });
      await this.tell({ kind: 'restored' });
      return;
    }
    this.newLife();
    await this.tell({ kind: 'restored' });
  }

  private lastDelivered: Message | undefined;

  private newLife(): void {
    this.link.life += 1;
    this.number = 1;
    this.quiet = 0;
    this.queues = new Map();
    this.sent = [];
    this.tellAll(this.plc.present());
  }

  private tellAll(values: readonly ToldValue[]): void {
    for (const told of values) this.queues.set(told.tag, [{ told, overflow: false }]);
  }

  private async publish(): Promise<void> {
    if (this.away?.kind === 'gone' || this.known) return;
    const rows = [...this.queues.values()].flat();
    const reached = this.away === undefined;
    if (!reached && this.outstanding === 0) return;
    if (rows.length === 0) {
      this.quiet += 1;
      if (this.quiet % KEEP_ALIVE_AFTER === 0 && reached) await this.deliver(this.message([], true));
      return;
    }
    this.quiet = 0;
    this.queues = new Map();
    const mixed = this.faults.some((one) => one.kind === 'mixed' && this.isDuring(one.at, one.lasts));
    const message = this.message(mixed ? this.mix(rows) : rows, false);
    this.number += 1;
    if (!reached) {
      this.outstanding -= 1;
      this.sent.push(message);
      return;
    }
    await this.deliver(message);
    if (this.faults.some((one) => one.kind === 'twice' && this.isDuring(one.at, one.lasts)))
      await this.deliver(message);
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

  private async deliver(message: Message): Promise<void> {
    this.lastTold = this.now;
    this.isSilent = false;
    if (!message.keepAlive) this.lastDelivered = message;
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

function outageOf(fault: Fault, start: Instant): readonly Outage[] {
  const from = after(start, fault.at);
  switch (fault.kind) {
    case 'cut':
    case 'dark':
      return [{ kind: fault.kind, from, to: after(from, fault.lasts), moved: false }];
    case 'killed':
    case 'reissued':
      return [{ kind: 'gone', from, to: after(from, fault.lasts), moved: false }];
    case 'download':
      return [{ kind: 'gone', from, to: after(from, fault.lasts), moved: true }];
    default:
      return [];
  }
}
