// The picture in the README: the owner's first screen, of the demo shop as it runs.
//   node scripts/readme-picture.mjs --at http://localhost:3000
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { chromium } from '@playwright/test';
import { QUIET_BROWSER } from './support/browser-arguments.mjs';
import { findBrowser } from './support/browser.mjs';
import { inProject } from './support/paths.mjs';

const { at } = parseArgs({ options: { at: { type: 'string', default: 'http://localhost:3000' } } }).values;
const owner = JSON.parse(readFileSync(inProject('prisma/seed/sign-ins.json'), 'utf8')).find((one) => one.role === 'owner');

const browser = await chromium.launch({ executablePath: (await findBrowser()).executablePath, args: [...QUIET_BROWSER] });
try {
  const page = await browser.newPage({
    baseURL: at,
    viewport: { width: 1280, height: 1180 },
    locale: 'en-US',
    timezoneId: 'America/Denver',
  });
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(owner.email);
  await page.getByLabel('Password').fill(owner.password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL('**/owner');
  await page.waitForLoadState('networkidle');
  await page.screenshot({ path: inProject('docs/owner.png') });
} finally {
  await browser.close();
}
