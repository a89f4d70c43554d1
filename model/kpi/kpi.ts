/**
 * Key figures of ISO 22400-2 from time elements and quantities. Times are minutes, quantities pieces; ratios are 0 to
 * 1, except effectiveness, which exceeds 1 when the planned cycle is too slow and is not clipped. A ratio over nothing
 * is undefined, never 0. Formulas as in a public transcription of the standard's 2011 draft and in OPC 40501-1 Annex
 * C.2; the published text of the standard was not read.
 */
export interface Elements {
  /** Planned busy time. */
  readonly pbt: number;
  /** Actual production time. */
  readonly apt: number;
  /** Actual unit set-up time. */
  readonly aust: number;
  /** Actual unit delay time. */
  readonly adet: number;
  /** Actual unit down time. */
  readonly adot: number;
  /** Pieces that could have been made in `apt` at the planned run time of each: `pq` × PRI, in minutes. */
  readonly plannedRunTime: number;
  /** Produced and good quantity. */
  readonly pq: number;
  readonly gq: number;
  /** Failures, and the minutes it took to restore them together. */
  readonly failures: number;
  readonly restoring: number;
}

export const NO_ELEMENTS: Elements = {
  pbt: 0,
  apt: 0,
  aust: 0,
  adet: 0,
  adot: 0,
  plannedRunTime: 0,
  pq: 0,
  gq: 0,
  failures: 0,
  restoring: 0,
};

/** Periods add by their elements; ratios of periods are never averaged. */
export function add(a: Elements, b: Elements): Elements {
  return {
    pbt: a.pbt + b.pbt,
    apt: a.apt + b.apt,
    aust: a.aust + b.aust,
    adet: a.adet + b.adet,
    adot: a.adot + b.adot,
    plannedRunTime: a.plannedRunTime + b.plannedRunTime,
    pq: a.pq + b.pq,
    gq: a.gq + b.gq,
    failures: a.failures + b.failures,
    restoring: a.restoring + b.restoring,
  };
}

/** Actual unit processing time: production and set-up. */
export function aupt(e: Elements): number {
  return e.apt + e.aust;
}

/** Actual unit busy time: processing and delay. */
export function aubt(e: Elements): number {
  return aupt(e) + e.adet;
}

/** APT / PBT: set-up is a loss in it. */
export function availability(e: Elements): number | undefined {
  return ratio(e.apt, e.pbt);
}

/** PRI × PQ / APT. */
export function effectiveness(e: Elements): number | undefined {
  return ratio(e.plannedRunTime, e.apt);
}

export function qualityRatio(e: Elements): number | undefined {
  return ratio(e.gq, e.pq);
}

/** Overall equipment effectiveness index: availability × effectiveness × quality ratio. */
export function oee(e: Elements): number | undefined {
  return product(availability(e), effectiveness(e), qualityRatio(e));
}

/** Net equipment effectiveness index: as OEE, but set-up is no loss. */
export function nee(e: Elements): number | undefined {
  return product(ratio(aupt(e), e.pbt), effectiveness(e), qualityRatio(e));
}

export function technicalEfficiency(e: Elements): number | undefined {
  return ratio(e.apt, e.apt + e.adet);
}

export function allocationEfficiency(e: Elements): number | undefined {
  return ratio(aubt(e), e.pbt);
}

export function utilizationEfficiency(e: Elements): number | undefined {
  return ratio(e.apt, aubt(e));
}

export function setupRate(e: Elements): number | undefined {
  return ratio(e.aust, aupt(e));
}

export function scrapRatio(e: Elements): number | undefined {
  return ratio(e.pq - e.gq, e.pq);
}

/** Pieces per minute over the time of an order's execution, here its busy time. */
export function throughputRate(e: Elements): number | undefined {
  return ratio(e.pq, aubt(e));
}

/**
 * Mean time between failures, in minutes of processing. Text books divide by the failures; the standard's formula by
 * one more (from memory). Undefined without a failure: that is no infinity, and not the period's length.
 */
export function mtbf(e: Elements, divisor: 'failures' | 'failuresPlusOne'): number | undefined {
  if (e.failures === 0) return undefined;
  return ratio(aupt(e), divisor === 'failures' ? e.failures : e.failures + 1);
}

export function mttr(e: Elements): number | undefined {
  return ratio(e.restoring, e.failures);
}

function ratio(part: number, whole: number): number | undefined {
  return whole > 0 ? part / whole : undefined;
}

function product(...factors: readonly (number | undefined)[]): number | undefined {
  let result = 1;
  for (const factor of factors) {
    if (factor === undefined) return undefined;
    result *= factor;
  }
  return result;
}
