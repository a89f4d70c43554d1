import { after, type Instant, type Span } from '../../model/units/units.ts';
import { standardZone } from '../calendar/standard.ts';
import type { Tag } from '../lines/tags.ts';
import type { LinkFact, PlcFact, TagValue } from '../machine/plc.ts';
import { type Cell, cellsOf, takeValue, type ToldValue, shownOf } from './cells.ts';
import type { Fault } from './faults.ts';
import { PlcClock } from './plcClock.ts';

/** What a listener is told: a value with its stamp and status, or that the PLC fell silent or answers. */
export type ToldFact = ToldValue | LinkFact;

/** BadCommunicationError (OPC 10000-6, Annex A: status codes). */
const BAD = 0x80050000;

/** A moment at which a fault begins or ends. */
interface Turn {
  readonly at: Instant;
  readonly does: () => void;
}

/**
 * A machine's facts as its PLC tells them while faults happen to the PLC: counters reset or corrected, values bad or
 * late, a program that stands still, stamps that are missing, a clock that is stepped or local. Faults of link, server
 * and messages are not its matter. Facts are passed on in time order; the same facts in any chunks give the same.
 */
export class FaultedPlc {
  private readonly cells: ReadonlyMap<string, Cell>;
  private readonly twins: ReadonlyMap<string, string>;
  private readonly clock: PlcClock;
  /** The earliest first. */
  private readonly turns: Turn[] = [];
  /** Tags whose bad status comes with the value. */
  private readonly withValue = new Set<string>();
  private told: ToldFact[] = [];
  private readonly start: Instant;
  private now: Instant;
  private frozen = 0;
  private still = 0;
  private stampless = 0;

  /** `twins`: the tag that counts the presses of a stop device's tag. `zone`: of a clock that is put on local time. */
  constructor(
    faults: readonly Fault[],
    start: Instant,
    tags: readonly Tag[],
    twins: ReadonlyMap<string, string> = new Map(),
    zone = standardZone,
  ) {
    this.start = start;
    this.now = start;
    this.twins = twins;
    this.clock = new PlcClock(zone);
    this.cells = cellsOf(tags);
    for (const fault of faults) this.plan(fault);
  }

  /** One more fault, which is still to come. */
  plan(fault: Fault): void {
    const at = after(this.start, fault.at);
    const end = 'lasts' in fault ? after(at, fault.lasts) : at;
    const begins = (does: () => void) => this.turn(at, does);
    const during = (name: 'frozen' | 'still' | 'stampless', over: () => void) => {
      this.turn(at, () => {
        this[name] += 1;
      });
      this.turn(end, () => {
        this[name] -= 1;
        over();
      });
    };
    switch (fault.kind) {
      case 'frozen':
        return during('frozen', () => this.tellAll());
      case 'still':
        return during('still', () => {});
      case 'stampless':
        return during('stampless', () => {});
      case 'stepped':
        return begins(() => this.clock.step(fault.by));
      case 'local':
        return begins(() => this.clock.beLocal());
      case 'reset':
        return begins(() => this.showCounter(fault.on, 0));
      case 'set':
        return begins(() => this.showCounter(fault.on, fault.to));
      case 'rollover':
        return begins(() => this.nearEnd(fault.on, fault.left));
      case 'corrected':
        return begins(() => this.correct(fault.on, fault.by));
      case 'late':
        return begins(() => this.delay(fault.on, fault.lag));
      case 'skewed':
        return begins(() => this.skew(fault.on, fault.by));
      case 'download':
        return this.turn(end, () => this.download());
      case 'bad':
        begins(() => this.setBad(fault.on, true, fault.withValue));
        return this.turn(end, () => this.setBad(fault.on, false, true));
      case 'pulse':
        begins(() => this.pulse(fault.on));
        return this.turn(end, () => this.take(fault.on, false));
      case 'cut':
      case 'dark':
      case 'killed':
      case 'reissued':
      case 'queue':
      case 'sampled':
      case 'limited':
      case 'unheard':
      case 'empty':
      case 'refused':
      case 'twice':
      case 'mixed':
    }
  }

  /** How far the PLC's clock is ahead of the truth now. */
  get ahead(): Span {
    return (this.clock.at(this.now) - this.now) as Span;
  }

  /** What the PLC's clock says at a moment, as it is set now. */
  says(moment: Instant): Instant {
    return this.clock.at(moment);
  }

