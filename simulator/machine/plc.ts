import type { Instant } from '../../model/units/units.ts';
import type { Tag, TagType } from '../lines/tags.ts';

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

/** One tag's memory. */
interface Cell {
  value: TagValue;
  writtenAt: Instant;
  /** Number of values before what counts in it rolls over. */
  readonly wraps: number;
}

/**
 * The memory of the simulated PLC and what it has told since it was last asked. It is changed in place: this is the
 * hot path, and only the machine's scripts hold it.
 */
export interface Plc {
  readonly cells: ReadonlyMap<string, Cell>;
  told: PlcFact[];
  dark: boolean;
}

/** A PLC with a first value in every tag. */
export function createPlc(tags: readonly Tag[], initial: ReadonlyMap<string, TagValue>, at: Instant): Plc {
  const cells = new Map<string, Cell>();
  for (const { tag, type } of tags) {
    const value = initial.get(tag) ?? (type === 'Boolean' ? false : type === 'String' ? '' : 0);
    cells.set(tag, { value, writtenAt: at, wraps: wrapsOf(type) });
  }
  return { cells, told: [], dark: false };
}

/** What counts in an unsigned integer rolls over with it. */
function wrapsOf(type: TagType): number {
  return type === 'UInt16' ? 2 ** 16 : type === 'UInt32' ? 2 ** 32 : Number.MAX_SAFE_INTEGER;
}

/** Writes a tag. Nothing happens without power, without a change, or where the variant has no such tag. */
export function write(plc: Plc, at: Instant, tag: string, value: TagValue): void {
  const cell = plc.cells.get(tag);
  if (cell) writeCell(plc, at, tag, cell, value);
}

/** Counts a counter up; it rolls over at its width. */
export function count(plc: Plc, at: Instant, tag: string, by = 1): void {
  const cell = plc.cells.get(tag);
  if (cell && typeof cell.value === 'number') writeCell(plc, at, tag, cell, (cell.value + by) % cell.wraps);
}

function writeCell(plc: Plc, at: Instant, tag: string, cell: Cell, value: TagValue): void {
  if (plc.dark || cell.value === value) return;
  cell.value = value;
  cell.writtenAt = at;
  plc.told.push({ at, tag, value });
}

/** The value a tag shows now; undefined where the variant has no such tag. */
export function shown(plc: Plc, tag: string): TagValue | undefined {
  return plc.cells.get(tag)?.value;
}

/** Every tag as it was last written: what somebody who has just begun to listen is told. */
export function presentWrites(plc: Plc): TagWrite[] {
  return [...plc.cells].map(([tag, { value, writtenAt }]) => ({ at: writtenAt, tag, value }));
}

/** Power goes or comes back. */
export function setLink(plc: Plc, at: Instant, link: boolean): void {
  plc.dark = !link;
  plc.told.push({ at, link });
}
