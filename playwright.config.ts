import { defineConfig } from '@playwright/test';
import { QUIET_BROWSER } from './scripts/support/browser-arguments.mjs';
import { findBrowser } from './scripts/support/browser.mjs';
import { freePort } from './scripts/support/ports.mjs';

// Playwright reads this file again in each of its processes: the first reading decides, the others find it here.
process.env.E2E_PORT ??= String(await freePort(4301));
process.env.E2E_CONTROL_PORT ??= String(await freePort(Number(process.env.E2E_PORT) + 1));
if (process.env.E2E_BROWSER === undefined) process.env.E2E_BROWSER = (await findBrowser()).executablePath ?? '';

const baseURL = `http://localhost:${process.env.E2E_PORT}`;

export default defineConfig({
  testDir: 'tests/e2e',
  outputDir: 'test-results',
  // One server and one database: the journeys take turns.
  workers: 1,
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
    url: `http://127.0.0.1:${process.env.E2E_PORT}/api/health`,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 20_000 },
    // It may build the app and make the demo shop first.
    timeout: 600_000,
    stdout: 'ignore',
    stderr: 'pipe',
  },
});
