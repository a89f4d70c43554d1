import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

const root = resolve(import.meta.dirname, '..');
const whole = ['tests/browser/**/*.test.{ts,tsx}', 'tests/integration/**/*.test.{ts,tsx}'];
/** Generous: a slow machine is no failure. */
const patience = { testTimeout: 120_000, hookTimeout: 120_000, teardownTimeout: 30_000 };

/** `unit` first, two files at a time; then `whole`, which starts servers and browsers, one file at a time. */
export default defineConfig({
  root,
  cacheDir: 'node_modules/.vitest',
  test: {
    maxWorkers: 2,
    projects: [
      {
        root,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: whole,
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
          ...patience,
        },
      },
      {
        root,
        test: {
          name: 'whole',
          include: whole,
          maxWorkers: 1,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          ...patience,
        },
      },
    ],
  },
});
