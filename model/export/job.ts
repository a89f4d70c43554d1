import type { EpochMs } from '../units/units.ts';
import type { ExportTable } from './columns.ts';

export const EXPORT_FORMATS = ['csv', 'parquet'] as const;
export type ExportFormat = (typeof EXPORT_FORMATS)[number];

export const EXPORT_STATES = ['running', 'done', 'cancelled', 'failed'] as const;
export type ExportState = (typeof EXPORT_STATES)[number];

/** One export that a screen or program asked for. */
export interface ExportRow {
  readonly id: string;
  readonly state: ExportState;
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly tables: readonly ExportTable[];
  readonly format: ExportFormat;
  /** When it was asked for, milliseconds since 1970. */
  readonly begun: number;
  /** Which table it is at; null before the first. */
  readonly table: ExportTable | null;
  /** Of all tables so far. */
  readonly rows: number;
  /** How much of it is done, 0 to 1. */
  readonly share: number;
  /** Of its file so far. */
  readonly bytes: number;
  /** Why it failed. */
  readonly trouble: { readonly what: string; readonly why: string; readonly mend: string } | null;
}
