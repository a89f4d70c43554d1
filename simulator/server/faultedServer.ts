import type { Instant } from '../../model/units/units.ts';
import type { Fault } from '../faults/faults.ts';
import { FaultedPlc } from '../faults/plcFaults.ts';
import { Underway } from '../faults/underway.ts';
import type { PlcFact } from '../machine/plc.ts';
import { type Doings, type Turn, turnsOf } from './faultTurns.ts';
import { KeepAlives } from './misbehaviour/keepAlives.ts';
import { changePublishes } from './misbehaviour/publishes.ts';
import { keepQueuesShort } from './misbehaviour/queues.ts';
import { refuseClients } from './misbehaviour/refusal.ts';
import { openRelay, type Relay } from './misbehaviour/relay.ts';
import { answerEmpty } from './misbehaviour/republishes.ts';
import { SubscriptionIds } from './misbehaviour/subscriptionIds.ts';
import { watchLittle } from './misbehaviour/watching.ts';
import { type PlcServer, type PlcServerOptions, startPlcServer } from './plcServer.ts';

export interface FaultedServerOptions extends PlcServerOptions {
  readonly faults: readonly Fault[];
  /** From when on the faults' times count. */
  readonly start: Instant;
  /** The machine's time now. */
  readonly clock: () => Instant;
  /** Told of each fault as it begins. */
  readonly begins?: (fault: Fault) => void;
}

export interface FaultedServer {
  readonly endpoint: string;
  /** Brings facts of the machine, up to a moment, to the clients, and lets happen what is to happen by then. */
  tell(facts: readonly PlcFact[], until: Instant): Promise<void>;
  /** One more fault, which is still to come. */
  plan(fault: Fault): void;
  /** When something happens by itself next; undefined when nothing does any more. */
  due(): Instant | undefined;
  /** How many requests of a type all its servers have been sent. */
  requests(name: string): number;
  /** Numbers of the subscriptions that each of its servers gave, one after the other. */
  subscriptions(): readonly (readonly number[])[];
  stop(): Promise<void>;
}

/** The simulated PLC as an OPC UA server behind a cable, to all of which faults happen at their times. */
export async function startFaultedServer(options: FaultedServerOptions): Promise<FaultedServer> {
  const relay = await openRelay(options.port, options.host ?? '127.0.0.1');
  const server = new FaultyServer(options, relay);
  await server.comes();
  return server;
}

class FaultyServer implements FaultedServer, Doings {
  readonly endpoint: string;
  private readonly options: FaultedServerOptions;
  private readonly relay: Relay;
  private readonly plc: FaultedPlc;
  private readonly underway: Underway;
  private readonly keepAlives = new KeepAlives();
  private readonly ids = new SubscriptionIds();
  private turns: readonly Turn[] = [];
  /** Reasons for which it is not there, the cable is cut, and the cable is dark. */
  private gone = 1;
  private cuts = 0;
  private darks = 0;
  private power = true;
  private moved = false;
  private isHushed = false;
  private readonly servers: PlcServer[] = [];
  private server: PlcServer | undefined;
  private next: Promise<PlcServer>;

  constructor(options: FaultedServerOptions, relay: Relay) {
    const { faults, start, tags, devices, clock, host = '127.0.0.1' } = options;
    const twins = new Map(devices.map(({ tag, twinTag }) => [tag, twinTag]));
    this.endpoint = `opc.tcp://${host}:${relay.port}`;
    this.options = options;
    this.relay = relay;
    this.plc = new FaultedPlc(faults, start, tags, twins);
    this.underway = new Underway(faults, start, clock);
    for (const fault of faults) this.addTurns(fault);
    this.next = this.makeReady(false);
  }

  plan(fault: Fault): void {
    this.plc.plan(fault);
    this.underway.plan(fault);
    this.addTurns(fault);
  }

  due(): Instant | undefined {
    const times = [this.turns[0]?.at, this.plc.next].filter((at) => at !== undefined);
    return times.length > 0 ? (Math.min(...times) as Instant) : undefined;
  }

  requests(name: string): number {
    return this.servers.reduce((sum, server) => sum + server.requests(name), 0);
  }

  subscriptions(): readonly (readonly number[])[] {
    return this.ids.given;
  }

  async tell(facts: readonly PlcFact[], until: Instant): Promise<void> {
    let rest = facts;
    for (let turn = this.turns[0]; turn && turn.at < until; turn = this.turns[0]) {
      const { at, does } = turn;
      this.turns = this.turns.slice(1);
      const later = rest.findIndex((fact) => fact.at >= at);
      const before = later < 0 ? rest : rest.slice(0, later);
      rest = rest.slice(before.length);
      await this.pass(before, at);
      await does();
    }
    await this.pass(rest, until);
  }

  async stop(): Promise<void> {
    await this.relay.close();
    const server = this.server ?? (await this.next);
    await server.stop();
  }

  begins(fault: Fault): void {
    this.options.begins?.(fault);
  }

  cut(by: 1 | -1): void {
    this.cuts += by;
    this.setCable();
  }

  darken(by: 1 | -1): void {
    this.darks += by;
    this.setCable();
  }

  goes({ again, moves }: { readonly again: boolean; readonly moves: boolean }): void {
    this.gone += 1;
    if (moves) this.moved = !this.moved;
    const old = this.server ? Promise.resolve(this.server) : this.next;
    this.server = undefined;
    this.setCable();
    this.next = old.then((server) => server.stop()).then(() => this.makeReady(again));
  }

  /** The server that was being prepared is there, with what the PLC shows now. */
  async comes(): Promise<void> {
    this.gone -= 1;
    if (this.gone > 0) return;
    const server = await this.next;
    await server.tell(this.plc.present());
    if (!this.power) await server.tell([{ at: this.options.clock(), link: false }]);
    this.server = server;
    this.relay.lead(server.port);
    this.setCable();
  }

  breakOff(): void {
    this.server?.breakOff();
  }

  hush(on: boolean): void {
    if (on) {
      this.keepAlives.onceHeard(() => {
        this.isHushed = true;
        this.setCable();
      });
      return;
    }
    this.keepAlives.disarm();
    if (!this.isHushed) return;
    // what was sent into the dark is lost with the connection
    this.relay.breakAll();
    this.isHushed = false;
    this.setCable();
  }

  private addTurns(fault: Fault): void {
    const more = turnsOf(fault, this.options.start, this);
    this.turns = [...this.turns, ...more].sort((a, b) => a.at - b.at);
  }

  private async pass(facts: readonly PlcFact[], until: Instant): Promise<void> {
    const told = this.plc.pass(facts, until);
    for (const fact of told) if ('link' in fact) this.power = fact.link;
    await this.server?.tell(told);
  }

  private async makeReady(again: boolean): Promise<PlcServer> {
    const { underway, keepAlives, ids, plc, options } = this;
    const clock = () => plc.says(options.clock());
    const server = await startPlcServer({
      ...options,
      host: '127.0.0.1',
      port: 0,
      clock,
      moved: this.moved,
      prepare: (inner, certificates) => {
        changePublishes(inner, underway, clock);
        keepQueuesShort(inner, underway);
        watchLittle(inner, underway);
        answerEmpty(inner, underway);
        refuseClients(inner, certificates, underway);
        keepAlives.watch(inner);
        ids.give(inner, again);
      },
    });
    this.servers.push(server);
    return server;
  }

  private setCable(): void {
    const cut = this.cuts > 0 || this.server === undefined;
    this.relay.set({ cut, dark: this.darks > 0 || this.isHushed });
  }
}
