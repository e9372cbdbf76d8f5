import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium, type BrowserContext, type Locator, type Page } from '@playwright/test';
import { build } from 'esbuild';
import sharp from 'sharp';
import { QUIET_BROWSER } from '../../scripts/support/browser-arguments.mjs';
import { findBrowser } from '../../scripts/support/browser.mjs';
import { cookieNames } from '../../lib/core/people/cookies';
import { openOffice, type BenchOffice } from './office';
import { isOfFleet } from '../../tests/support/round-scripts';

const SLOWER = 4;
const PHOTOS = 60;
/** Each time with a browser just started; the figures are medians. */
const TIMES = 5;

export type RoundFigures = {
  coldOpenMs: number;
  /** Each kind's slowest answer in one go, in ms; the median of the goes: one hiccup of the machine is not the app's. */
  taps: Taps;
  scriptKb: number;
  syncSeconds: number;
  /** The same browser, as slow, with next to nothing to do; and the same photos without a browser. */
  bare: { openMs: number; tapMs: number; encodeSeconds: number };
};
type Taps = ReadonlyMap<string, number>;

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? NaN;

/** The technician's side in a real browser, its processor slowed four times. */
export async function measureRound(): Promise<RoundFigures> {
  const office = await openOffice();
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-bench-'));
  let tablet = await open(folder, office);
  try {
    const page = await fetchRound(tablet, office);
    const scriptKb = await scripts(page);
    const picture = await photograph();
    const syncSeconds = await wholeRound(page, office, picture);
    await office.stop();
    const opened: number[] = [];
    const taps: Taps[] = [];
    const bare: { openMs: number; tapMs: number }[] = [];
    for (let n = 0; n < TIMES; n++) {
      await tablet.close();
      tablet = await open(folder, office);
      bare.push(await bareOnes(tablet));
      await tablet.close();
      tablet = await open(folder, office);
      opened.push(await coldOpen(tablet, office));
      taps.push(await tapThrough(tablet, n));
    }
    return {
      coldOpenMs: median(opened),
      taps: new Map([...(taps[0]?.keys() ?? [])].map((kind) => [kind, median(taps.map((go) => go.get(kind) ?? NaN))])),
      scriptKb,
      syncSeconds,
      bare: {
        openMs: median(bare.map((b) => b.openMs)),
        tapMs: median(bare.map((b) => b.tapMs)),
        encodeSeconds: await encodeAll(picture),
      },
    };
  } finally {
    await tablet.close();
    await office.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function open(folder: string, office: BenchOffice): Promise<BrowserContext> {
  const { executablePath } = await findBrowser();
  const tablet = await chromium.launchPersistentContext(folder, {
    executablePath: executablePath || undefined,
    viewport: { width: 834, height: 1112 },
    args: [...QUIET_BROWSER],
  });
  await tablet.addCookies([{ name: cookieNames('http:').session, value: office.cookie, url: office.base }]);
  return tablet;
}

async function slowPage(tablet: BrowserContext): Promise<Page> {
  const page = tablet.pages()[0] ?? (await tablet.newPage());
  await (await tablet.newCDPSession(page)).send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  return page;
}

async function fetchRound(tablet: BrowserContext, office: BenchOffice): Promise<Page> {
  const page = await slowPage(tablet);
  await page.goto(`${office.base}/round`);
  await page.getByText('All in the office').waitFor({ timeout: 120_000 });
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  return page;
}

/** The round's code, all of it, and the numbers of the refrigerants of one fleet. */
async function scripts(page: Page): Promise<number> {
  const names = await page.evaluate(async () => {
    const kept: string[] = [];
    for (const name of await caches.keys()) for (const r of await (await caches.open(name)).keys()) kept.push(r.url);
    return kept.filter((url) => new URL(url).pathname.startsWith('/round-app/') && new URL(url).pathname.endsWith('.js'));
  });
  const needed = names.filter(isOfFleet);
  if (needed.length < 4) throw new Error('The service worker keeps no script of the round.');
  const sizes = await Promise.all(needed.map(async (url) => gzipSync(Buffer.from(await (await page.request.get(url)).body())).byteLength));
  return sizes.reduce((a, b) => a + b, 0) / 1000;
}

/** Eight visits of twelve units written with the network off, then sent. */
async function wholeRound(page: Page, office: BenchOffice, picture: string): Promise<number> {
  const bundle = await build({
    entryPoints: [path.join(import.meta.dirname, 'tablet-in-page.ts')],
    bundle: true,
    write: false,
    format: 'iife',
    tsconfig: path.resolve(import.meta.dirname, '../../tsconfig.json'),
  });
  await page.goto(`${office.base}/manifest.webmanifest`);
  await page.evaluate(bundle.outputFiles[0]?.text ?? '');
  const { entries } = await page.evaluate(([picture, n]) => window.writeRound(picture as string, n as number), [picture, PHOTOS] as const);
  const { ms, trouble } = await page.evaluate(() => window.sendRound());
  const [filed, pictures] = [await office.db.entry.count(), await office.db.photo.count({ where: { fileId: { not: null } } })];
  if (filed !== entries || pictures !== PHOTOS)
    throw new Error(`The office has ${filed} of ${entries} entries and ${pictures} of ${PHOTOS} photos; ${trouble}`);
  return ms / 1000;
}

/** As the tablet shrinks one: 1,600 pixels, some hundred kilobytes. */
async function photograph(): Promise<string> {
  const fins = Array.from({ length: 200 }, (_, i) => `<path d="M${i * 8} 0V1200" stroke="hsl(${i * 7} 40% ${30 + (i % 5) * 8}%)"/>`).join(
    '',
  );
  const grease = await sharp({
    create: {
      width: 1600,
      height: 1200,
      channels: 3,
      background: '#87684a',
      noise: { type: 'gaussian', mean: 120, sigma: 18 },
    },
  })
    .png()
    .toBuffer();
  const bytes = await sharp(grease)
    .composite([{ input: Buffer.from(`<svg width="1600" height="1200"><g stroke-width="3" opacity="0.6">${fins}</g></svg>`) }])
    .jpeg({ quality: 60 })
    .toBuffer();
  return bytes.toString('base64');
}

const SHOWN = 'shown after';
// As text: what a compiler adds to functions is not there in the page. Looking on every frame would slow what it measures,
// and so would a locator or a wait: 330 kB of script, worked through in the page while it opens. So the page says it itself.
const WHEN_SHOWN = `new MutationObserver(function () {
  if (window.shownAt || !document.querySelector('h1')) return;
  window.shownAt = 0.001;
  requestAnimationFrame(() => setTimeout(() => console.info('${SHOWN}', (window.shownAt = performance.now()))));
}).observe(document, { childList: true, subtree: true });`;

/** From the tap on a bookmark to the visit on the screen, with no office to ask. */
async function coldOpen(tablet: BrowserContext, office: BenchOffice): Promise<number> {
  return shownAt(await slowPage(tablet), `${office.base}/round#/visit/${office.visitId}`);
}

async function shownAt(page: Page, address: string): Promise<number> {
  await page.addInitScript({ content: WHEN_SHOWN });
  const said = page.waitForEvent('console', (m) => m.text().startsWith(SHOWN));
  await page.goto(address, { waitUntil: 'commit' });
  return Number((await said).text().slice(SHOWN.length));
}

// As text, for the same reason as above. From the touch to the next picture on the screen.
const LISTEN_FOR_TAPS = `window.slowest = 0;
new PerformanceObserver((list) => {
  for (const e of list.getEntries()) if (e.name === 'click' || e.name === 'pointerup') window.slowest = Math.max(window.slowest, e.duration);
}).observe({ type: 'event', durationThreshold: 16 });`;
const UNIT_OPENED = `new Promise((seen) => {
  let touched = 0;
  addEventListener('click', (e) => (touched = e.timeStamp), { capture: true, once: true });
  new MutationObserver((_, me) => {
    if (!document.querySelector('nav[aria-label="Steps of the work"]')) return;
    me.disconnect();
    requestAnimationFrame(() => setTimeout(() => seen(performance.now() - touched)));
  }).observe(document, { childList: true, subtree: true });
})`;

/** Opens the n-th unit and presses grades and the number pad, with the estimate as it is typed. */
async function tapThrough(tablet: BrowserContext, n: number): Promise<Taps> {
  const page = tablet.pages()[0] as Page;
  const taps = new Map<string, number>();
  const note = (kind: string, ms: number) => taps.set(kind, Math.max(taps.get(kind) ?? 0, ms));
  await page.waitForTimeout(1500);
  await page.evaluate(`window.opened = ${UNIT_OPENED}; undefined`);
  // The mouse alone here too.
  const row = await page.locator('main a[href*="/unit/"]').nth(n).boundingBox();
  if (!row) throw new Error('There is no unit to open.');
  await page.mouse.click(row.x + row.width / 2, row.y + row.height / 2);
  note('unit', await page.evaluate(() => (window as unknown as { opened: Promise<number> }).opened));
  const at = (step: string) => page.getByRole('navigation', { name: 'Steps of the work' }).getByRole('link', { name: step }).click();
  await at('Lock out, look and clean');
  await page.getByRole('button', { name: 'One by one' }).click();
  await page.evaluate(LISTEN_FOR_TAPS);
  const press = async (kind: string, button: Locator) => note(kind, await pressed(page, button));
  for (const aspect of ['Condenser fan', 'Gaskets'])
    await press('grade', page.getByRole('group', { name: aspect, exact: true }).getByRole('button').first());
  await at('Power back, wait, read');
  for (const [field, number] of [
    ['Air into the coil', '86'],
    ['Head pressure', '140'],
  ] as const) {
    await press('pad', page.locator('#readings-after').getByRole('button', { name: new RegExp(`^${field}`) }));
    const pad = page.getByRole('group', { name: `Number pad: ${field}` });
    for (const key of number) await press('key', pad.getByRole('button', { name: key, exact: true }));
  }
  return taps;
}

/** How long the picture took to answer one press, in ms. */
async function pressed(page: Page, button: Locator): Promise<number> {
  await button.scrollIntoViewIfNeeded();
  // A finger comes after the eye: the page has come to rest.
  await page.waitForTimeout(300);
  const box = await button.boundingBox();
  if (!box) throw new Error('There is nothing to press.');
  // The mouse alone: a locator's own checks would run within the event.
  await page.evaluate(() => void ((window as unknown as { slowest: number }).slowest = 0));
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await page.waitForTimeout(400);
  // Quicker than 16 ms is not reported.
  return Math.max(16, await page.evaluate(() => (window as unknown as { slowest: number }).slowest));
}

const BARE = `data:text/html,<!doctype html><title>Bare</title><h1>Visit</h1><button onclick="this.textContent = 'Pressed'">Press</button>`;

async function bareOnes(tablet: BrowserContext) {
  const page = await slowPage(tablet);
  const openMs = await shownAt(page, BARE);
  await page.evaluate(LISTEN_FOR_TAPS);
  return { openMs, tapMs: await pressed(page, page.getByRole('button')) };
}

/** What the office cannot do without: every photo read, turned upright and written anew, one after the other. */
async function encodeAll(picture: string): Promise<number> {
  const began = performance.now();
  for (let n = 0; n < PHOTOS; n++) await sharp(Buffer.from(picture, 'base64')).rotate().jpeg({ quality: 80 }).toBuffer();
  return (performance.now() - began) / 1000;
}
