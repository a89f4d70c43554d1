import type { NoticeRules } from '../notices/settings.ts';
import type { EpochMs, Instant } from '../units/units.ts';
import type { Outside, Seen } from '../view/seen.ts';
import type { Condition } from '../notices/condition.ts';

/** A line at a moment with all that notices are judged by. */
export interface Watched {
  readonly seen: Seen;
  readonly outside: Outside;
  /** The gateway's clock: servers and disks go by it. */
  readonly wall: EpochMs;
  /** When the gateway began to look, by its clock: what it has not heard since then may only need a moment to be heard. */
  readonly begun: EpochMs;
  readonly rules: NoticeRules;
  /** Keys that hold already: they hold on until things are clearly better. */
  readonly holding: ReadonlySet<string>;
  /** What stations were judged to be: worked out where the past is known; undefined while it is not. */
  readonly stations: readonly Condition[] | undefined;
  /** Stop devices and guards by id: when a person last recorded a test. */
  /** Undefined while the past is not known. */
  readonly tested: ReadonlyMap<string, Instant> | undefined;
  /** From when on anything is recorded of the line: nothing was due before. */
  readonly recordedSince?: Instant | undefined;
  readonly disk: { readonly freeBytes: number } | undefined;
}
