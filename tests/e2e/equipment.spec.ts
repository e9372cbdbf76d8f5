import { freshShop } from './support/server';
import { expect, SIGN_INS, test } from './support/test';

test.beforeAll(() => freshShop());

test('a customer, a kitchen and a unit are put on file; nothing typed is lost on the way', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/customers/new');
  await page.getByRole('button', { name: 'Put customer on file' }).click();
  await expect(page.getByText('Give the customer a name.')).toBeVisible();
  await expect(page.getByLabel('Name', { exact: true })).toBeFocused();
  await accessible();
  await page.getByLabel('Name', { exact: true }).fill('Nettle & Thyme');
  await page.getByRole('button', { name: 'Put customer on file' }).click();

  await expect(page.getByRole('heading', { name: 'Nettle & Thyme' })).toBeVisible();
  await page.getByRole('link', { name: 'New kitchen' }).first().click();
  await page.getByLabel('Name', { exact: true }).fill('Canal Street');
  await page.getByLabel('Address').fill('8 Canal Street, Alder Mesa');
  await page.getByLabel('Altitude').fill('99999');
  await page.getByLabel('Monday').fill('22:00-02:00');
  await page.getByLabel('Preferred weekday').selectOption('Tuesday');
  await page.getByLabel('Access notes').fill('Bell on the left');
  await page.getByRole('button', { name: 'Put kitchen on file' }).click();
  await expect(page.getByText('Between -1410 and 16400 ft is possible.')).toBeVisible();
  await expect(page.getByText('runs past midnight')).toBeVisible();
  await expect(page.getByLabel('Access notes')).toHaveValue('Bell on the left');
  await expect(page.getByLabel('Preferred weekday')).toHaveValue('1');
  await accessible();
  await page.getByLabel('Altitude').fill('5280');
  await page.getByLabel('Monday').fill('6-10:30, 2pm-4pm');
  await page.getByRole('button', { name: 'Use Monday’s hours until Friday' }).click();
  await page.getByRole('button', { name: 'Put kitchen on file' }).click();
  await expect(page.getByText('Mon–Fri: 6:00–10:30 AM, 2:00–4:00 PM')).toBeVisible();

  await page.getByRole('link', { name: 'New unit' }).first().click();
  await page.getByLabel('Name', { exact: true }).fill('Fry line drawers');
  await page.getByLabel('Kind').selectOption({ label: 'Drawer base' });
  await expect(page.getByLabel('Expansion')).toHaveValue('capillary');
  await page.getByLabel('Placement').selectOption({ label: 'Beside fryer' });
  await page.getByLabel('Refrigerant').selectOption('R290');
  await expect(page.getByText('R-290 is A3.')).toBeVisible();
  await expect(page.getByText(/local code/)).toBeVisible();
  await page.getByLabel('Charge').fill('4.2');
  await accessible();
  await page.getByRole('button', { name: 'Put unit on file' }).click();
  await expect(page.getByRole('heading', { name: 'Fry line drawers' })).toBeVisible();
  await page.getByRole('heading', { name: 'Nameplate' }).click();
  await expect(page.getByText('4.2 oz')).toBeVisible();
  await expect(page.getByText('every 4 weeks, on Tuesdays').first()).toBeVisible();
  await accessible();
});

test('what is typed and not saved is back after a reload, another page and a lost session; once saved it is gone', async ({
  page,
  context,
  signIn,
  accessible,
}) => {
  await signIn('dispatcher');
  await page.goto('/customers?q=Nettle');
  await page.getByRole('link', { name: 'Nettle & Thyme' }).click();
  await page.getByRole('link', { name: 'Edit' }).first().click();
  const ask = page.getByLabel('Whom to ask for');
  const back = page.getByText('What you had typed is back.');
  await expect(ask).toBeVisible();
  // The page shows, and its scripts are still on their way.
  let arrive = () => {};
  const arrived = new Promise<void>((done) => (arrive = done));
  await page.route('**/*.js*', (route) => arrived.then(() => route.continue()));
  await page.reload({ waitUntil: 'commit' });
  await ask.fill('Ilse Marrow');
  arrive();
  await page.unrouteAll({ behavior: 'wait' });
  await expect(back).toHaveCount(0);
  await expect(ask).toHaveValue('Ilse Marrow');
  await page.getByLabel('Writes and reads').selectOption('Español');
  const inBrowser = () => page.evaluate(() => Object.values(localStorage).join(' '));
  await expect.poll(inBrowser, 'also what was typed before the page listened').toContain('Ilse Marrow');
  await expect.poll(inBrowser).toContain('"es"');
  await page.reload();
  await expect(back).toBeVisible();
  await expect(ask).toHaveValue('Ilse Marrow');
  await accessible();
  await page.getByRole('link', { name: 'Back without saving' }).click();
  await expect(page).not.toHaveURL(/edit/);
  await page.goBack();
  await expect(ask).toHaveValue('Ilse Marrow');
  await page.getByRole('button', { name: 'Drop it' }).click();
  await expect(back).toHaveCount(0);
  await expect(ask).toHaveValue('');
  await expect(page.getByLabel('Writes and reads')).toHaveValue('en');

  await ask.fill('Ilse Marrow, mornings');
  await context.clearCookies();
  await page.getByRole('button', { name: 'Save customer' }).click();
  await expect(page.getByRole('alert').getByText('You are signed out. Sign in again.')).toBeVisible();
  await page.getByRole('link', { name: 'Sign in and come back here' }).click();
  const dispatcher = SIGN_INS.find((one) => one.role === 'dispatcher');
  await page.getByLabel('E-mail').fill(dispatcher?.email ?? '');
  await page.getByLabel('Password').fill(dispatcher?.password ?? '');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(back).toBeVisible();
  await expect(ask).toHaveValue('Ilse Marrow, mornings');
  await page.getByRole('button', { name: 'Save customer' }).click();
  await expect(page.getByText('Ilse Marrow, mornings').first()).toBeVisible();
  await page.getByRole('link', { name: 'Edit' }).first().click();
  await expect(ask).toHaveValue('Ilse Marrow, mornings');
  await expect(back).toHaveCount(0);

  // Nobody is sent on to another's address.
  await page.goto('/sign-in?to=//elsewhere.example/');
  await expect(page).toHaveURL('/due');
});

