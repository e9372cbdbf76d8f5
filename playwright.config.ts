import { defineConfig } from '@playwright/test';
import { QUIET_BROWSER } from './scripts/support/browser-arguments.mjs';
import { findBrowser } from './scripts/support/browser.mjs';
import { freePortsInARow } from './scripts/support/ports.mjs';

/** A journey waits for its server as often as it works: two keep two cores busy. */
const WORKERS = 2;

// Playwright reads this file again in each of its processes: the first reading decides, the others find it here.
process.env.E2E_CONTROL_PORT ??= String(await freePortsInARow(1 + WORKERS, 4300));
process.env.E2E_PORT ??= String(Number(process.env.E2E_CONTROL_PORT) + 1);
if (process.env.E2E_BROWSER === undefined) process.env.E2E_BROWSER = (await findBrowser({ light: true })).executablePath ?? '';

// Each worker has a server and a database of its own.
const baseURL = `http://localhost:${Number(process.env.E2E_PORT) + Number(process.env.TEST_PARALLEL_INDEX ?? 0)}`;

export default defineConfig({
  testDir: 'tests/e2e',
  outputDir: 'test-results',
  // The journeys of one file share a shop and take turns; files run beside each other.
  workers: WORKERS,
  fullyParallel: false,
  forbidOnly: Boolean(process.env.CI),
  // Chromium closes by itself about once in twenty runs.
  retries: 1,
  timeout: 90_000,
  expect: { timeout: 10_000 },
  reporter: [['list'], ['html', { open: 'never' }]],
  use: {
    baseURL,
    viewport: { width: 1280, height: 800 },
    // A step that cannot be done says so long before the whole journey runs out.
    actionTimeout: 20_000,
    locale: 'en-US',
    timezoneId: 'America/Chicago',
    trace: 'on-first-retry',
    screenshot: 'only-on-failure',
    launchOptions: {
      executablePath: process.env.E2E_BROWSER || undefined,
      args: [...QUIET_BROWSER],
    },
  },
  webServer: {
    command: 'node scripts/e2e-server.mjs',
    url: `http://127.0.0.1:${process.env.E2E_CONTROL_PORT}/ready`,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 20_000 },
    // It may build the app and make the demo shop first.
    timeout: 600_000,
    stdout: 'ignore',
    stderr: 'pipe',
  },
});
