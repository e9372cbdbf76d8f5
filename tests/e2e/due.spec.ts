import { freshShop } from './support/server';
import { expect, test } from './support/test';

test.beforeAll(() => freshShop());

test.beforeEach(async ({ signIn }) => signIn('dispatcher'));

test('the due list narrows, keeps its address, and leads to booking what was chosen', async ({ page, accessible }) => {
  await page.goto('/due');
  await accessible();
  const parts = page.getByRole('navigation', { name: 'Parts of the list' });
  for (const part of ['This week', 'Next four weeks', 'Overdue']) {
    await parts.getByRole('link', { name: part }).click();
    await expect(parts.getByRole('link', { name: part })).toHaveAttribute('aria-current', 'page');
  }
  const kitchens = page.getByRole('rowgroup').filter({ has: page.getByRole('rowheader') });
  const first = kitchens.first();
  await expect(first).toBeVisible();
  const name = await first.getByRole('rowheader').getByRole('link').first().innerText();

  await page.getByLabel('Customer, kitchen or unit').fill(name);
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/q=/);
  await expect(kitchens.first().getByRole('rowheader')).toContainText(name);

  // By keyboard alone: choose all of the kitchen, leave one out, book.
  const all = kitchens.first().getByRole('checkbox', { name: /^All of / });
  await expect(all).toHaveAccessibleName(new RegExp(`${name.replaceAll(/[^\w ]/g, '.')}$`));
  await all.focus();
  await page.keyboard.press('Space');
  const tasks = kitchens.first().getByRole('checkbox').filter({ hasNotText: name });
  const many = (await tasks.count()) - 1;
  await expect(kitchens.first()).toContainText(`${many} chosen`);
  await kitchens.first().getByRole('checkbox').nth(1).uncheck();
  await accessible();
  const book = kitchens.first().getByRole('link', { name: many > 1 ? /^Book these/ : /^Book all/ });
  const asked = new URL((await book.getAttribute('href')) ?? '', page.url()).searchParams.get('tasks')?.split(',') ?? [];
  expect(asked).toHaveLength(many > 1 ? many - 1 : many);
  await book.click();
  await expect(page.getByRole('heading', { name: `Book ${name}` })).toBeVisible();
});

test('choosing in another kitchen begins anew: a visit is to one', async ({ page }) => {
  await page.goto('/due?show=month');
  const kitchens = page.getByRole('rowgroup').filter({ has: page.getByRole('rowheader') });
  expect(await kitchens.count()).toBeGreaterThan(1);
  await kitchens.nth(0).getByRole('checkbox').first().check();
  await kitchens.nth(1).getByRole('checkbox').first().check();
  await expect(kitchens.nth(0).getByRole('checkbox').first()).not.toBeChecked();
});

test('nothing found says how to go on', async ({ page, accessible }) => {
  await page.goto('/due?q=no+such+kitchen');
  await expect(page.getByText('Loosen a filter')).toBeVisible();
  await accessible();
  await page.getByRole('link', { name: 'Show all' }).click();
  await expect(page).not.toHaveURL(/q=/);
});

for (const width of [390, 834, 1280])
  test(`nothing scrolls sideways at ${width}`, async ({ page, accessible }) => {
    await page.setViewportSize({ width, height: 900 });
    for (const path of ['/due', '/customers', '/customers/import']) {
      await page.goto(path);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), path).toBe(0);
      await accessible();
    }
  });
