import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = resolve(import.meta.dirname, '..');
/** Generous: a slow machine is no failure. */
const patience = {
  testTimeout: 300_000,
  hookTimeout: 300_000,
  teardownTimeout: 30_000,
  expect: { poll: { timeout: 60_000 } },
};

/** Begun first: these mostly wait for a machine that moves in its own time, and cost the others little. */
const first = [
  'integration/ledger',
  'browser/wholeLine',
  'gateway/intake/intake',
  'integration/start',
  'gateway/intake/',
  'integration/',
  'browser/',
];

class WaitingFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) => {
      const place = first.findIndex((part) => moduleId.includes(`/tests/${part}`));
      return place < 0 ? first.length : place;
    };
    return [...(await super.sort(files))].sort((a, b) => rank(a) - rank(b));
  }
}

/**
 * What starts whole programs or a browser has a process of its own, and so has the one test whose client writes: the
 * intake takes that from the OPC UA library for its whole process. The rest share theirs, which halves its time.
 */
const apart = [
  'tests/integration/**/*.test.ts',
  'tests/browser/**/*.test.ts',
  'tests/simulator/server/plcServer.test.ts',
];

/** Cuts a link and ends a server in real time, and measures what was missed: it has the machine to itself. */
const alone = ['tests/faults/wire.test.ts'];

/** Two files more at a time than a small machine has cores, because some of them only wait. */
export default defineConfig({
  root,
  cacheDir: 'node_modules/.vitest',
  test: {
    maxWorkers: 4,
    sequence: { sequencer: WaitingFirst },
    projects: [
      { extends: true, test: { name: 'alone', include: alone, ...patience } },
      {
        extends: true,
        test: { name: 'apart', include: apart, sequence: { groupOrder: 1 }, ...patience },
      },
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...apart, ...alone],
          isolate: false,
          sequence: { groupOrder: 1 },
          ...patience,
        },
      },
    ],
  },
});
