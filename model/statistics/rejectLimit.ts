import { tailOfRejects } from './betaBinomial.ts';

/** The most of a batch that still is normal, and how rare more than that are by chance alone. */
export interface RejectLimit {
  readonly most: number;
  /** Chance of more than `most` in a batch, where nothing but chance is at work: not above what was wished for. */
  readonly byChance: number;
}

/**
 * The limit of a batch that follows from a wanted chance of a false call: the least number of which more come by chance no
 * oftener than that. Exact, by the distribution of `tailOfRejects`; as counts are whole, its own chance is the wanted one or
 * less. `earlier` cartons with `earlierRejects` among them are the past it is held against.
 */
export function rejectLimit(
  cartons: number,
  earlierRejects: number,
  earlier: number,
  wanted: number,
): RejectLimit {
  for (let most = 0; most < cartons; most += 1) {
    const byChance = tailOfRejects(most + 1, cartons, earlierRejects, earlier);
    if (byChance <= wanted) return { most, byChance };
  }
  return { most: cartons, byChance: 0 };
}
