import type { Instant } from '../../model/units/units.ts';
import type { Tag } from '../lines/tags.ts';

export type TagValue = number | boolean | string;

/** The PLC wrote a value that differs from the one before. `status` is an OPC UA status code, good when absent. */
export interface TagWrite {
  readonly at: Instant;
  readonly tag: string;
  readonly value: TagValue;
  readonly status?: number;
}

/** The PLC fell silent, or answers again. */
export interface LinkFact {
  readonly at: Instant;
  readonly link: boolean;
}

export type PlcFact = TagWrite | LinkFact;

/**
 * The memory of the simulated PLC and what it has told since it was last asked. It is changed in place: this is the
 * hot path, and only the machine's scripts hold it.
 */
export interface Plc {
  readonly values: Map<string, TagValue>;
  /** When each tag was last written. */
  readonly writtenAt: Map<string, Instant>;
  readonly wraps: ReadonlyMap<string, number>;
  told: PlcFact[];
  dark: boolean;
}

/** A PLC with a first value in every tag; the values are told at `at`. */
export function createPlc(tags: readonly Tag[], initial: ReadonlyMap<string, TagValue>): Plc {
  const wraps = new Map<string, number>();
  for (const { tag, width } of tags) if (width !== undefined) wraps.set(tag, 2 ** width);
  const values = new Map<string, TagValue>();
  for (const { tag, type } of tags) {
    values.set(tag, initial.get(tag) ?? (type === 'Boolean' ? false : type === 'String' ? '' : 0));
  }
  return { values, writtenAt: new Map(), wraps, told: [], dark: false };
}

/** Writes a tag. Nothing happens without power, without a change, or where the variant has no such tag. */
export function write(plc: Plc, at: Instant, tag: string, value: TagValue): void {
  const before = plc.values.get(tag);
  if (plc.dark || before === undefined || before === value) return;
  plc.values.set(tag, value);
  plc.writtenAt.set(tag, at);
  plc.told.push({ at, tag, value });
}

/** Counts a counter up; it rolls over at its width. */
export function count(plc: Plc, at: Instant, tag: string, by = 1): void {
  const before = plc.values.get(tag);
  if (typeof before !== 'number' || by === 0) return;
  write(plc, at, tag, (before + by) % (plc.wraps.get(tag) ?? Number.MAX_SAFE_INTEGER));
}

/** Power goes or comes back. */
export function setLink(plc: Plc, at: Instant, link: boolean): void {
  plc.dark = !link;
  plc.told.push({ at, link });
}
