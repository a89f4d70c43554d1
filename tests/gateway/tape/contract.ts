import { describe } from 'vitest';
import { changesContract } from './contractChanges.ts';
import { historiesContract } from './contractHistories.ts';
import { statesContract } from './contractStates.ts';
import { CEILING, type Store, storesOf } from './contractStores.ts';

/** What holds for every engine of the tape. */
export function tapeContract(engine: string, makeStore: () => Promise<Store>): void {
  describe(`the tape on ${engine}`, { timeout: CEILING }, () => {
    const stores = storesOf(makeStore);
    changesContract(stores);
    historiesContract(stores);
    statesContract(stores);
  });
}
