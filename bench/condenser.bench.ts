import path from 'node:path';
import { chromium } from '@playwright/test';
import { build } from 'esbuild';
import { analyseLog, readHeader, readRow, type LogRow } from '../checks/logger-file';
import { QUIET_BROWSER } from '../scripts/support/browser-arguments.mjs';
import { findBrowser } from '../scripts/support/browser.mjs';
import { oneEstimate } from './estimate-speed';
import type { BenchRow } from './types';

const SLOWER = 4;

/** The same in a browser whose processor is slowed four times, as a tablet's. */
async function onTablet(full: boolean): Promise<{ value: number }> {
  const entry = path.resolve(import.meta.dirname, 'estimate-speed.ts');
  const { outputFiles } = await build({ entryPoints: [entry], bundle: true, write: false, format: 'iife', globalName: 'speed' });
  const { executablePath } = await findBrowser();
  const browser = await chromium.launch({ executablePath: executablePath || undefined, args: [...QUIET_BROWSER] });
  try {
    const page = await browser.newPage();
    await (await page.context().newCDPSession(page)).send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    await page.addScriptTag({ content: outputFiles[0]?.text ?? '' });
    return { value: await page.evaluate<number>(`speed.oneEstimate(${full})`) };
  } finally {
    await browser.close();
  }
}

/** 100,000 rows from cells to results, as the script does it. */
async function logRows(): Promise<{ value: number }> {
  const header = readHeader('unit,timestamp,refrigerant,head_kpa_abs,suction_kpa_abs,air_in_c,liquid_c,state'.split(','));
  const cells = Array.from({ length: 100_000 }, (_, i) => {
    const air = 22 + 8 * Math.sin(i / 30);
    const day = new Date(Date.UTC(2026, 0, 1) + i * 900_000).toISOString().slice(0, 16);
    const head = (2000 + 55 * (air - 22) + (i % 7)) * (i % 1000 < 500 ? 1 : 1.15);
    return ['A', day, 'R410A', head.toFixed(1), '980', air.toFixed(2), (air + 8).toFixed(2), i % 1000 < 500 ? 'clean' : 'dirty'];
  });
  const start = performance.now();
  const rows = cells.map((c, i) => readRow(header, c, i + 2).row).filter((r): r is LogRow => r !== null);
  const results = analyseLog(rows);
  if (results.filter((r) => r.status === 'ok').length < 90_000) throw new Error('rows were not worked out');
  return { value: (performance.now() - start) / 1000 };
}

export const rows: BenchRow[] = [
  {
    name: 'Estimate with bands, head and air only (R-448A)',
    unit: 'ms',
    target: '< 2 ms',
    run: async () => ({ value: oneEstimate(false) }),
  },
  {
    name: 'Estimate with bands, everything measured (R-448A)',
    unit: 'ms',
    target: '< 2 ms',
    run: async () => ({ value: oneEstimate(true) }),
  },
  {
    name: 'Estimate on a tablet slowed four times, everything measured',
    unit: 'ms',
    target: '< 20 ms',
    run: () => onTablet(true),
  },
  { name: '100,000 logged rows, one core', unit: 's', target: '< 60 s', run: logRows },
];
