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

/**
 * What starts processes, opens ports or changes a library for the whole process has one of its own; the rest share theirs,
 * which halves its time.
 */
const apart = ['integration', 'browser', 'gateway/intake', 'simulator/server'];
const apartFiles = apart.map((folder) => `tests/${folder}/**/*.test.{ts,tsx}`);

/** One file more at a time than a small machine has cores, because some of them only wait. */
export default defineConfig({
  root,
  cacheDir: 'node_modules/.vitest',
  test: {
    maxWorkers: 3,
    sequence: { sequencer: WaitingFirst },
    projects: [
      { extends: true, test: { name: 'apart', include: apartFiles, ...patience } },
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: apartFiles,
          isolate: false,
          ...patience,
        },
      },
    ],
  },
});
