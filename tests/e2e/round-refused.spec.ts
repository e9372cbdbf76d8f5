import { expect, SIGN_INS, test, type Page } from './support/test';
import { canBeFull } from './support/full-tablet';
import { freshShop } from './support/server';
import { atStep, fetchRound, grade, openUnit, photograph, TABLET, typeReading, unitLinks, visitLinks, type Step } from './support/tablet';

test.beforeAll(() => freshShop());
test.use({ viewport: TABLET });

const coil = async () => ({ name: 'coil.jpg', mimeType: 'image/jpeg', buffer: await photograph() });
const bar = (page: Page) => page.locator('#round').getByRole('banner');
const holder = (page: Page) => page.evaluate(() => localStorage.getItem('rimebook.holder'));

async function lastVisitUnit(page: Page, which: number, step: Step): Promise<void> {
  await visitLinks(page).last().click();
  await openUnit(page, which, step);
}

test('an entry the office did not take is told everywhere, with what was typed', async ({ page, signIn, accessible }) => {
  await page.addInitScript(() => {
    const plain = window.fetch;
    window.fetch = async (input, init) => {
      if (input !== '/api/sync') return plain(input, init);
      const sent = (await new Response(init?.body).json()) as { entries: { kind: string; payload: { quantity?: number } }[] };
      for (const op of sent.entries) if (op.kind === 'part.use') op.payload.quantity = -1;
      return plain(input, { ...init, body: JSON.stringify(sent) });
    };
  });
  await signIn('technician');
  await fetchRound(page);
  await visitLinks(page).last().click();
  await page.getByLabel('Part', { exact: true }).fill('Fan clip');
  await page.getByLabel('How many').fill('3');
  await page.getByRole('button', { name: 'Add part' }).click();
  const answer = page.getByRole('region', { name: 'What the office said' });
  await expect(answer).toContainText('Part used: not taken by the office.');
  await expect(answer).toContainText('Fan clip, × 3');
  await page.getByRole('link', { name: 'Round', exact: true }).click();
  await expect(answer).toContainText('Fan clip, × 3');
  await accessible();
  await bar(page).getByRole('link', { name: '1 answer from the office' }).click();
  await answer.getByRole('button', { name: 'Read' }).click();
  await expect(answer).toBeHidden();
  await expect(bar(page).getByText('All in the office')).toBeVisible();
});

test('a number the office would refuse is not saved, and says what can be', async ({ page, signIn, accessible }) => {
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 0, 'Read while it runs');
  const card = page.locator('#readings-before');
  const save = card.getByRole('button', { name: 'Save readings' });
  await typeReading(card, 'Air into the coil', '999');
  const refused = card.getByRole('alert');
  await expect(refused).toContainText('Air into the coil: 999 °F cannot be saved. Only −99 to 260 °F can.');
  await expect(card.getByRole('group', { name: /^Question about/ })).toHaveCount(0);
  await expect(save).toBeDisabled();
  await accessible();
  await refused.getByRole('button', { name: 'Correct it' }).click();
  await card.getByRole('button', { name: /^Air into the coil/ }).focus();
  await page.keyboard.press('Backspace');
  await expect(refused).toBeHidden();
  const minutes = card.getByRole('button', { name: /^Running steadily for/ });
  await minutes.click();
  await page.keyboard.type('-15');
  await expect(minutes).toHaveText(/for15 min/);
});

test('a food temperature is refused, asked about, or taken as it is', async ({ page, signIn }) => {
  await signIn('technician');
  await fetchRound(page);
  await visitLinks(page).last().click();
  // Nobody keeps food in an ice machine.
  await unitLinks(page)
    .filter({ hasNotText: /ice machine/i })
    .first()
    .click();
  await atStep(page, 'Leave the unit');
  const food = page.locator('details', { has: page.locator('summary', { hasText: 'Food above' }) });
  await food.locator('summary').click();
  const degrees = food.getByLabel(/^Food temperature/);
  const toldThemButton = food.getByRole('button', { name: 'Told them just now' });
  await food.getByLabel('Told to').fill('Ines Halloran');
  await degrees.fill('470');
  await expect(food.getByRole('alert')).toContainText('470 °F cannot be saved');
  await expect(toldThemButton).toBeDisabled();
  await degrees.fill('147');
  await expect(food.getByRole('alert')).toBeHidden();
  await toldThemButton.click();
  const question = food.getByRole('group', { name: 'Question about Food temperature' });
  await expect(question).toContainText('147 °F (64 °C)');
  await expect(toldThemButton).toBeDisabled();
  await question.getByRole('button', { name: 'Correct it' }).click();
  await expect(degrees).toBeFocused();
  await degrees.fill('47');
  await expect(question).toBeHidden();
  await toldThemButton.click();
  await expect(food.getByText(/47 °F, told to Ines Halloran/)).toBeVisible();
  await expect(degrees).toHaveValue('');
});

