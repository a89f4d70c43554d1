import { type Killed, killAgainAndAgain } from '../faults/kills.ts';

/** One gateway killed again and again. The moments are real ones, so that no row comes out a second time to the digit. */
export interface KillsRow extends Killed {
  readonly proof: 'kills';
  readonly seed: number;
  readonly equal: boolean;
}

const KILLS = 20;
/** 200 kills. */
export const GATEWAYS = 10;

export async function* kills(): AsyncGenerator<KillsRow> {
  for (let seed = 1; seed <= GATEWAYS; seed += 1) {
    const judged = await killAgainAndAgain(seed, KILLS);
    yield { proof: 'kills', seed, ...judged, equal: judged.wrong.length === 0 };
  }
}
