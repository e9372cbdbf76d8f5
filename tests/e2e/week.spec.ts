import { expect, test } from './support/test';
import { freshShop } from './support/server';

/** "6:00–7:30 AM", as the demo shop writes times. */
const A_SPAN = /\d{1,2}:\d\d(?: [AP]M)?–\d{1,2}:\d\d [AP]M/;

test.beforeAll(() => freshShop());

const nextWeek = () => new Date(Date.now() + 7 * 86_400_000).toISOString().slice(0, 10);

test('the dispatcher proposes a week, accepts, and takes it back', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto(`/week?day=${nextWeek()}`);
  await accessible();
  const before = await page.getByRole('link', { name: A_SPAN }).count();

  await page.getByRole('button', { name: 'Propose this week' }).click();
  await expect(page.getByRole('heading', { name: 'Proposed visits' })).toBeVisible({ timeout: 45_000 });
  // How much better a plan could be is said only where the search had the time to know it.
  await expect(page.getByText(/^\d+ h \d\d min/).first()).toBeVisible();
  await expect(page.getByText(/driving added/).first()).toBeVisible();
  await accessible();

  await page.getByRole('button', { name: 'Accept all' }).click();
  await expect(page.getByText(/^\d+ booked/)).toBeVisible({ timeout: 30_000 });
  await page.getByRole('button', { name: 'Take back' }).click();
  await expect(page.getByText(/^\d+ taken back/)).toBeVisible({ timeout: 30_000 });
  await page.getByRole('link', { name: 'See the week' }).click();
  await expect(page.getByRole('link', { name: A_SPAN })).toHaveCount(before);
});

test('a visit moves with a reason, moves back, and is cancelled with one', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto(`/week?day=${nextWeek()}`);
  await page.getByRole('link', { name: A_SPAN }).first().click();
  await expect(page.getByRole('heading', { name: 'Move', exact: true })).toBeVisible();
  await accessible();
  const lead = page.getByRole('banner').or(page.locator('header')).getByText(A_SPAN);
  const booked = await lead.textContent();
  const visit = page.url();

  // An hour when nobody is out: refused softly, kept as typed, then agreed.
  await page.getByLabel('From').fill('04:05');
  await page.getByRole('button', { name: 'Move the visit' }).click();
  await expect(page.getByText('Say why it moves.')).toBeVisible();
  await expect(page.getByLabel('From')).toHaveValue('04:05');
  await page.getByLabel('Why it moves').fill('Hood cleaning that morning');
  await page.getByRole('button', { name: 'Move the visit' }).click();
  await expect(page.getByText(/outside the hours/)).toBeVisible();
  await expect(page.getByLabel('From')).toHaveValue('04:05');
  await expect(page.getByLabel('Why it moves')).toHaveValue('Hood cleaning that morning');
  await page.getByLabel('Book anyway').check();
  await page.getByRole('button', { name: 'Move the visit' }).click();
  await expect(page).toHaveURL(/\/week\?day=/);

  await page.goto(visit);
  await expect(page.getByText('Hood cleaning that morning')).toBeVisible();
  await page.getByRole('button', { name: /^Move back to/ }).click();
  await expect(page).toHaveURL(/\/week\?day=/);
  await page.goto(visit);
  await expect(lead).toHaveText(booked ?? '');

  await expect(page.getByLabel('Why it is cancelled')).toHaveAccessibleDescription(/The kitchen reads the reason/);
  await page.getByLabel('Why it is cancelled').fill('Kitchen closed for a wedding');
  await page.getByRole('button', { name: 'Cancel the visit' }).click();
  await expect(page.getByRole('button', { name: 'Book it again as it was' })).toBeVisible();
  await accessible();
  await page.goto('/outbox');
  await expect(page.getByText(/Visit cancelled/).first()).toBeVisible();
  await accessible();
});

