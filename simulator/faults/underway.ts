import { after, type Instant } from '../../model/units/units.ts';
import type { Fault, FaultKind } from './faults.ts';

type Lasting = Extract<Fault, { readonly lasts: unknown }>;

/** Which of the faults that last are going on. */
export class Underway {
  private readonly faults: Lasting[] = [];
  private readonly start: Instant;
  private readonly now: () => Instant;

  constructor(faults: readonly Fault[], start: Instant, now: () => Instant) {
    this.start = start;
    this.now = now;
    for (const fault of faults) this.plan(fault);
  }

  /** One more fault. */
  plan(fault: Fault): void {
    if ('lasts' in fault) this.faults.push(fault);
  }

  /** The first of a kind, in the order in which they were planned; undefined when there is none now. */
  find<Kind extends FaultKind>(kind: Kind): Extract<Lasting, { readonly kind: Kind }> | undefined {
    const now = this.now();
    const isNow = ({ at, lasts }: Lasting) => {
      const from = after(this.start, at);
      return now >= from && now < after(from, lasts);
    };
    return this.faults.find(
      (fault): fault is Extract<Lasting, { readonly kind: Kind }> => fault.kind === kind && isNow(fault),
    );
  }
}
