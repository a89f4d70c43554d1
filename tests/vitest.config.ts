import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = resolve(import.meta.dirname, '..');
/** Generous: a slow machine is no failure. */
const patience = { testTimeout: 300_000, hookTimeout: 300_000, teardownTimeout: 30_000 };

/** These mostly wait for a machine that moves in its own time: begun first, they cost the others nothing. */
const waiting = ['integration/ledger', 'browser/wholeLine', 'gateway/intake', 'integration/', 'browser/'];

class WaitingFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) => {
      const place = waiting.findIndex((part) => moduleId.includes(`/tests/${part}`));
      return place < 0 ? waiting.length : place;
    };
    return [...(await super.sort(files))].sort((a, b) => rank(a) - rank(b));
  }
}

/** One file more at a time than a small machine has cores, because some of them only wait. */
export default defineConfig({
  root,
  cacheDir: 'node_modules/.vitest',
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    maxWorkers: 3,
    sequence: { sequencer: WaitingFirst },
    ...patience,
  },
});