test('the kitchen asks for another time by keyboard, and does not confirm the old one', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto(`/week?day=${nextWeek()}`);
  await page.getByRole('link', { name: A_SPAN }).first().click();
  await page.getByLabel('From').fill('04:10');
  await page.getByLabel('Why it moves').fill('Delivery in the morning');
  await page.getByRole('button', { name: 'Move the visit' }).click();
  await page.getByLabel('Book anyway').check();
  await page.getByRole('button', { name: 'Move the visit' }).click();
  await expect(page).toHaveURL(/\/week\?day=/);
  await page.goto('/outbox');
  const message = page
    .getByRole('listitem')
    .filter({ hasText: /Visit moved/ })
    .first();
  await message.locator('summary').click();
  const link = /\/visit\/[\w-]{43}/.exec(await message.innerText())?.[0] ?? '/no-link';

  await page.goto(link);
  await page.getByRole('button', { name: 'Another time would be better' }).click();
  await accessible();
  await page.getByRole('radio').first().focus();
  await page.keyboard.press('Space');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('status')).toContainText('Passed on');
});

test('driving minutes are checked line by line, stored, and forgotten again', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/week/travel');
  const lines = page.getByLabel('Or paste the lines');
  const bad =
    'from,to,minutes\n"Fenwick’s Fry House, Dock Street","Nine Lanterns, Pearl Row",12\n"Nine Lanterns, Pearl Row",Nowhere at all,9\n"Nine Lanterns, Pearl Row","Fenwick’s Fry House, Dock Street",minus one\n';
  await lines.fill(bad);
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByRole('heading', { name: 'Nothing can be stored yet' })).toBeVisible();
  await expect(page.getByText(/^2 things are wrong/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'Store these minutes' })).toBeHidden();
  await expect(lines).toHaveValue(bad);
  await accessible();

  await lines.fill(bad.split('\n').slice(0, 2).join('\n'));
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByText(/^1 pairs? between 2 kitchens/)).toBeVisible();
  await page.getByRole('button', { name: 'Store these minutes' }).click();
  await expect(page.getByText(/^1 pairs? (are|is) imported now/)).toBeVisible();
  await page.getByRole('button', { name: 'Forget imported minutes' }).click();
  await expect(page.getByText('No minutes are imported now.')).toBeVisible();
});

test('Monday: a visit is found by one key and changed, another is moved without a mouse, and a sick technician’s go round', async ({
  page,
  signIn,
  accessible,
}) => {
  await signIn('dispatcher');
  await page.goto(`/week?day=${nextWeek()}`);
  const first = page.getByRole('link', { name: A_SPAN }).first();
  await first.focus();
  await page.keyboard.press('Alt+ArrowRight');
  await expect(page.getByText(/^To .*Enter to go on/)).toBeVisible();
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: /^Move / });
  await expect(dialog.getByLabel('Why it moves')).toBeVisible();
  await accessible();
  await dialog.getByRole('button', { name: 'Keep it where it was' }).click();

  await page.keyboard.press('/');
  await page.getByRole('combobox', { name: 'What to find' }).fill('dock st');
  await expect(page.getByRole('option', { name: /Dock Street/ }).first()).toBeVisible();
  await accessible();
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/\/kitchens\//);
  await expect(page.getByText('Last here')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'What happened here' })).toBeVisible();
  await accessible();

  await page.goto('/week/away');
  await page.getByLabel('Away').selectOption({ index: 1 });
  await page.getByLabel('First day').fill(nextWeek());
  await page.getByLabel('Last day').fill(nextWeek());
  await page.getByRole('button', { name: 'See who can take over' }).click();
  await expect(page).toHaveURL(/who=/);
  await accessible();
  await page.getByRole('button', { name: /down as away/ }).click();
  await expect(page.getByText(/is away .* handed on/)).toBeVisible();
  await page.getByRole('button', { name: /is here after all/ }).click();
  await expect(page.getByText(/back where (it|they) stood/)).toBeVisible();
});