test('an event entered by mistake is taken back', async ({ page, signIn }) => {
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 0, 'Leave the unit');
  const events = page.locator('details', { has: page.locator('summary', { hasText: 'Trip, washed through' }) });
  await events.locator('summary').click();
  await events.getByRole('button', { name: 'High-pressure trip' }).click();
  await events.getByRole('button', { name: 'Not known yet' }).click();
  await events.getByLabel('What you know of it').fill('Twice at noon');
  await events.getByRole('button', { name: 'Keep it' }).click();
  const kept = events.getByRole('listitem').filter({ hasText: 'Twice at noon' });
  await expect(kept).toBeVisible();
  await kept.getByRole('button', { name: 'Take back' }).click();
  await expect(kept).toBeHidden();
  await expect(bar(page).getByText('All in the office')).toBeVisible();
});

test('a full tablet says in sight that it is, and that the picture was not kept', async ({ page, signIn }) => {
  const setFull = await canBeFull(page);
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 0, 'Lock out, look and clean');
  const photos = page.locator('#photos');
  await setFull(true);
  await photos.scrollIntoViewIfNeeded();
  await page.locator('input[data-photo=before]').setInputFiles(await coil());
  await expect(photos.getByRole('alert')).toContainText('1 picture was NOT kept');
  await expect(photos.locator('figure')).toHaveCount(0);
  await expect(
    bar(page)
      .getByRole('alert')
      .getByText(/This tablet is full/),
  ).toBeInViewport();
  const height = (await bar(page).boundingBox())?.height ?? Infinity;
  expect(height).toBeLessThan(TABLET.height / 4);
  await setFull(false);
  await page.locator('input[data-photo=before]').setInputFiles(await coil());
  await expect(photos.locator('figure')).toHaveCount(1);
  await expect(photos.getByRole('alert')).toBeHidden();
  await expect(bar(page).getByRole('alert')).toBeHidden();
});

test('the way to sign in again is always there, asks nothing, and a line lost on it lets nobody go', async ({
  page,
  signIn,
  context,
  expectMessage,
}) => {
  expectMessage(/401|Failed to load resource|CLIENT_FETCH_ERROR/);
  const setFull = await canBeFull(page);
  let asked = 0;
  page.on('dialog', (dialog) => void (asked++, dialog.accept()));
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 1, 'Lock out, look and clean');
  await context.clearCookies();
  await grade(page, 'Condenser fan', 'Worn');
  await expect(
    bar(page)
      .getByRole('alert')
      .getByText(/Your sign-in has run out/),
  ).toBeVisible();
  await setFull(true);
  await page
    .getByRole('group', { name: 'Condenser coil', exact: true })
    .getByRole('button', { name: /^Furred/ })
    .click();
  await expect(
    bar(page)
      .getByRole('alert')
      .getByText(/This tablet is full/),
  ).toBeVisible();
  await expect(bar(page).getByRole('link', { name: 'Sign in again', exact: true })).toBeVisible();
  await bar(page)
    .getByRole('link', { name: /^Sign in again, 1 kept/ })
    .click();
  await page.getByRole('main').getByRole('link', { name: 'Sign in again' }).click();
  await expect(page).toHaveURL('/sign-in');
  expect(asked).toBe(0);

  const before = await holder(page);
  expect(before).not.toBeNull();
  const person = SIGN_INS.find((one) => one.role === 'technician');
  await page.getByLabel('E-mail').fill(person?.email ?? '');
  await page.getByLabel('Password').fill(person?.password ?? '');
  await context.route('**/api/auth/session', (route) => route.abort());
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByText(/The office could not be reached/)).toBeVisible();
  expect(await holder(page)).toBe(before);
  await context.unroute('**/api/auth/session');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL('/round');
  await expect(page.getByText('All in the office')).toBeVisible();
});

test('a picture on its way is told as one, and may be left behind in a file', async ({ page, signIn, context, expectMessage }) => {
  expectMessage(/Failed to load resource/);
  let asked = 0;
  page.on('dialog', (dialog) => void (asked++, dialog.accept()));
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 0, 'Lock out, look and clean');
  await context.route('**/api/files**', (route) => route.abort());
  const photos = page.locator('#photos');
  const had = await photos.locator('figure').count();
  await page.locator('input[data-photo=after]').setInputFiles(await coil());
  await expect(photos.locator('figure')).toHaveCount(had + 1);
  await page.goto('/round#/entries');
  await expect(page.getByRole('heading', { name: '1 picture not yet in the office', exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect(page.getByText('1 picture is still only on this tablet.')).toBeVisible();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save unsent work as a file' }).click();
  await saved;
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect(page).toHaveURL('/sign-in');
  expect(asked).toBe(0);
});
