import { addDays, instantOf, todayIn, weekdayOf } from '../../lib/core/calendar';
import { expect, test, type Page } from './support/test';
import { freshShop } from './support/server';

// Five past ten at the kitchen, on a day that people work.
const ZONE = 'America/Denver';
const today = todayIn(ZONE, Date.now());
const workday = addDays(today, [0, 0, 0, 0, 0, 2, 1][weekdayOf(today)] ?? 0);
test.beforeAll(() => freshShop({ clock: new Date(instantOf(workday, '10:05', ZONE)).toISOString() }));
test.describe.configure({ timeout: 240_000 });

const WORDS = 'Walk-in is at 52 °F and dripping';

const looked = async (page: Page, accessible: () => Promise<void>) => {
  for (const width of [1280, 834, 390]) {
    await page.setViewportSize({ width, height: 900 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `${page.url()} at ${width}`).toBe(0);
    await accessible();
  }
  await page.setViewportSize({ width: 1280, height: 900 });
};

test('a kitchen that rings is found, its call taken, and who can be there is told at once', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/jobs');
  await expect(page.getByRole('heading', { name: 'Waits for: the customer’s answer' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Waits for: a part' })).toBeVisible();
  await looked(page, accessible);

  // Found by two words, one of the customer and one of the kitchen.
  await page.getByRole('link', { name: 'Take a call' }).click();
  await page.getByRole('searchbox').fill('lanterns pearl');
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await expect(page.getByText('Last there')).toBeVisible();
  await looked(page, accessible);
  await page.getByRole('button', { name: 'Take the call' }).click();
  await expect(page.getByText('Say how soon.')).toBeVisible();
  await page.getByLabel('What is wrong').fill(WORDS);
  await page.getByLabel('Now: food at risk').check();
  await page
    .getByRole('group', { name: 'Units of the kitchen' })
    .getByRole('checkbox', { name: /Walk-in cooler/ })
    .check();
  await page.getByRole('button', { name: 'Take the call' }).click();

  // Who can be there when is looked for at once.
  await expect(page).toHaveURL(/\/week\/squeeze\?job=/);
  const offers = page.getByRole('region', { name: /ways?/ });
  await expect(offers.getByRole('button', { name: /^Book (this|and move)/ }).first()).toBeVisible({ timeout: 60_000 });
});
