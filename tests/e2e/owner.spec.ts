import { addDays, todayIn } from '@/lib/core/calendar';
import { expect, test } from './support/test';
import { freshShop } from './support/server';

test.beforeAll(() => freshShop());

test.describe('the owner', () => {
  test('sees which kitchens foul fastest and opens the evidence down to the unit', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/');
    await expect(page).toHaveURL(/\/owner$/);
    const table = page.getByRole('region', { name: 'Kitchens by how fast their coils foul' });
    const rows = table.getByRole('row');
    await expect(rows).toHaveCount(17);
    const rates = (await table.locator('tbody tr td:nth-child(2)').allInnerTexts()).map((t) => Math.round(Number.parseFloat(t)));
    expect(rates.every((r) => r > 0)).toBe(true);
    expect(rates).toEqual([...rates].sort((a, b) => b - a));
    for (const fast of ['Dock Street', 'Pearl Row', 'Ember & Rye'])
      expect((await rows.nth(1).innerText()) + (await rows.nth(2).innerText()) + (await rows.nth(3).innerText())).toContain(fast);
    await expect(page.getByRole('heading', { name: 'Dead condenser fan' })).toBeVisible();
    await expect(page.getByRole('heading', { name: 'Coil past saving' })).toBeVisible();
    await expect(page.getByRole('heading', { name: 'Drain that keeps stopping' })).toBeVisible();
    await accessible();

    await rows.nth(1).getByRole('link').first().click();
    await expect(page.getByRole('heading', { name: 'Coils, fastest first' })).toBeVisible();
    await accessible();

    await page.getByRole('region', { name: 'Coils of this kitchen' }).getByRole('link').first().click();
    const evidence = page.getByRole('region', { name: 'Evidence' });
    await expect(evidence.getByRole('heading', { name: 'How the coil went' })).toBeVisible();
    await expect(
      evidence
        .getByRole('img', { name: /Share of the clean conductance over time\. Today about \d+ percent/ })
        .locator('svg')
        .first(),
    ).toBeVisible();
    await evidence.getByText('The numbers as a table').first().click();
    await expect(evidence.getByRole('region', { name: 'Share of clean conductance over time' })).toBeVisible();
    await accessible();

    await page.goto('/owner');
    await page.getByRole('region', { name: 'Dead condenser fan' }).getByRole('link').first().click();
    await expect(page.getByRole('heading', { name: 'Stands open' })).toBeVisible();
    await expect(page.getByText('Condenser fan: failed')).toBeVisible();
    await accessible();
  });

  test('opens the late tasks of one kitchen, as many as were counted', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/owner');
    const table = page.getByRole('region', { name: 'Kitchens by how fast their coils foul' });
    const late = table
      .locator('td:last-child')
      .getByRole('link', { name: /^\d+ tasks?$/ })
      .first();
    const many = await late.innerText();
    await late.click();
    const overdue = page.getByRole('navigation', { name: 'Parts of the list' }).getByRole('link', { name: 'Overdue' });
    await expect(overdue).toHaveAttribute('aria-current', 'page');
    await expect(overdue).toContainText(many);
    await expect(overdue).toContainText('in 1 kitchen');
    await accessible();
    // The kitchen stays through a filter, and lets go at a word.
    await page.getByRole('button', { name: 'Show', exact: true }).click();
    await expect(page).toHaveURL(/kitchen=/);
    await page.getByRole('link', { name: 'Show all kitchens' }).click();
    await expect(page).not.toHaveURL(/kitchen=/);
  });

  test('keeps a group of changes at once, and is asked why before one is overruled', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/rules');
    const waiting = page.getByRole('link', { name: /Not looked at \((\d+)\)/ });
    const count = async () => Number(/\((\d+)\)/.exec(await waiting.innerText())?.[1]);
    const before = await count();
    expect(before).toBeGreaterThan(2);
    await accessible();
    const group = page.getByRole('button', { name: /^Keep all \d+$/ }).last();
    const many = Number(/\d+/.exec(await group.innerText())?.[0]);
    await group.click();
    await expect.poll(count).toBe(before - many);

    for (const folded of await page.getByText(/^(Each of them, with its|The) reason$/).all()) await folded.click();
    const row = page
      .getByRole('main')
      .getByRole('listitem')
      .filter({ has: page.getByRole('button', { name: 'Keep it' }) })
      .first();
    await row.getByText('Overrule', { exact: true }).click();
    await row.getByRole('button', { name: 'Overrule it' }).click();
    await expect(row.getByRole('alert')).toContainText('Say why');
    await row.getByLabel('Why').first().fill('The chef closes for the refit in two weeks.');
    await row.getByRole('button', { name: 'Overrule it' }).click();
    await expect.poll(count).toBe(before - many - 1);
    await page.goto('/rules?show=week');
    await expect(page.getByText('The chef closes for the refit in two weeks.')).toBeVisible();
    await accessible();
  });

  test('ranks, looks at the shop and asks whether it is right, each narrowed by its address', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/owner');
    const rooms = page.getByRole('navigation', { name: 'Owner’s pages' });
    await rooms.getByRole('link', { name: 'Fouling' }).click();
    await expect(page.getByRole('region', { name: 'Kitchens by how fast their coils foul' }).getByRole('row')).not.toHaveCount(1);
    await expect(page.getByText('can’t be told apart').first()).toBeVisible();
    await accessible();
    await page.getByLabel('Ranked').selectOption('unit');
    await page.getByLabel('Placement').selectOption('fryer');
    await page.getByRole('button', { name: 'Show', exact: true }).click();
    await expect(page).toHaveURL(/by=unit.*place=fryer/);
    await expect(page.getByRole('region', { name: 'Coils by how fast they foul' })).toContainText('Beside fryer');
    const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'As a file' }).click()]);
    expect(file.suggestedFilename()).toBe('fouling.csv');

    await rooms.getByRole('link', { name: 'The shop’s work' }).click();
    await expect(page.getByRole('region', { name: 'Overdue tasks by reason and age' })).toBeVisible();
    await expect(page.getByRole('region', { name: 'Who grades harder' }).getByRole('row')).toHaveCount(4);
    const taken = async (name: string) =>
      (await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name }).click()]))[0].suggestedFilename();
    expect(await taken('Each of them, as a file')).toBe('visits.csv');
    await accessible();

    await rooms.getByRole('link', { name: 'Is it right?' }).click();
    await expect(page.getByText(/^What was expected of each coil is written down/)).toBeVisible();
    await expect(page.getByRole('region', { name: 'By who looked' }).getByRole('row')).toHaveCount(4);
    expect(await taken('Each look, as a file')).toBe('looks.csv');
    await page.getByRole('region', { name: 'By month' }).getByRole('link').nth(2).click();
    await expect(page).toHaveURL(/from=\d{4}-\d\d-01&until=/);
    await expect(page.getByRole('region', { name: 'By month' }).getByRole('row')).toHaveCount(2);
    await accessible();
  });

  test('gives a customer a link, behind which every page can be read, in both languages', async ({ page, signIn, accessible }) => {
    // What is booked in the demo depends on the day and its hour: one visit more, so that there is one.
    await signIn('dispatcher');
    await page.goto('/customers?q=Fenwick');
    await page.getByRole('link', { name: 'Fenwick’s Fry House' }).click();
    await page.waitForURL(/\/customers\/[0-9a-f-]{36}/);
    const customer = page.url();
    await page.getByRole('link', { name: 'Dock Street' }).first().click();
    await page.waitForURL(/\/kitchens\//);
    await page.goto(`/week/book?kitchen=${/kitchens\/([0-9a-f-]+)/.exec(page.url())?.[1]}`);
    await page
      .getByRole('checkbox', { name: /Coil cleaning · due/ })
      .first()
      .check();
    await page.getByLabel('Technician', { exact: true }).selectOption({ index: 1 });
    await page.getByLabel('Day', { exact: true }).fill(addDays(todayIn('America/New_York', Date.now()), 3));
    await page.getByLabel('From', { exact: true }).fill('04:30');
    await page.getByLabel('Length').fill('30');
    await page.getByRole('button', { name: 'Book the visit' }).click();
    await page.getByLabel('Book anyway').check();
    await page.getByRole('button', { name: 'Book the visit' }).click();
    await expect(page).toHaveURL(/\/week\?day=/);

    await signIn('owner');
    await page.goto(customer);
    const form = page.locator('form', { has: page.getByRole('button', { name: 'Make the link' }) });
    await form.getByLabel('For whom').fill('Walker');
    await form.getByLabel('Send it to').fill('');
    await form.getByRole('button', { name: 'Make the link' }).click();
    const link = (await form.locator('code').textContent()) ?? '';
    const quarter = `${new URL(page.url()).pathname}/quarter`;
    for (const language of ['en', 'es']) {
      await page.goto(`${link}?language=${language}`);
      const parts = ['visits', 'reports', 'quotes'].map((part) => page.locator(`a[href*="/${part}/"]`).first());
      const addresses = await Promise.all(parts.map((part) => part.getAttribute('href')));
      await accessible();
      for (const address of addresses) {
        await page.goto(address ?? '');
        await accessible();
      }
      await page.goto(`${quarter}?language=${language}`);
      await accessible();
    }
  });

  test('takes everything away as one file', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/shop/archive');
    await accessible();
    await page.getByRole('button', { name: 'Make the archive' }).click();
    const fetchIt = page.getByRole('link', { name: 'Fetch it' });
    await expect(fetchIt).toBeVisible({ timeout: 60_000 });
    const [file] = await Promise.all([page.waitForEvent('download'), fetchIt.click()]);
    expect(file.suggestedFilename()).toMatch(/^rimebook-everything-\d{4}-\d\d-\d\d\.zip$/);
    await accessible();
  });

  test('reads what was changed, of one kind, and comes from there to the record and its own history', async ({
    page,
    signIn,
    accessible,
  }) => {
    await signIn('owner');
    await page.goto('/shop/archive');
    await page.getByRole('link', { name: 'What was changed' }).click();
    const lines = page.getByRole('list', { name: 'Changes' }).getByRole('listitem');
    await expect(lines.first()).toContainText('Everything as one file');
    await accessible();
    await page.goto('/rules');
    await page
      .getByRole('button', { name: /^Keep all \d+$/ })
      .last()
      .click();
    await expect(page.getByText(/^Who changed what, \d+ entr/)).toBeVisible();
    await page.goto('/shop/changes');
    await page.getByLabel('Of what').selectOption('RuleChange');
    await page.getByRole('button', { name: 'Show', exact: true }).click();
    await expect(page).toHaveURL(/kind=RuleChange/);
    await expect(lines.first()).toContainText('Kept as changed');
    await lines.first().getByRole('link', { name: 'Rule changes kept' }).click();
    await page.getByText(/^Who changed what/).click();
    await expect(page.getByRole('main')).toContainText('Kept as changed');
    await accessible();
    await page.goto('/shop/changes?kind=Certificate&by=&from=2001-01-01&until=2001-01-02');
    await expect(page.getByText('Nothing of this was changed.')).toBeVisible();
    await accessible();
    await page.goto('/shop/changes?from=2100-01-02&until=2001-01-01');
    await expect(page.getByLabel('From')).toHaveValue('2001-01-01');
    await expect(lines.first()).toBeVisible();
  });

  test('asks what a stricter risk would move before saving it', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/rules/what-if');
    await page.getByRole('textbox', { name: 'Accepted chance of passing a limit' }).fill('0');
    await page.getByRole('button', { name: 'See what moves' }).click();
    await expect(page.getByText('Between 1 and 50 %.')).toBeVisible();
    await page.getByRole('textbox', { name: 'Accepted chance of passing a limit' }).fill('2');
    await page.getByRole('textbox', { name: 'Cooling lost on a hot day' }).fill('5');
    await page.getByRole('button', { name: 'See what moves' }).click();
    const answer = page.getByRole('region', { name: 'What moves' });
    const cleanings = answer.getByRole('row', { name: /Coil cleanings a month/ });
    await expect(cleanings).toBeVisible({ timeout: 30_000 });
    const [now, then] = (await cleanings.getByRole('cell').allInnerTexts()).slice(1, 3).map(Number) as [number, number];
    expect(then).toBeGreaterThan(now);
    await accessible();
    await page.getByRole('slider', { name: /cooling lost on a hot day/ }).focus();
    await page.keyboard.press('ArrowRight');
    await expect(page.getByRole('textbox', { name: 'Cooling lost on a hot day' })).toHaveValue('6');
    await expect(page.getByRole('button', { name: 'See what moves' })).toBeEnabled({ timeout: 30_000 });
    await page.getByRole('textbox', { name: 'Cooling lost on a hot day' }).fill('5');
    await page.getByRole('button', { name: 'Save these settings' }).click();
    await expect(page.getByText('The settings are kept')).toBeVisible();
    await page.reload();
    await expect(page.getByRole('textbox', { name: 'Cooling lost on a hot day' })).toHaveValue('5');
  });

  test('is alone in deciding: others read the reasons only', async ({ page, signIn, expectMessage }) => {
    expectMessage(/403/);
    await signIn('dispatcher');
    await page.goto('/rules?show=month');
    await expect(page.getByRole('main').getByRole('listitem').first()).toBeVisible();
    await expect(page.getByRole('button', { name: 'Keep it' })).toHaveCount(0);
    await signIn('technician');
    const refused = await page.goto('/owner');
    expect(refused?.status()).toBe(403);
  });
});
