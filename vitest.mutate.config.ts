import path from 'node:path';
import { defineConfig } from 'vitest/config';
import { TOO_SLOW } from './scripts/support/mutation-rooms.mjs';

// What `npm run mutate` runs against each mistake: the tests that its room names, and nothing else.
const integration = process.env.MUTATE_PROJECT === 'integration';

export default defineConfig({
  resolve: { alias: { '@': import.meta.dirname, 'server-only': path.join(import.meta.dirname, 'tests/support/server-only.ts') } },
  test: {
    include: (process.env.MUTATE_TESTS ?? '').split(',').filter(Boolean),
    exclude: TOO_SLOW,
    setupFiles: ['scripts/support/mutation-setup.mjs', 'tests/support/setup.ts'],
    globalSetup: integration ? ['tests/support/database-global.ts'] : [],
    testTimeout: 240_000,
    hookTimeout: 240_000,
    maxWorkers: 1,
    // scripts/support/mutation-runner.mjs decides when modules are read anew.
    isolate: false,
  },
});
