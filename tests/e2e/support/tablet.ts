import { readdirSync, readFileSync } from 'node:fs';
import { chromium, expect, type BrowserContext, type Locator, type Page } from '@playwright/test';
import sharp from 'sharp';

export const TABLET = { width: 834, height: 1112 };

/** A tablet with a disk of its own, which outlives the browser on it. */
export async function openTablet(folder: string): Promise<BrowserContext> {
  const tablet = await chromium.launchPersistentContext(folder, {
    executablePath: process.env.E2E_BROWSER || undefined,
    viewport: TABLET,
    baseURL: `http://localhost:${process.env.E2E_PORT}`,
    locale: 'en-US',
    timezoneId: 'America/Denver',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-dev-shm-usage'],
  });
  tablet.setDefaultTimeout(20_000);
  return tablet;
}

/** Dropped on the floor: the browser is killed without a chance to tidy up. */
export async function drop(tablet: BrowserContext, folder: string): Promise<void> {
  const closed = new Promise<void>((resolve) => tablet.once('close', () => resolve()));
  for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    const command = commandLine(pid);
    if (command.includes(folder) && !command.includes('--type=')) process.kill(Number(pid), 'SIGKILL');
  }
  await closed;
}

function commandLine(pid: string): string {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'utf8');
  } catch {
    // It ended while we looked.
    return '';
  }
}

/** Opens the round with signal and waits until it and its shell are on the tablet. */
export async function fetchRound(page: Page): Promise<void> {
  await page.goto('/round');
  await expect(page.getByText('All in the office')).toBeVisible({ timeout: 60_000 });
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
}

export const visitLinks = (page: Page): Locator => page.locator('main a[href^="#/visit/"]', { hasText: 'Booked' });
export const unitLinks = (page: Page): Locator => page.locator('section', { has: page.getByRole('heading', { name: 'On this visit' }) }).locator('a[href*="/unit/"]');

/** Opens the n-th unit of the visit and waits until its long page stands whole. */
export async function openUnit(page: Page, n = 0): Promise<void> {
  await unitLinks(page).nth(n).click();
  await page.locator('#photos').waitFor();
}

/** Types on the tablet's own number pad. */
export async function typeReading(card: Locator, field: string, text: string): Promise<void> {
  const page = card.page();
  await card.getByRole('button', { name: new RegExp(`^${field}`) }).click();
  const pad = page.getByRole('dialog', { name: field });
  for (const key of text) await pad.getByRole('button', { name: key === '.' ? 'Point' : key, exact: true }).click();
  await pad.getByRole('button', { name: 'Done', exact: true }).click();
}

export async function grade(page: Page, aspect: string, label: string): Promise<void> {
  await page.getByRole('group', { name: aspect, exact: true }).first().getByRole('button', { name: new RegExp(`^${label}`) }).click();
  await expect(page.getByRole('heading', { name: aspect, exact: true })).toBeVisible();
}

/** A picture as a camera makes it, with a place in it. */
export function photograph(width = 1200): Promise<Buffer> {
  const fins = Array.from({ length: 40 }, (_, i) => `<path d="M${i * 30} 0V900"/>`).join('');
  return sharp({ create: { width, height: 900, channels: 3, background: '#87684a' } })
    .composite([{ input: Buffer.from(`<svg width="1200" height="900"><g stroke="#222" stroke-width="11">${fins}</g></svg>`), gravity: 'northwest' }])
    .jpeg()
    .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '39/1 44/1 30/1', GPSLongitudeRef: 'W', GPSLongitude: '104/1 59/1 0/1' } })
    .toBuffer();
}

type Told = { changed: { id: string; status: string; entries: Record<string, { id: string }[]> & { signature: unknown }; tasks: { outcome: string }[]; units: { id: string; name: string }[] }[] };
/** What the office holds of the round, asked as a tablet that knows nothing. */
export async function officeSays(page: Page): Promise<Told> {
  const reply = await page.request.get(`/api/sync/round?device=${crypto.randomUUID()}`);
  expect(reply.ok()).toBe(true);
  return (await reply.json()) as Told;
}
