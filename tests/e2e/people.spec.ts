import { Secret, TOTP } from 'otpauth';
import { freshShop } from './support/server';
import { expect, test } from './support/test';
import { signInAs } from './support/sign-in';

test.describe('people', () => {
  test.beforeAll(() => freshShop());

  test('the owner adds a person, who signs in, chooses units, and is signed out from afar', async ({
    page,
    signIn,
    browser,
    accessible,
  }) => {
    await signIn('owner');
    await page.goto('/people');
    await accessible();
    await page.getByRole('link', { name: 'New person' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Wilma Strand');
    await page.getByLabel('E-mail').fill('wilma@larkspurcold.example');
    await page.getByLabel('Roof and ladder work').check();
    await page.getByLabel('First password').fill('short');
    await expect(page.getByText('Too short: at least 12 characters.').first()).toBeVisible();
    await page.getByRole('button', { name: 'Put person on file' }).click();
    await expect(page.getByLabel('First password')).toHaveAttribute('aria-invalid', 'true');
    await expect(page.getByLabel('Roof and ladder work')).toBeChecked();
    await accessible();
    await page.getByLabel('First password').fill('nine lanterns by the sea');
    await page.getByRole('group', { name: 'Working hours' }).getByLabel('Monday').fill('7-15:30');
    await page.getByRole('button', { name: 'Put person on file' }).click();
    await expect(page.getByRole('heading', { name: 'Wilma Strand' })).toBeVisible();
    await expect(page.getByRole('group', { name: 'Working hours' }).getByLabel('Monday')).toHaveValue('07:00-15:30');
    await accessible();

    const van = await browser.newContext({ userAgent: 'Mozilla/5.0 (Linux; Android 15) Chrome/142.0' });
    const hers = await van.newPage();
    await hers.goto(new URL('/sign-in', page.url()).href);
    await signInAs(hers, { name: 'Wilma Strand', email: 'wilma@larkspurcold.example', password: 'nine lanterns by the sea' });
    await hers.goto(new URL('/me', page.url()).href);
    await expect(hers.getByText('Chrome on Android')).toBeVisible();
    await hers.getByLabel('bar').check();
    await hers.getByRole('button', { name: 'Use these' }).click();
    await expect(hers.getByText('Saved')).toBeVisible();
    await hers.getByLabel('Password you have now').fill('wrong');
    await hers.getByLabel('New password').fill('another sea by lantern light');
    await hers.getByRole('button', { name: 'Change password' }).click();
    await expect(hers.getByText('That is not the password you have now.')).toBeVisible();

    await page.reload();
    await page.getByRole('button', { name: /^End the session on Chrome on Android/ }).click();
    await expect(page.getByText('Not signed in anywhere.')).toBeVisible();
    await hers.reload();
    await expect(hers).toHaveURL(/\/sign-in/);
    await van.close();
  });

  test('the last owner cannot be switched off', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/people');
    await page.getByRole('link', { name: 'Maren Oake', exact: true }).click();
    await page.getByRole('button', { name: 'Switch Maren Oake off' }).click();
    await expect(page.getByText('This is the only active owner.')).toBeVisible();
    await accessible();
  });

  test('an owner who drives, too, stands in the week beside the technicians', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/week');
    await expect(page.getByText('Bastian Roe').first()).toBeVisible();
    await expect(page.locator('main').getByText('Maren Oake')).toHaveCount(0);
    await page.goto('/people');
    await page.getByRole('link', { name: 'Maren Oake', exact: true }).click();
    await page.getByLabel('Goes to kitchens too').check();
    const hours = page.getByRole('group', { name: 'Working hours' });
    await hours.getByLabel('Monday').fill('8-12');
    await hours.getByRole('button', { name: /Use Monday/ }).click();
    await accessible();
    await page.getByRole('button', { name: 'Save person' }).click();
    await expect(page).toHaveURL(/\/people$/);
    await expect(page.getByRole('cell', { name: 'Owner, goes to kitchens too' })).toBeVisible();
    await page.goto('/week');
    await expect(page.locator('main').getByText('Maren Oake').first()).toBeVisible();
  });

  test('the owner keeps the shop’s settings and adds a kind of task', async ({ page, signIn, accessible }) => {
    await signIn('owner');
    await page.goto('/shop');
    await accessible();
    await page.getByLabel('Limit of overdue').fill('-3');
    await page.getByRole('button', { name: 'Save shop' }).click();
    await expect(page.getByText('At least 0.')).toBeVisible();
    await page.getByLabel('Limit of overdue').fill('21');
    await page.getByRole('button', { name: 'Save shop' }).click();
    await expect(page.getByText('Saved')).toBeVisible();
    await page.getByText('Add a kind of task').click();
    const form = page.locator('form').filter({ has: page.getByRole('button', { name: 'Add kind' }) });
    await form.getByLabel('Name').fill('Water filter change');
    await form.getByLabel('Takes').fill('10');
    await form.getByLabel('Usually every').fill('26');
    await form.getByRole('button', { name: 'Add kind' }).click();
    await expect(page.getByText('Water filter change').first()).toBeVisible();
    await page.getByText(/^Who changed what/).click();
    await expect(page.getByRole('listitem').filter({ hasText: 'Added Water filter change' })).toBeVisible();
    await accessible();
  });
});

