import { existsSync, readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { fleetCsv } from '../support/fleet-csv';
import { freshShop, serverProcess } from './support/server';
import { expect, test } from './support/test';

test.beforeAll(() => freshShop());

test('a fleet of 5,000 goes on file in one go, with progress, and comes out again', async ({ page, signIn, accessible }) => {
  test.slow();
  await signIn('dispatcher');
  await page.goto('/customers');
  const onFile = page.getByText(/units on file/);
  const before = Number(/(\d+) units on file/.exec(await onFile.innerText())?.[1]);
  await page.getByRole('link', { name: 'Bring in a sheet' }).click();
  await accessible();
  await page
    .getByLabel('File', { exact: true })
    .setInputFiles({ name: 'fleet.csv', mimeType: 'text/csv', buffer: Buffer.from(fleetCsv(5000)) });
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByRole('heading', { name: 'All of it fits' })).toBeVisible({ timeout: 60_000 });
  await expect(page.getByText('5,000 units with')).toBeVisible();
  await accessible();
  await page.getByRole('button', { name: 'Put 5,000 units on file' }).click();
  await expect(page.getByRole('progressbar')).toBeVisible();
  await expect(page.getByText('Done', { exact: true })).toBeVisible({ timeout: 90_000 });
  await accessible();

  const download = page.waitForEvent('download');
  await page.goto('/customers');
  await expect(onFile).toContainText(`${(before + 5000).toLocaleString('en')} units on file`);
  await page.getByRole('link', { name: 'Export as CSV' }).click();
  const file = await readFile(await (await download).path(), 'utf8');
  expect(file.trim().split('\r\n')).toHaveLength(before + 5000 + 1);
});

test('every bad row is named with its line, its column and what to do; nothing goes on file', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/customers/import');
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByText('Choose a file or paste its lines.')).toBeVisible();

  const lines = fleetCsv(60).replaceAll('Chain', 'Bad chain').replaceAll('T-', 'BT-').split('\r\n');
  lines[4] = (lines[4] ?? '').replace('prep_table', 'pram');
  lines[20] = (lines[20] ?? '').replace(/,38,/, ',999,');
  await page.getByLabel('Or paste the lines').fill(lines.join('\n'));
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByRole('heading', { name: '2 things to mend' })).toBeVisible();
  await expect(page.getByText('Nothing has been written.')).toBeVisible();
  await expect(page.getByRole('row', { name: /^5 kind pram/ })).toBeVisible();
  await expect(page.getByRole('row', { name: /^21 box_f 999 .*-76 to 77/ })).toBeVisible();
  await accessible();

  // What was pasted is still there to be mended.
  const again = page.getByLabel('The lines as you gave them');
  await expect(again).toHaveValue(/pram/);
  await again.fill((await again.inputValue()).replace('pram', 'prep_table').replace(',999,', ',38,'));
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByRole('button', { name: 'Put 60 units on file' })).toBeVisible();
});

test('the template is read without a complaint', async ({ page, signIn }) => {
  await signIn('owner');
  await page.goto('/customers/import');
  const download = page.waitForEvent('download');
  await page.getByRole('link', { name: 'Template with examples' }).click();
  const path = await (await download).path();
  await page
    .getByLabel('File', { exact: true })
    .setInputFiles({ name: 'template.csv', mimeType: 'text/csv', buffer: await readFile(path) });
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByRole('button', { name: 'Put 3 units on file' })).toBeVisible();
});

test('a sheet in a shop’s own words is told what was not understood: column, row and what would be', async ({
  page,
  signIn,
  accessible,
}) => {
  await signIn('dispatcher');
  await page.goto('/customers/import');
  const sheet = [
    ['Client', 'Address', 'Equipment', 'Gas', 'Area', 'Set point', 'Last PM', 'Hours'],
    ['Odd Plate', '1 Mill St', 'REACH‑IN', '404A', 'line', '3 °C', '16. 3. 2026', '06:00–10:30'],
    ['Odd Plate', '', 'Walk - in', '404A', 'line', '36-38', 'spring', ''],
  ];
  await page
    .getByLabel('File', { exact: true })
    .setInputFiles({ name: 'odd.csv', mimeType: 'text/csv', buffer: Buffer.from(sheet.map((row) => row.join(';')).join('\n')) });
  await page.getByRole('button', { name: 'Check it' }).click();
  const told = page.getByRole('listitem');
  await expect(told.filter({ hasText: '“Set point”: Not a set point that can be read' })).toContainText(
    /Understood are .*3 °C\. Row 3\..*36-38/,
  );
  await expect(told.filter({ hasText: '“Last PM”: Not a date that can be read' })).toContainText(
    /Understood are .*16\.3\.2026.*Row 3\..*spring/,
  );
  await expect(page.getByRole('row', { name: /Reach-in/ })).toContainText('2026-03-16');
  await expect(page.getByRole('row', { name: /Walk-in cooler/ })).toBeVisible();
  await accessible();
});

