import { readdirSync, readFileSync } from 'node:fs';
import { chromium, expect, test, type BrowserContext, type Locator, type Page } from '@playwright/test';
import encodeQR from 'qr';
import sharp from 'sharp';
import { QUIET_BROWSER } from '../../../scripts/support/browser-arguments.mjs';

export const TABLET = { width: 834, height: 1112 };

/** A tablet with a disk of its own, which outlives the browser on it; `sees` is what its camera shows, a Y4M file. */
export async function openTablet(folder: string, sees?: string): Promise<BrowserContext> {
  const tablet = await chromium.launchPersistentContext(folder, {
    executablePath: process.env.E2E_BROWSER || undefined,
    viewport: TABLET,
    baseURL: test.info().project.use.baseURL,
    locale: 'en-US',
    timezoneId: 'America/Denver',
    args: [
      ...QUIET_BROWSER,
      ...(sees
        ? ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${sees}`]
        : []),
    ],
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
export const unitLinks = (page: Page): Locator =>
  page.locator('section', { has: page.getByRole('heading', { name: 'On this visit' }) }).locator('a[href*="/unit/"]');

export type Step = 'Read while it runs' | 'Lock out, look and clean' | 'Power back, wait, read' | 'Leave the unit';

/** Goes to a step of the unit in hand. */
export async function atStep(page: Page, step: Step): Promise<void> {
  const link = page.getByRole('navigation', { name: 'Steps of the work' }).getByRole('link', { name: step });
  await link.click();
  await expect(link).toHaveAttribute('aria-current', 'step');
}

/** Opens the n-th unit of the visit, at a step of its work. */
export async function openUnit(page: Page, n = 0, step: Step = 'Read while it runs'): Promise<void> {
  await unitLinks(page).nth(n).click();
  await atStep(page, step);
}

/** A film of one still: the label as a hand-held camera sees it, askew, grey and a little out of focus. YUV4MPEG2, luma only. */
export async function filmOfLabel(address: string): Promise<Buffer> {
  const [width, height] = [640, 480];
  const rows = encodeQR(address, 'raw', { ecc: 'medium', border: 4 });
  const side = rows.length;
  const squares = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  const label = Buffer.from(
    `<svg xmlns="http://www.w3.org/2000/svg" width="260" height="260" viewBox="0 0 ${side} ${side}"><rect width="${side}" height="${side}" fill="#cfc8b8"/><path d="${squares}" fill="#2a2622"/></svg>`,
  );
  const askew = await sharp(label).rotate(17, { background: '#7d7468' }).toBuffer();
  const luma = await sharp({ create: { width, height, channels: 3, background: '#7d7468' } })
    .composite([{ input: askew, left: 200, top: 60 }])
    .removeAlpha()
    .blur(1.2)
    .greyscale()
    .raw()
    .toBuffer();
  return Buffer.concat([
    Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\nFRAME\n`),
    luma,
    Buffer.alloc((width * height) / 2, 128),
  ]);
}

/** Types on the pad beside the fields. */
export async function typeReading(card: Locator, field: string, text: string): Promise<void> {
  const page = card.page();
  await card.getByRole('button', { name: new RegExp(`^${field}`) }).click();
  const pad = page.getByRole('group', { name: `Number pad: ${field}` });
  for (const key of text) await pad.getByRole('button', { name: key === '.' ? 'Point' : key, exact: true }).click();
}

export async function grade(page: Page, aspect: string, label: string): Promise<void> {
  const folded = page.getByRole('button', { name: 'One by one' });
  if ((await page.getByRole('group', { name: aspect, exact: true }).count()) === 0) await folded.click();
  await page
    .getByRole('group', { name: aspect, exact: true })
    .first()
    .getByRole('button', { name: new RegExp(`^${label}`) })
    .click();
  await expect(page.getByRole('heading', { name: aspect, exact: true })).toBeVisible();
}

/** A picture as a camera makes it, with a place in it. */
export function photograph(width = 1200): Promise<Buffer> {
  const fins = Array.from({ length: 40 }, (_, i) => `<path d="M${i * 30} 0V900"/>`).join('');
  return sharp({ create: { width, height: 900, channels: 3, background: '#87684a' } })
    .composite([
      { input: Buffer.from(`<svg width="1200" height="900"><g stroke="#222" stroke-width="11">${fins}</g></svg>`), gravity: 'northwest' },
    ])
    .jpeg()
    .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '39/1 44/1 30/1', GPSLongitudeRef: 'W', GPSLongitude: '104/1 59/1 0/1' } })
    .toBuffer();
}

type OfficeAnswer = {
  changed: {
    id: string;
    status: string;
    entries: Record<string, { id: string }[]> & { signature: unknown };
    tasks: { unitId: string; outcome: string }[];
    units: { id: string; name: string; kind: string; circuitAccess: string }[];
  }[];
};
/** What the office holds of the round, asked as a tablet that knows nothing. */
export async function officeSays(page: Page): Promise<OfficeAnswer> {
  const reply = await page.request.get(`/api/sync/round?device=${crypto.randomUUID()}`);
  expect(reply.ok()).toBe(true);
  return (await reply.json()) as OfficeAnswer;
}
