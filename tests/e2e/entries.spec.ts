import { ENTRY_VERSION } from '@/lib/core/tablet';
import { expect, SIGN_INS, test, type Page } from './support/test';
import { freshShop } from './support/server';

test.beforeAll(() => freshShop());

const technician = SIGN_INS.find((p) => p.role === 'technician')?.name ?? '';

/** A tablet of its own hands in a part used on a visit that the office does not have. */
const handIn = (page: Page) =>
  page.evaluate(async (version) => {
    const device = { id: crypto.randomUUID(), name: 'Tablet', appVersion: 'test' };
    const round = await (
      await fetch(`/api/sync/round?${new URLSearchParams({ device: device.id, name: '', app: '', cursor: '' })}`)
    ).json();
    const now = new Date().toISOString();
    const op = {
      id: crypto.randomUUID(),
      seq: 1,
      kind: 'part.use',
      version,
      visitId: crypto.randomUUID(),
      madeAt: now,
      basedOn: now,
      payload: { unitId: null, what: 'Belt A38', quantity: 2 },
    };
    const body = JSON.stringify({ device: { ...device, holder: round.me.userId }, sentAt: now, entries: [op] });
    const reply = await fetch('/api/sync', { method: 'POST', headers: { 'content-type': 'application/json' }, body });
    return ((await reply.json()) as { results: { outcome: string }[] }).results[0]?.outcome;
  }, ENTRY_VERSION);

test('an entry that could not be filed stands before the office until someone has looked at it', async ({
  page,
  signIn,
  accessible,
  expectMessage,
}) => {
  expectMessage(/403.*\/entries/);
  await signIn('technician');
  await page.goto('/round');
  expect(await handIn(page)).toBe('rejected');
  await page.goto('/entries');
  await expect(page.getByRole('heading', { name: 'Not for this sign-in' })).toBeVisible();

  await page.context().clearCookies();
  await signIn('dispatcher');
  await page.goto('/due');
  await page.getByRole('link', { name: '1 entry to look at' }).click();
  const entry = page.getByRole('listitem').filter({ hasText: 'Belt A38' });
  await expect(entry).toContainText('Part used: could not be filed');
  await expect(entry).toContainText(technician);
  await accessible();
  await page.setViewportSize({ width: 390, height: 800 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await entry.getByLabel('What was done, if anything').fill('Rang the kitchen, added to the invoice');
  await entry.getByRole('button', { name: 'Looked at' }).click();
  await expect(page.getByText('Nothing waits.')).toBeVisible();
  await page.getByRole('link', { name: 'Looked at' }).click();
  await expect(entry).toContainText('Rang the kitchen, added to the invoice');
  await accessible();
  await page.goto('/due');
  await expect(page.getByRole('link', { name: /to look at/ })).toHaveCount(0);
});
