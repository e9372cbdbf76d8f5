import { expect, test } from './support/test';
import { freshShop } from './support/server';

test.beforeAll(() => freshShop());

const TIME = /\d{1,2}:\d\d [AP]M/;

test('an emergency is squeezed in: a visit makes room, its history says why, its kitchen is told', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/week');
  await page.getByRole('link', { name: 'Find a time' }).click();
  await expect(page.getByRole('heading', { name: 'Find a time for an emergency' })).toBeVisible();
  await accessible();

  await page.getByLabel('What is wrong').fill('Walk-in at 52 °F and climbing');
  await page.getByLabel('Length').fill('5');
  // By keyboard: choosing a kitchen brings its units, and keeps what was typed.
  await page.getByLabel('Kitchen', { exact: true }).selectOption({ label: 'Nine Lanterns, Pearl Row' });
  await expect(page.getByRole('group', { name: 'Units' })).toBeVisible();
  await page.getByRole('button', { name: 'Look for times' }).press('Enter');
  await expect(page.getByText('At least 10 minutes.')).toBeVisible();
  await expect(page.getByLabel('What is wrong')).toHaveValue('Walk-in at 52 °F and climbing');

  await page.getByLabel('Length').fill('240');
  await page.getByRole('group', { name: 'Units' }).getByRole('checkbox').first().press('Space');
  await page.getByRole('button', { name: 'Look for times' }).press('Enter');
  const offers = page.getByRole('region', { name: /ways?,? ?/ });
  await expect(offers.getByRole('heading', { level: 2 })).toBeFocused();
  await accessible();

  // Four hours do not fit between the visits of every round.
  const offer = offers
    .getByRole('listitem')
    .filter({ has: page.getByRole('button', { name: /^Book/ }) })
    .filter({ hasText: 'goes from' })
    .first();
  const sentence =
    (await offer
      .getByText(/goes from/)
      .first()
      .textContent()) ?? '';
  const [, was] = /goes from .*?, (\d{1,2}:\d\d [AP]M) to/.exec(sentence) ?? [];
  expect(was, sentence).toMatch(TIME);
  const moved = (await offer.getByRole('listitem').first().getByRole('link').getAttribute('href')) ?? '';

  await page.setViewportSize({ width: 390, height: 844 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  await accessible();
  await page.setViewportSize({ width: 1280, height: 800 });

  await offer.getByRole('button', { name: /^Book/ }).press('Enter');
  await expect(page).toHaveURL(/\/week\/[0-9a-f-]{36}$/, { timeout: 30_000 });
  await expect(page.getByRole('heading', { name: 'Pearl Row', level: 1 })).toBeVisible();
  await expect(page.getByText('Emergency: Walk-in at 52 °F and climbing').first()).toBeVisible();
  await page.getByRole('link', { name: 'The week', exact: true }).click();
  await expect(page.getByRole('link', { name: /Pearl Row.*Emergency/ })).toBeVisible();

  await page.goto(moved);
  const history = page.locator('section', { has: page.getByRole('heading', { name: 'History' }) });
  await expect(history.getByText('Moved', { exact: true })).toBeVisible();
  await expect(history.getByText(/Made room for an emergency at Nine Lanterns, Pearl Row/)).toBeVisible();
  await expect(page.getByRole('button', { name: new RegExp(`^Move back to .*${was}$`) })).toBeVisible();
  await accessible();

  await page.goto('/outbox');
  await expect(page.getByText(/Visit moved/).first()).toBeVisible();
  await expect(page.getByText(/Visit booked: Nine Lanterns, Pearl Row/).first()).toBeVisible();
});