  /** When a fault begins or ends next; undefined when none does any more. */
  get next(): Instant | undefined {
    return this.turns[0]?.at;
  }

  /** What is told up to, and not including, `until`. */
  pass(facts: readonly PlcFact[], until: Instant): readonly ToldFact[] {
    for (const fact of facts) {
      // a fault at the moment of a fact comes before it
      this.turnUpTo((fact.at + 1) as Instant);
      this.now = fact.at;
      if ('link' in fact) this.told.push(fact);
      else this.take(fact.tag, fact.value);
    }
    this.turnUpTo(until);
    const { told } = this;
    this.told = [];
    return told;
  }

  /** Every tag as it was told last, with its stamp from then: what somebody who has just begun to listen is told. */
  present(): readonly ToldValue[] {
    return [...this.cells.values()].flatMap(({ told }) => told ?? []);
  }

  private turn(at: Instant, does: () => void): void {
    const place = this.turns.findIndex((turn) => turn.at > at);
    this.turns.splice(place < 0 ? this.turns.length : place, 0, { at, does });
  }

  private turnUpTo(at: Instant): void {
    while (this.turns[0] && this.turns[0].at < at) {
      const turn = this.turns.shift()!;
      this.now = turn.at;
      turn.does();
    }
  }

  private take(tag: string, value: TagValue): void {
    const cell = this.cells.get(tag);
    if (!cell) return;
    const tell = () => {
      takeValue(cell, value);
      this.tell(tag, cell);
    };
    if (cell.lag === 0) return tell();
    // what happened first is told first, though the lag were shorter now
    cell.due = Math.max(cell.due, this.now + cell.lag);
    return this.turn(cell.due as Instant, tell);
  }

  private tell(tag: string, cell: Cell): void {
    if (this.frozen > 0 || (this.still > 0 && cell.beats)) return;
    const told = this.valueNow(tag, cell);
    // a status that comes without a value comes once
    if (told.value === null && cell.shown === null) return;
    cell.shown = told.value;
    cell.told = told;
    this.told.push(told);
  }

  private tellAll(): void {
    if (this.frozen > 0) return;
    for (const [tag, cell] of this.cells) {
      if (cell.machine !== undefined && this.valueNow(tag, cell).value !== cell.shown) this.tell(tag, cell);
    }
  }

  private valueNow(tag: string, cell: Cell): ToldValue {
    const server = this.clock.at(this.now);
    const source = this.stampless > 0 ? undefined : after(server, cell.skew as Span);
    const hidden = cell.bad && !this.withValue.has(tag);
    const value = hidden ? null : shownOf(cell);
    return { at: this.now, source, server, tag, value, status: cell.bad ? BAD : 0 };
  }

  private setBad(tag: string, bad: boolean, withValue: boolean): void {
    const cell = this.cells.get(tag);
    if (!cell) return;
    cell.bad = bad;
    if (withValue && bad) this.withValue.add(tag);
    else this.withValue.delete(tag);
    this.tell(tag, cell);
  }

  private showCounter(tag: string, value: number): void {
    const cell = this.cells.get(tag);
    if (typeof cell?.machine !== 'number') return;
    cell.offset = value - cell.machine;
    this.tell(tag, cell);
  }

  private correct(tag: string, by: number): void {
    const cell = this.cells.get(tag);
    if (typeof cell?.machine !== 'number') return;
    cell.offset += by;
    this.tell(tag, cell);
  }

  /** A counter that has no end goes on as it is; one of which the machine has said nothing begins there. */
  private nearEnd(tag: string, left: number): void {
    const cell = this.cells.get(tag);
    if (!cell || !Number.isFinite(cell.wraps)) return;
    if (cell.machine === undefined) cell.left = left;
    else this.showCounter(tag, cell.wraps - left);
  }

  private delay(tag: string, lag: Span): void {
    const cell = this.cells.get(tag);
    if (cell) cell.lag = lag;
  }

  private skew(tag: string, by: Span): void {
    const cell = this.cells.get(tag);
    if (cell) cell.skew = by;
  }

  /** Counters begin at 0; what is no counter is as the machine is. */
  private download(): void {
    for (const [tag, cell] of this.cells) if (cell.counts) this.showCounter(tag, 0);
  }

  private pulse(tag: string): void {
    this.take(tag, true);
    const twin = this.twins.get(tag);
    const cell = twin === undefined ? undefined : this.cells.get(twin);
    if (twin !== undefined && cell) this.correct(twin, 1);
  }
}
