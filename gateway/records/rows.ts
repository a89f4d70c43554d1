import type { RecordKind, RecordStep } from '../../model/records/records.ts';
import { subjectOf } from '../../model/records/subjects.ts';

/** A record as it is stored. */
export interface Row {
  readonly kind: RecordKind;
  readonly at: number;
  readonly id: string;
  readonly until: number | null;
  readonly subject: string | null;
  /** JSON: what it was made of goes on changing. */
  readonly body: string;
}

export type RowStep =
  | { readonly kind: 'put'; readonly row: Row }
  | Exclude<RecordStep, { readonly kind: 'put' }>;

/** What a change of the tape did to the records: `position` is that after it. */
export interface Written {
  readonly position: number;
  readonly steps: readonly RowStep[];
}

/** What has to be done, with all bodies as they are just now. */
export function rowSteps(steps: readonly RecordStep[]): readonly RowStep[] {
  return steps.map((step) => {
    if (step.kind !== 'put') return step;
    const { kind, at, id, until, body } = step.record;
    const row = { kind, at, id, until, subject: subjectOf(step.record), body: JSON.stringify(body) };
    return { kind: 'put', row };
  });
}

export function isSame(a: Row | undefined, b: Row | undefined): boolean {
  return a?.body === b?.body && a?.until === b?.until && a?.subject === b?.subject;
}
