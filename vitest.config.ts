import os from 'node:os';
import path from 'node:path';
import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/support/longest-first';

const alias = {
  '@': import.meta.dirname,
  'server-only': path.join(import.meta.dirname, 'tests/support/server-only.ts'),
};

// `isolate: false`: the files of one worker share a process and what they import. A new process for each, and reading everything
// anew, took a quarter of the time. A file that needs its modules fresh says so (`vi.hoisted(() => vi.resetModules())`).
export default defineConfig({
  resolve: { alias },
  test: {
    // Vitest keeps one core for itself, which is half of the two that the checks run on.
    maxWorkers: os.availableParallelism(),
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        resolve: { alias },
        test: {
          name: 'unit',
          isolate: false,
          testTimeout: 60_000,
          include: ['tests/unit/**/*.test.{ts,tsx}', 'tests/plant/**/*.test.ts'],
          setupFiles: ['tests/support/setup.ts'],
        },
      },
      {
        resolve: { alias },
        test: {
          name: 'reference',
          include: ['tests/reference/**/*.test.ts'],
          setupFiles: ['tests/support/setup.ts'],
          testTimeout: 120_000,
        },
      },
      {
        resolve: { alias },
        test: {
          name: 'integration',
          isolate: false,
          include: ['tests/integration/**/*.test.ts'],
          setupFiles: ['tests/support/setup.ts'],
          globalSetup: ['tests/support/database-global.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
