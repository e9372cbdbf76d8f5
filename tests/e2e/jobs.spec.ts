import pg from 'pg';
import { addDays, instantOf, todayIn, weekdayOf } from '../../lib/core/calendar';
import { expect, test, type Page } from './support/test';
import { checkAccessible } from './support/accessible';
import { databaseUrl, freshShop } from './support/server';

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

/** A customer with a visit to come, from below. */
async function withVisit(): Promise<{ customerId: string; kitchen: string }> {
  const client = new pg.Client({ connectionString: await databaseUrl() });
  await client.connect();
  const { rows } = await client.query<{ customerId: string; kitchen: string }>(
    `SELECT k."customerId", k.name AS kitchen FROM "Visit" v JOIN "Kitchen" k ON k.id = v."kitchenId"
     WHERE v.status = 'booked' ORDER BY v."startsAt" DESC LIMIT 1`,
  );
  await client.end();
  const [row] = rows;
  if (!row) throw new Error('No visit is booked.');
  return row;
}

test('a chef confirms a visit and asks to be rung on a page without script, and the office has it at once', async ({
  page,
  browser,
  baseURL,
  signIn,
  accessible,
}) => {
  const { customerId, kitchen } = await withVisit();
  await signIn('dispatcher');
  await page.goto(`/customers/${customerId}`);
  await expect(page.getByText('The owner says so here.')).toBeVisible();
  await page.getByLabel('For whom').fill('Rosa, chef');
  await page.getByLabel('Shows').selectOption({ label: kitchen });
  await page.getByLabel('Send it to').fill('');
  await page.getByRole('button', { name: 'Make the link' }).click();
  const link = (await page.getByText(/\/yours\//).textContent()) ?? '';
  await looked(page, accessible);

  const plain = await browser.newContext({ baseURL, javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const phone = await plain.newPage();
  await phone.goto(new URL(link).pathname);
  await expect(phone.getByRole('heading', { level: 1, name: kitchen })).toBeVisible();
  await phone
    .getByRole('button', { name: /^That suits us/ })
    .last()
    .click();
  await expect(phone.getByText('You confirmed this visit.')).toBeVisible();
  await phone
    .getByRole('link', { name: /^Another time would be better/ })
    .last()
    .click();
  await phone.getByRole('button', { name: 'Ask for this time' }).click();
  await expect(phone.getByText('Choose one of the times.')).toBeVisible();
  await phone.getByRole('radio').first().check();
  await phone.getByRole('button', { name: 'Ask for this time' }).click();
  await expect(phone.getByText(/You asked for .* instead/)).toBeVisible();
  await phone.getByRole('link', { name: 'Español' }).click();
  await phone.getByRole('button', { name: 'Enviar a la oficina' }).click();
  await expect(phone.getByText('Diga en pocas palabras de qué se trata.')).toBeVisible();
  await phone.getByLabel('Qué pasa').fill('Gotea agua debajo del mostrador');
  await phone.getByLabel('Los alimentos se calientan').check();
  await phone.getByLabel('Su nombre').fill('Rosa');
  await phone.getByLabel('Teléfono donde lo encontramos').fill('555 0142');
  await phone.getByRole('button', { name: 'Enviar a la oficina' }).click();
  await expect(phone.getByText('Está en la lista de la oficina.')).toBeVisible();
  await plain.close();

  await page.goto('/week');
  await page.getByRole('link', { name: '1 request from customers’ pages' }).click();
  await expect(page.getByRole('link', { name: /Gotea agua debajo del mostrador/ })).toBeVisible();
  await expect(page.getByText('Asked on their own page: ring them')).toBeVisible();
  await looked(page, accessible);

  // The same page with script, every width, and where one of its visits may be moved.
  const guest = await (await browser.newContext({ baseURL })).newPage();
  await guest.goto(new URL(link).pathname);
  await expect(guest.getByText('Gotea agua debajo del mostrador')).toBeVisible();
  await looked(guest, () => checkAccessible(guest));
  await guest
    .getByRole('link', { name: /^Another time would be better/ })
    .first()
    .click();
  await expect(guest.getByRole('heading', { name: 'Another time' })).toBeVisible();
  await looked(guest, () => checkAccessible(guest));
  await guest.context().close();

  // Taken back, it opens nothing and says so as any link does that never was one.
  await page.goto(`/customers/${customerId}`);
  await page.getByRole('button', { name: 'Take the link of Rosa, chef back' }).click();
  await expect(page.getByText(/^Taken back/)).toBeVisible();
  const dead = await page.request.get(new URL(link).pathname);
  const never = await page.request.get(`/yours/${'A'.repeat(43)}`);
  const said = async (reply: typeof dead) => /<main[\s\S]*<\/main>/.exec(await reply.text())?.[0];
  expect(await said(dead)).toContain('This link does not open');
  expect(await said(dead)).toBe(await said(never));
});
