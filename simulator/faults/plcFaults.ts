import { after, type Instant, type Span } from '../../model/units/units.ts';
import type { Tag } from '../lines/tags.ts';
import type { PlcFact, TagValue } from '../machine/plc.ts';
import type { Fault } from './faults.ts';

/** What a listener is told: a value with its stamp and status, or that the PLC fell silent or answers. */
export type ToldFact = ToldValue | { readonly at: Instant; readonly link: boolean };

export interface ToldValue {
  /** When it really happened. */
  readonly at: Instant;
  /** What the PLC's clock said then; undefined where it gives no stamp. */
  readonly source: Instant | undefined;
  readonly tag: string;
  /** Null: no value came with the status. */
  readonly value: TagValue | null;
  readonly status: number;
}

/** BadCommunicationError (OPC 10000-6, Annex A: status codes). */
const BAD = 0x80050000;

interface Cell {
  readonly wraps: number;
  readonly counts: boolean;
  readonly beats: boolean;
  /** What the machine says, and how far what the PLC shows is from it. */
  machine: TagValue | undefined;
  offset: number;
  bad: boolean;
  shown: TagValue | null | undefined;
  /** What was told last. */
  told: ToldValue | undefined;
}

/** A moment at which a fault begins or ends. */
interface Turn {
  readonly at: Instant;
  readonly does: () => void;
}

/**
 * A machine's facts as its PLC tells them while faults happen to the PLC: counters reset or corrected, values bad, a
 * program that stands still, stamps that are missing, a clock that is stepped. Faults of link, server and messages are
 * not its matter. Facts are passed on in time order; the same facts in any chunks give the same.
 */
export class FaultedPlc {
  private readonly cells: ReadonlyMap<string, Cell>;
  private readonly twins: ReadonlyMap<string, string>;
  private readonly turns: Turn[] = [];
  /** Tags whose bad status comes with the value. */
  private readonly withValue = new Set<string>();
  private told: ToldFact[] = [];
  private now: Instant;
  private frozen = 0;
  private still = 0;
  private stampless = 0;
  private stepped = 0;

  /** `twins`: the tag that counts the presses of a stop device's tag. */
  constructor(
    faults: readonly Fault[],
    start: Instant,
    tags: readonly Tag[],
    twins: ReadonlyMap<string, string> = new Map(),
  ) {
    this.now = start;
    this.twins = twins;
    this.cells = new Map(
      tags.map(({ tag, type, role, width }) => {
        const wraps = type === 'UInt16' ? 2 ** 16 : type === 'UInt32' ? 2 ** 32 : Number.POSITIVE_INFINITY;
        const [counts, beats] = [width !== undefined, role === 'heartbeat'];
        return [
          tag,
          {
            wraps,
            counts,
            beats,
            machine: undefined,
            offset: 0,
            bad: false,
            shown: undefined,
            told: undefined,
          },
        ];
      }),
    );
    for (const fault of faults) this.plan(fault, after(start, fault.at));
    this.turns.sort((a, b) => a.at - b.at);
  }

  /** How far the PLC's clock is ahead of the truth now. */
  get ahead(): Span {
    return this.stepped as Span;
  }

  /** What is told up to, and not including, `until`. */
  pass(facts: readonly PlcFact[], until: Instant): readonly ToldFact[] {
    for (const fact of facts) {
      this.turnUpTo(fact.at);
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

  private plan(fault: Fault, at: Instant): void {
    const end = 'lasts' in fault ? after(at, fault.lasts) : at;
    const during = (name: 'frozen' | 'still' | 'stampless', over: () => void) => {
      this.turns.push({
        at,
        does: () => {
          this[name] += 1;
        },
      });
      this.turns.push({
        at: end,
        does: () => {
          this[name] -= 1;
          over();
        },
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
        this.turns.push({
          at,
          does: () => {
            this.stepped += fault.by;
          },
        });
        return;
      case 'reset':
        this.turns.push({ at, does: () => this.showCounter(fault.on, 0) });
        return;
      case 'corrected':
        this.turns.push({ at, does: () => this.correct(fault.on, fault.by) });
        return;
      case 'download':
        this.turns.push({ at: end, does: () => this.download() });
        return;
      case 'bad':
        this.turns.push({ at, does: () => this.setBad(fault.on, true, fault.withValue) });
        this.turns.push({ at: end, does: () => this.setBad(fault.on, false, true) });
        return;
      case 'pulse':
        this.turns.push({ at, does: () => this.pulse(fault.on) });
        this.turns.push({ at: end, does: () => this.take(fault.on, false) });
        return;
      case 'cut':
      case 'dark':
      case 'killed':
      case 'queue':
      case 'twice':
      case 'mixed':
    }
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
    cell.machine = value;
    this.tell(tag, cell);
  }

  private tell(tag: string, cell: Cell): void {
    if (this.frozen > 0 || (this.still > 0 && cell.beats)) return;
    const told = this.valueOf(tag, cell, this.now);
    // a status that comes without a value comes once
    if (told.value === null && cell.shown === null) return;
    cell.shown = told.value;
    cell.told = told;
    this.told.push(told);
  }

  private tellAll(): void {
    if (this.frozen > 0) return;
    for (const [tag, cell] of this.cells) {
      if (cell.machine !== undefined && this.valueOf(tag, cell, this.now).value !== cell.shown)
        this.tell(tag, cell);
    }
  }

  private valueOf(tag: string, cell: Cell, at: Instant): ToldValue {
    const { machine, offset, wraps } = cell;
    const value =
      typeof machine === 'number' && offset !== 0
        ? (((machine + offset) % wraps) + wraps) % wraps
        : (machine ?? null);
    const source = this.stampless > 0 ? undefined : ((at + this.stepped) as Instant);
    const hidden = cell.bad && !this.withValue.has(tag);
    return { at, source, tag, value: hidden ? null : value, status: cell.bad ? BAD : 0 };
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
