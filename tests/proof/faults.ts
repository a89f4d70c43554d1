import { createHash } from 'node:crypto';
import { faultsText } from '../../simulator/faults/language.ts';
import { runFaulted } from '../faults/faultedRun.ts';
import { type Judgement, judge } from '../faults/judge.ts';
import { randomFaults } from '../faults/randomFaults.ts';
import { monday } from '../simulator/simulatedLine.ts';

/** One simulated shift heard through random faults: what was made of it, and all that was wrong with it. */
export interface FaultsRow extends Judgement {
  readonly proof: 'faults';
  readonly seed: number;
  readonly faults: number;
  /** First letters of the hash of the faults as text. */
  readonly text: string;
  readonly equal: boolean;
}

const HOURS = 7.5;
const FAULTS = 10;
/** Five weeks of shifts, 1,050 faults. */
export const SHIFTS = 105;

export async function* faults(): AsyncGenerator<FaultsRow> {
  for (let seed = 1; seed <= SHIFTS; seed += 1) yield await faultsRow(seed);
}

export async function faultsRow(seed: number): Promise<FaultsRow> {
  const happened = randomFaults(seed, FAULTS, HOURS);
  const judged = judge(await runFaulted(seed, HOURS, happened), happened, monday);
  return {
    proof: 'faults',
    seed,
    faults: happened.length,
    text: createHash('sha256').update(faultsText(happened)).digest('hex').slice(0, 16),
    ...judged,
    equal: judged.wrong.length === 0,
  };
}
