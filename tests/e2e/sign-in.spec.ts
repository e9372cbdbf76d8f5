import { expect, SIGN_INS, test } from './support/test';
import pg from 'pg';
import { hash } from '@node-rs/argon2';
import { databaseUrl, freshShop } from './support/server';

test.beforeAll(() => freshShop());

const FIRST_SCREEN = { owner: '/owner', dispatcher: '/due', technician: '/round' } as const;

for (const role of ['owner', 'dispatcher', 'technician'] as const)
  test(`the ${role} signs in and lands on a first screen of their own`, async ({ page, accessible }) => {
    const person = SIGN_INS.find((one) => one.role === role);
    await page.goto('/');
    await expect(page).toHaveURL(/\/sign-in/);
    await accessible();
    await page.getByLabel('E-mail').fill(person?.email ?? '');
    await page.getByLabel('Password').fill(person?.password ?? '');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await expect(page).toHaveURL(FIRST_SCREEN[role]);
    await accessible();
  });

test('a wrong password is refused in words, and what was typed stays', async ({ page, expectMessage }) => {
  expectMessage(/401/);
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(SIGN_INS[0]?.email ?? '');
  await page.getByLabel('Password').fill('not the password');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByText('That e-mail and password do not match.')).toBeVisible();
  await expect(page.getByLabel('E-mail')).toHaveValue(SIGN_INS[0]?.email ?? '');
});

test('a page of the shop sends a stranger to the sign-in', async ({ page }) => {
  await page.goto('/due');
  await expect(page).toHaveURL(/\/sign-in/);
});

test('nothing is sent before the page is awake: the form alone would put the password into the address', async ({ browser }) => {
  const asleep = await browser.newPage({ javaScriptEnabled: false });
  await asleep.goto('/sign-in');
  await asleep.getByLabel('Password').fill('typed early');
  await asleep.getByLabel('Password').press('Enter');
  await expect(asleep.getByRole('button', { name: 'Sign in' })).toBeDisabled();
  await expect(asleep).toHaveURL('/sign-in');
  await expect(asleep.getByLabel('Password')).toHaveValue('typed early');
  await asleep.context().close();
});

test('a script that got into a page does not run there', async ({ page, signIn, expectMessage }) => {
  expectMessage(/Content Security Policy|404/);
  await signIn('owner');
  for (const place of ['/sign-in', '/owner', '/no-such-page', '/round']) {
    await page.goto(place);
    await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "ours no more"';
      document.head.append(script);
      document.body.insertAdjacentHTML('beforeend', '<img src="data:," onerror="document.title = \'ours no more\'">');
    });
    await page.waitForTimeout(200);
    expect(await page.title(), place).not.toBe('ours no more');
  }
});

test('nonsense at the sign-in shows nothing of the server in the address bar', async ({ request, baseURL }) => {
  const { csrfToken } = await (await request.get('/api/auth/csrf')).json();
  const tries = ['\u0000', 'a\u0000@shop.example', 'x'.repeat(8000), '\ud800@shop.example'];
  for (const email of tries) {
    const reply = await request.post('/api/auth/callback/credentials', { form: { csrfToken, email, password: 'x', json: 'true' } });
    expect(new URL((await reply.json()).url).searchParams.get('error'), JSON.stringify(email.slice(0, 20))).toMatch(
      /^(not_allowed|too_many)$/,
    );
  }
  const huge = { csrfToken, email: 'x'.repeat(1_000_000), password: 'x', json: 'true' };
  expect((await request.post('/api/auth/callback/credentials', { form: huge })).status()).toBe(413);
  for (const way of ['signin', 'signout', 'error']) {
    const reply = await request.get(`/api/auth/${way}?callbackUrl=${encodeURIComponent('http://%zz')}`, { maxRedirects: 0 });
    expect([reply.status(), reply.headers().location], way).toEqual([302, `${baseURL}/sign-in`]);
  }
});

test('whoever has a password that leaked chooses a new one and is in; the old one opens nothing', async ({
  page,
  accessible,
  expectMessage,
}) => {
  expectMessage(/401/);
  const email = SIGN_INS.find((one) => one.role === 'dispatcher')?.email ?? '';
  const database = new pg.Client({ connectionString: await databaseUrl() });
  await database.connect();
  await database.query('UPDATE "User" SET "passwordHash" = $1 WHERE email = $2', [await hash('finalfantasy'), email]);
  await database.end();
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password', { exact: true }).fill('finalfantasy');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByText('Your password is right, but it is too easy to guess.')).toBeVisible();
  await accessible();
  await page.getByLabel('New password').fill('finalfantasy 1');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByText('That new password is too easy to guess too.')).toBeVisible();
  await page.getByLabel('New password').fill('four plain little words');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL('/due');
});