test.describe('an empty shop', () => {
  test.beforeAll(() => freshShop({ shop: 'empty' }));

  test('is set up once by its first owner', async ({ page, accessible }) => {
    await page.goto('/');
    await expect(page).toHaveURL(/\/set-up/);
    await accessible();
    await expect(page.getByLabel('Time zone')).toHaveValue('America/Chicago');
    await page.getByLabel('Set-up code').fill('2718 2818 9999');
    await page.getByLabel('Name of the shop').fill('Thistle Cold');
    await page.getByLabel('Your name').fill('Ada Thorne');
    await page.getByLabel('Your e-mail').fill('ada@thistle.example');
    await page.getByLabel('Your password').fill('adathorne1234');
    await page.getByRole('button', { name: 'Set up the shop' }).click();
    await expect(page.getByText('too close to the name')).toBeVisible();
    await accessible();
    await page.getByLabel('Your password').fill('four plain little words');
    await page.getByRole('button', { name: 'Set up the shop' }).click();
    await expect(page.getByText('not the code')).toBeVisible();
    await page.getByLabel('Set-up code').fill('271828182845');
    await page.getByLabel('Your password').fill('four plain little words');
    await page.getByRole('button', { name: 'Set up the shop' }).click();
    await expect(page).toHaveURL(/\/first-day/);
    await expect(page.getByRole('link', { name: 'Set the costs' })).toBeVisible();
    await accessible();

    await page.goto('/due');
    await expect(page.getByText('Once kitchens and their units are on file')).toBeVisible();
    await accessible();
    await page.goto('/customers');
    await expect(page.getByText('Put the first one on file')).toBeVisible();
    await accessible();
    await page.context().clearCookies();
    await page.goto('/set-up');
    await expect(page).toHaveURL(/\/sign-in/);
  });

  test('asks its owner for a second step before people, and goes on where she was going', async ({ page, accessible }) => {
    await page.goto('/sign-in');
    await page.getByLabel('E-mail').fill('ada@thistle.example');
    await page.getByLabel('Password').fill('four plain little words');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('link', { name: 'People', exact: true }).click();
    await expect(page.getByText('this shop asks them for more than a password first')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Don’t ask owners' })).toBeVisible();
    await accessible();
    const secret = (await page.locator('code').textContent())?.replaceAll(' ', '') ?? '';
    await page.getByLabel('Code', { exact: true }).fill(new TOTP({ secret: Secret.fromBase32(secret) }).generate());
    await page.getByRole('button', { name: 'Turn it on' }).click();
    await expect(page.getByText('Write these down')).toBeVisible();
    await accessible();
    await page.getByRole('link', { name: 'I have them, go on' }).click();
    await expect(page.getByRole('heading', { name: 'People' })).toBeVisible();
    await expect(page.getByLabel('Ask owners for a second step')).toBeChecked();
    await accessible();
  });
});