test('a kitchen’s units are typed a line each, looked at, and put on file', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/customers?q=harbour');
  await page.getByRole('link', { name: 'Harbour Hall' }).first().click();
  await page.getByRole('link', { name: 'New unit' }).click();
  await page.getByLabel('A line for each unit').fill('Bait reach-in, 134a, by the fryer, June\nCellar walk-in, 404A, back of house');
  await accessible();
  await page.getByRole('button', { name: 'Look at them' }).click();
  await expect(page.getByRole('row', { name: /Harbour Hall/ }).filter({ hasText: /Bait Reach-in/i })).toContainText('Beside fryer');
  await page.getByRole('button', { name: 'Put 2 units on file' }).click();
  await expect(page.getByText('Done', { exact: true })).toBeVisible();
  await page.goto('/customers?q=bait');
  await expect(page.getByText(/Harbour Hall/).first()).toBeVisible();
});

/** How long the main thread of a process has stood ready without a core so far, ms; 0 where the system does not say. */
const waitedForACore = (pid: number): number => {
  const said = `/proc/${pid}/task/${pid}/schedstat`;
  return existsSync(said) ? Number(readFileSync(said, 'utf8').split(' ')[1]) / 1e6 : 0;
};

// It times the office, so no other journey runs beside it.
test('nobody waits while 20,000 rows of a bad sheet are read', { tag: '@alone' }, async ({ page, signIn }) => {
  test.slow();
  await signIn('dispatcher');
  // A short sheet of the same form first: the code of its pages is loaded once in a server's life, whatever is in a sheet.
  const check = async (rows: string[]) => {
    await page.goto('/customers/import');
    await page
      .getByLabel('File', { exact: true })
      .setInputFiles({ name: 'bad.csv', mimeType: 'text/csv', buffer: Buffer.from(rows.join('\n')) });
    await page.getByRole('button', { name: 'Check it' }).click();
    await expect(page.getByRole('heading', { name: 'to decide' })).toBeVisible({ timeout: 60_000 });
  };
  const junk = (n: number) =>
    `Nobody ${n % 700},Site ${n},${n} Mill St,thing ${n % 3000},gas ${n % 900},${n}#,"${n}/99/${n}",every ${n} moons`;
  const head = 'Customer,Site,Address,Type,Refrig,Chg,Last PM,Freq';
  const rows = Array.from({ length: 20_000 }, (_, n) => junk(n));
  await check([head, ...rows.slice(0, 20)]);
  const server = await serverProcess();
  const held = () => waitedForACore(server) + waitedForACore(process.pid);
  await (await fetch(new URL('/api/health', page.url()))).text();
  const waits: number[] = [];
  const byTheServer: number[] = [];
  let reading = true;
  const knock = (async () => {
    while (reading) {
      const [since, before] = [performance.now(), held()];
      await (await fetch(new URL('/api/health', page.url()))).text();
      const waited = performance.now() - since;
      waits.push(waited);
      byTheServer.push(waited - (held() - before));
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  })();
  await check([head, ...rows]);
  reading = false;
  await knock;
  const words = (all: number[]) =>
    [0.5, 0.95, 1].map((q) => Math.round(all.sort((a, b) => a - b)[Math.ceil(q * all.length) - 1] ?? NaN)).join(' / ');
  console.info(`health, ms: ${words(waits)} of ${waits.length}; but for what other work on the machine took: ${words(byTheServer)}`);
  expect(waits.length).toBeGreaterThan(20);
  // Never more than a tenth of a second, whatever else the machine that tests has to do.
  expect(Math.max(...byTheServer)).toBeLessThan(100);
  expect((await page.content()).length).toBeLessThan(3_000_000);
});