test('a page that stood open while the server was renewed says so and keeps what was typed', async ({
  page,
  signIn,
  accessible,
  expectMessage,
}) => {
  // What a browser says of a server that is not the one which gave it the page.
  expectMessage(/409 \(Conflict\)|UnrecognizedActionError/);
  expectMessage(/404 \(Not Found\).*\/chunks\//);
  await signIn('dispatcher');
  await page.goto('/customers?q=Fenwick');
  await page.getByRole('link', { name: 'Fenwick’s Fry House' }).click();
  await page.getByRole('link', { name: 'Edit' }).first().click();
  const ask = page.getByLabel('Whom to ask for');
  await ask.fill('Bram Ossel');
  // What a newer server answers to the door of an older one.
  await page.route(/edit/, (route) => {
    const headers = route.request().headers();
    return route.continue(headers['next-action'] ? { headers: { ...headers, 'next-action': '40'.padEnd(42, '7') } } : {});
  });
  await page.getByRole('button', { name: 'Save customer' }).click();
  await expect(page.getByRole('heading', { name: 'Rimebook was renewed while this page stood open' })).toBeVisible();
  await accessible();
  await page.unrouteAll({ behavior: 'wait' });
  await page.getByRole('button', { name: 'Load the page' }).click();
  await expect(page.getByText('What you had typed is back.')).toBeVisible();
  await expect(ask).toHaveValue('Bram Ossel');
  await page.getByRole('button', { name: 'Drop it' }).click();

  // A piece of a page that the newer server does not have: the page is loaded again by itself.
  let renewed = false;
  await page.route('**/*.js', (route) => (renewed ? route.continue() : route.fulfill({ status: 404 })));
  await page.route('**/week*', (route) => {
    renewed ||= route.request().resourceType() === 'document';
    return route.continue();
  });
  await page.getByRole('link', { name: 'Week', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Week', level: 1 })).toBeVisible();
  expect(renewed).toBe(true);
});

test('a rule is changed by weeks or by a rule of its own, and the old one stays as history', async ({ page, signIn, accessible }) => {
  await signIn('owner');
  await page.goto('/customers?q=Nettle');
  await page.getByRole('link', { name: 'Nettle & Thyme' }).click();
  await page.getByRole('link', { name: 'Canal Street' }).click();
  await page.getByRole('link', { name: 'Fry line drawers' }).click();
  const task = page.getByRole('listitem').filter({ has: page.getByRole('heading', { name: 'Coil cleaning' }) });
  await task.getByText('Change the rule').click();
  await task.getByLabel('A rule of its own').check();
  await task.getByLabel('Rule', { exact: true }).fill('FREQ=MONTHLY;BYDAY=9XX');
  await task.getByRole('textbox', { name: 'Why' }).fill('Contract of this year');
  await task.getByRole('button', { name: 'Save rule' }).click();
  await expect(task.getByText(/BYDAY takes MO/)).toBeVisible();
  await expect(task.getByRole('textbox', { name: 'Why' })).toHaveValue('Contract of this year');
  await accessible();
  await task.getByLabel('Rule', { exact: true }).fill('FREQ=MONTHLY;BYDAY=1TU');
  await task.getByRole('button', { name: 'Save rule' }).click();
  await expect(task.getByText('every month, on the first Tuesday').first()).toBeVisible();
  await task.getByText(/^History/).click();
  await expect(task.getByText('Contract of this year')).toBeVisible();
  await expect(task.getByText(/every 4 weeks, on Tuesdays → every month/)).toBeVisible();
});

test('a stale edit is told with who changed what, and what was typed stays', async ({ page, signIn, browser, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/customers?q=Fenwick');
  await page.getByRole('link', { name: 'Fenwick’s Fry House' }).first().click();
  await page.getByRole('link', { name: 'Dock Street' }).click();
  await page.getByRole('link', { name: 'Edit kitchen' }).click();
  await page.getByLabel('Access notes').fill('Typed by the slower one');
  const address = page.url();

  const other = await browser.newContext();
  const owner = await other.newPage();
  const { signInAs } = await import('./support/sign-in');
  await owner.goto(new URL('/sign-in', address).href);
  await signInAs(owner, 'owner');
  await owner.goto(address);
  await owner.getByLabel('Energy price').fill('0.19');
  await owner.getByRole('button', { name: 'Save kitchen' }).click();
  await expect(owner).not.toHaveURL(/edit/);
  await other.close();

  await page.getByRole('button', { name: 'Save kitchen' }).click();
  await expect(page.getByText(/Maren Oake changed this kitchen while this form was open \(energy price\)/)).toBeVisible();
  await expect(page.getByLabel('Access notes')).toHaveValue('Typed by the slower one');
  await accessible();
});

test('a unit goes out of use with a reason and comes back', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/customers?q=Fry+line+drawers');
  await page.getByRole('link', { name: 'Fry line drawers' }).click();
  await page.getByText('Take this unit out of use').click();
  await page.getByRole('textbox', { name: 'Why' }).fill('Sold with the fryer');
  await page.getByRole('button', { name: 'Take unit out of use' }).click();
  await expect(page.getByText('This unit is out of use.')).toBeVisible();
  await expect(page.getByText(/out of use\.\s*Sold with the fryer/)).toBeVisible();
  await accessible();
  await page.getByRole('button', { name: 'Put it back in use' }).click();
  await expect(page.getByText('This unit is out of use.')).toHaveCount(0);
});

test('each role opens what it may and nothing else', async ({ page, signIn, expectMessage }) => {
  expectMessage(/403|forbidden/i);
  const rooms = {
    '/customers': 'otd',
    '/customers/new': 'od',
    '/customers/import': 'od',
    '/customers/export': 'od',
    '/customers/template': 'od',
    '/due': 'od',
    '/entries': 'od',
    '/people': 'o',
    '/people/new': 'o',
    '/shop': 'o',
    '/me': 'otd',
  };
  for (const role of ['owner', 'dispatcher', 'technician'] as const) {
    await signIn(role);
    for (const [path, may] of Object.entries(rooms)) {
      const answer = await page.request.get(path);
      const open = may.includes(role[0] ?? '');
      // A refused page shows its words with the status of refusal.
      expect(`${role} ${path} ${answer.status()}`).toBe(`${role} ${path} ${open ? 200 : 403}`);
    }
  }
  await page.context().clearCookies();
  for (const path of Object.keys(rooms)) {
    const answer = await page.request.get(path, { maxRedirects: 0 });
    expect([303, 307, 401], path).toContain(answer.status());
  }
});

test('a pin is set on a map by mouse and by keys, and a kitchen without a position is given one', async ({ page, signIn, accessible }) => {
  await signIn('dispatcher');
  await page.goto('/customers?q=Fenwick');
  await page.getByRole('link', { name: 'Fenwick’s Fry House' }).first().click();
  await page.getByRole('link', { name: 'Dock Street' }).click();
  await page.getByRole('link', { name: 'Edit kitchen' }).click();
  await page.getByRole('button', { name: 'Set it on a map' }).click();
  const map = page.getByRole('region', { name: 'Map, north up' });
  const box = page.getByLabel('Position', { exact: true });
  await map.click({ position: { x: 60, y: 120 } });
  await expect(box).toHaveValue(/^39\.\d+, -10[45]\.\d+$/);
  await expect(page.getByText(/ mi from the shop; .* the nearest kitchen on file/)).toBeVisible();
  const clicked = await box.inputValue();
  const pin = map.getByRole('button', { name: /^Pin/ });
  await pin.focus();
  await page.keyboard.press('ArrowRight');
  await expect(box).not.toHaveValue(clicked);
  expect((await box.inputValue()).split(',')[0]).toBe(clicked.split(',')[0]);
  await page.getByRole('button', { name: 'Put the pin in the middle' }).click();
  await accessible();
  // The box and the pin are one.
  await box.fill('86HJV9JC+2V');
  await expect(pin).toBeVisible();
  await box.fill('');
  await expect(pin).toBeHidden();
  await page.getByRole('button', { name: 'Save kitchen' }).click();
  await page.waitForURL(/\/kitchens\/[^/]+$/);

  await page.goto('/customers/positions');
  await page.getByRole('button', { name: 'Map for Fenwick’s Fry House, Dock Street' }).click();
  await page.getByRole('button', { name: 'Put the pin in the middle' }).click();
  await accessible();
  await page.getByRole('button', { name: 'Set the position of Fenwick’s Fry House, Dock Street' }).click();
  await expect(page.getByText('Fenwick’s Fry House, Dock Street', { exact: true })).toBeHidden();
  await expect(page.getByRole('region', { name: /^Map of \d+ kitchens/ })).toBeVisible();
  await accessible();
});
