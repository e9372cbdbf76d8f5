import { writeFile } from 'node:fs/promises';
import sharp from 'sharp';
import { expect, test, type Page } from './support/test';
import { canBeFull } from './support/full-tablet';
import { freshShop } from './support/server';
import { signInAs } from './support/sign-in';
import { countTaps, screensToScroll } from './support/taps';
import {
  atStep,
  fetchRound,
  filmOfLabel,
  grade,
  officeSays,
  openTablet,
  openUnit,
  photograph,
  TABLET,
  unitLinks,
  visitLinks,
  type Step,
} from './support/tablet';

test.beforeAll(() => freshShop());
test.use({ viewport: TABLET });

/** The journeys share a shop: one that needs a grade not given yet takes a unit of its own. */
async function lastVisitUnit(page: Page, which = 0, step: Step = 'Lock out, look and clean'): Promise<void> {
  await visitLinks(page).last().click();
  await openUnit(page, which, step);
}

test('every screen of the round can be used by anyone', async ({ page, signIn, accessible }) => {
  await signIn('technician');
  await fetchRound(page);
  await accessible();
  await visitLinks(page).last().click();
  await accessible();
  await openUnit(page);
  for (const step of ['Lock out, look and clean', 'Power back, wait, read', 'Leave the unit', 'Read while it runs'] as const) {
    await atStep(page, step);
    await accessible();
  }
  // On a phone the pad stands below the fields, and what is typed lands in the field in hand.
  await page.setViewportSize({ width: 390, height: 844 });
  const reading = page.locator('#readings-before').getByRole('button', { name: /^Air into the coil/ });
  await reading.click();
  await expect(page.getByRole('group', { name: 'Number pad: Air into the coil' })).toBeVisible();
  await page.keyboard.type('86');
  await expect(reading).toHaveText(/86/);
  await expect(reading).toBeFocused();
  for (const step of ['Lock out, look and clean', 'Power back, wait, read', 'Leave the unit', 'Read while it runs'] as const) {
    await atStep(page, step);
    await accessible();
  }
  for (const place of ['#/entries', '#/tag']) {
    await page.goto(`/round${place}`);
    await accessible();
  }
});

test('nothing to press is smaller than 48 pixels', async ({ page, signIn }) => {
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page);
  const small = await page
    .locator('main button:visible, main summary:visible, header a:visible, nav a:visible')
    .evaluateAll((all) =>
      all.filter((e) => e.getBoundingClientRect().height < 48).map((e) => `${e.textContent} ${e.getBoundingClientRect().height}`),
    );
  expect(small).toEqual([]);
});

test('a grade is never chosen for anyone', async ({ page, signIn }) => {
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page);
  expect(await page.locator('[id^=aspect-] [aria-pressed=true]').count()).toBe(0);
});

test('an odd reading is asked about and kept with its answer', async ({ page, signIn }) => {
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 0, 'Read while it runs');
  const card = page.locator('#readings-before');
  await card.getByRole('button', { name: /^Air into the coil/ }).click();
  await page.keyboard.type('199');
  const question = card.getByRole('group', { name: 'Question about Air into the coil' });
  await expect(question).toBeVisible();
  await expect(card.getByRole('button', { name: 'Save readings' })).toBeDisabled();
  await question.getByRole('button', { name: 'Correct it' }).click();
  await card.getByRole('button', { name: /^Air into the coil/ }).focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press('Backspace');
  await page.keyboard.type('86');
  await expect(question).toBeHidden();
  await expect(card.getByRole('button', { name: 'Save readings' })).toBeEnabled();
});

/** The first unit of the round whose coil is to be cleaned, at its last step. */
async function openCoilUnit(page: Page): Promise<void> {
  for (const link of await visitLinks(page).all()) {
    await link.click();
    await expect(unitLinks(page).first()).toBeVisible();
    for (let n = 0; n < (await unitLinks(page).count()); n++) {
      await openUnit(page, n, 'Leave the unit');
      if ((await page.locator('#tasks li', { hasText: 'Coil cleaning' }).count()) > 0) return;
      await page.getByRole('link', { name: 'Visit', exact: true }).click();
    }
    await page.goto('/round');
  }
  throw new Error('No coil is to be cleaned on this round.');
}

test('a cleaned coil is not closed before the low side was looked at', async ({ page, signIn }) => {
  await signIn('technician');
  await fetchRound(page);
  await openCoilUnit(page);
  await page.locator('#tasks li', { hasText: 'Coil cleaning' }).getByRole('button', { name: 'Done', exact: true }).click();
  await expect(page.getByText(/Before this counts, look and grade: the coil as found, the coil as left/)).toBeVisible();
  await page.getByRole('link', { name: 'Visit', exact: true }).click();
  await page.getByRole('link', { name: 'Close the visit' }).click();
  await expect(page.getByText(/is done, but not everything was looked at/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'Close the visit and leave' })).toBeDisabled();
});

test('a session that ran out keeps the work and asks to sign in again', async ({ page, signIn, context, expectMessage }) => {
  expectMessage(/401/);
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page);
  await context.clearCookies();
  await grade(page, 'Condenser fan', 'Worn');
  await expect(page.getByRole('alert').getByText(/Your sign-in has run out/)).toBeVisible();
  await expect(page.getByText('On this tablet').first()).toBeVisible();
  await signIn('technician');
  await page.goto('/round#/entries');
  await page.getByRole('button', { name: 'Send and refresh now' }).click();
  await expect(page.getByText('All in the office')).toBeVisible();
});

test('signing out with unsent work refuses, and hands over a file instead', async ({ page, signIn, context, expectMessage }) => {
  expectMessage(/Failed to load resource/);
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page);
  await context.route('**/api/sync**', (route) => route.abort());
  await grade(page, 'Condenser coil', 'Filmed');
  await page.goto('/round#/entries');
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect(page.getByText(/still only on this tablet/)).toBeVisible();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save unsent work as a file' }).click();
  const file = await (await saved).path();
  await context.unroute('**/api/sync**');
  await page.getByLabel('File of unsent work').setInputFiles(file);
  await expect(page.getByText(/1 of 1 entries/)).toBeVisible();
});

test('pictures: too large, of an unknown kind, and no picture at all are told in words', async ({ page, signIn, request }, info) => {
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page);
  const input = page.locator('input[data-photo=before]');
  const said = page.locator('#photos').getByRole('alert');
  await input.setInputFiles({ name: 'note.txt', mimeType: 'text/plain', buffer: Buffer.from('not a picture') });
  await expect(said).toContainText('not a picture');
  await input.setInputFiles({ name: 'IMG_1.HEIC', mimeType: 'image/heic', buffer: Buffer.from('....ftypheic') });
  await expect(said).toContainText('HEIC');
  const huge = info.outputPath('huge.jpg');
  await writeFile(huge, Buffer.alloc(50_000_000, 1));
  await input.setInputFiles(huge);
  await expect(said).toContainText('50 MB');
  await input.setInputFiles({ name: 'coil.jpg', mimeType: 'image/jpeg', buffer: await photograph() });
  await expect(page.locator('#photos figure')).toHaveCount(1);
  await expect(said).toBeHidden();
  // The rest works, and what arrives in the office knows no place.
  await expect(page.getByText('All in the office')).toBeVisible({ timeout: 30_000 });
  // Whether one may see it is asked each time, though it is sent only once.
  const atOffice = await officeSays(page);
  const fileId = atOffice.changed
    .flatMap((v) => v.entries.photos ?? [])
    .map((p) => (p as { fileId?: string }).fileId)
    .find(Boolean);
  const seen = await page.request.get(`/api/files/${fileId}`);
  expect(seen.headers()).toMatchObject({
    'content-type': 'image/jpeg',
    'content-security-policy': expect.stringContaining('sandbox'),
    'x-content-type-options': 'nosniff',
  });
  expect((await sharp(await seen.body()).metadata()).exif).toBeUndefined();
  const headers = { 'if-none-match': seen.headers().etag ?? '' };
  expect((await page.request.get(`/api/files/${fileId}`, { headers: headers })).status()).toBe(304);
  expect((await request.get(`/api/files/${fileId}`, { headers: headers })).status()).toBe(401);
});

test('a full tablet says so, keeps what was saved and goes on', async ({ page, signIn }) => {
  const setFull = await canBeFull(page);
  await signIn('technician');
  await fetchRound(page);
  await lastVisitUnit(page, 1);
  await setFull(true);
  await page.getByRole('button', { name: 'One by one' }).click();
  await page
    .getByRole('group', { name: 'Condenser fan', exact: true })
    .getByRole('button', { name: /^Sound/ })
    .click();
  await expect(page.getByRole('alert').getByText(/This tablet is full/)).toBeVisible();
  await setFull(false);
  await grade(page, 'Condenser fan', 'Sound');
  await expect(page.getByText(/This tablet is full/)).toBeHidden();
});

test('a browser that keeps nothing says so before anything is typed', async ({ page, signIn }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('refused', 'SecurityError');
    };
  });
  await signIn('technician');
  await page.goto('/round');
  await expect(page.getByRole('heading', { name: 'Nothing can be kept here' })).toBeVisible();
});

/** The commonest unit: sealed, its three tasks planned; an ice machine is looked at otherwise. */
async function commonestUnit(page: Page) {
  const atOffice = await officeSays(page);
  for (const visit of atOffice.changed) {
    const unit = visit.units.find(
      (u) =>
        u.circuitAccess === 'sealed' &&
        u.kind !== 'ice_machine' &&
        visit.tasks.filter((t) => t.unitId === u.id && t.outcome === 'planned').length === 3,
    );
    if (visit.status !== 'booked' || !unit) continue;
    return { visitId: visit.id, unit };
  }
  throw new Error('The shop has no such unit.');
}

const HANDS = [
  { on: 'a tablet', size: null, taps: 15, most: 2 },
  { on: 'a phone', size: { width: 390, height: 844 }, taps: 16, most: 3 },
] as const;
for (const { on, size, taps: mostTaps, most } of HANDS)
  test(`the commonest unit on ${on}, whole: at most ${mostTaps} taps, its first field in sight, ${most} screens to scroll`, async ({
    page,
    signIn,
  }, info) => {
    if (size) await page.setViewportSize(size);
    const finger = await countTaps(page);
    await signIn('technician');
    await fetchRound(page);
    const { visitId, unit } = await commonestUnit(page);
    await page.goto(`/round#/visit/${visitId}`);
    let screens = 0;
    const onward = async (to: string) => {
      screens += await screensToScroll(page);
      await page.getByRole('navigation', { name: 'Onward' }).getByRole('button', { name: to }).click();
    };
    const read = async (bend: string, air: string) => {
      const key = (k: string) => page.locator('[data-key]').getByText(k, { exact: true }).click();
      for (const k of bend) await key(k);
      await key('Next');
      for (const k of air) await key(k);
    };
    const coil = { name: 'coil.jpg', mimeType: 'image/jpeg', buffer: await photograph() };
    const picture = async (when: string) => {
      const asked = page.waitForEvent('filechooser');
      await page.locator('#photos').getByText(`Photo ${when} cleaning`, { exact: true }).click();
      await (await asked).setFiles(coil);
    };
    const give = (aspect: string, label: string) =>
      page
        .getByRole('group', { name: aspect, exact: true })
        .getByRole('button', { name: new RegExp(`^${label}`) })
        .click();

    await finger.anew();
    await unitLinks(page).filter({ hasText: unit.name }).click();
    await expect(page.locator('#readings-before').getByRole('button', { name: /^Condenser bend/ })).toBeInViewport({ ratio: 1 });
    await read('118', '86');
    await onward('Lock out, look and clean');
    await give('Condenser coil', 'Furred');
    await picture('before');
    await give('Ice on the low side', 'Dry');
    await give('Drain and pan', 'Runs');
    await page.getByRole('button', { name: 'All sound' }).click();
    await give('Condenser coil, as left', 'Bare');
    await picture('after');
    await expect(page.locator('#photos figure')).toHaveCount(2);
    await onward('Power back, wait, read');
    await page.getByRole('button', { name: 'It runs again' }).click();
    await finger.wait(12);
    // Filled by the clock, without reopening the page.
    await expect(page.locator('#readings-after').getByRole('button', { name: /^Running steadily for/ })).toHaveText(/12 min/, {
      timeout: 30_000,
    });
    await read('105', '86');
    await onward('Leave the unit');
    await expect(page.locator('#tasks').getByText('Done', { exact: true })).toHaveCount(3);
    screens += await screensToScroll(page);
    await page.getByRole('navigation', { name: 'Onward' }).getByRole('button').last().click();
    const { taps, keys } = await finger.so();
    info.annotations.push({ type: 'counted', description: `${taps} taps, ${keys} digits, ${screens.toFixed(2)} screens scrolled` });
    expect(taps).toBeLessThanOrEqual(mostTaps);
    expect(screens).toBeLessThanOrEqual(most);
  });

/** The code of the first unit of the last visit, as its row shows it. */
async function firstTag(page: Page): Promise<string> {
  await visitLinks(page).last().click();
  return (await unitLinks(page).first().innerText()).split('·').at(-1)?.trim().split('\n')[0] ?? '';
}

test('a refused camera leaves the code to be typed; the address on a label opens its unit', async ({ page, signIn }) => {
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
  });
  await signIn('technician');
  await fetchRound(page);
  const tag = await firstTag(page);
  await page.goto('/round#/tag');
  await page.getByRole('button', { name: 'Read a label' }).click();
  await expect(page.getByText(/camera was refused/)).toBeVisible();
  await page.getByLabel('Code on the label').fill(tag.toLowerCase());
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await expect(page.getByText(tag)).toBeVisible();
  await page.goto(`/round#/tag/${tag}`);
  await expect(page.getByRole('navigation', { name: 'Steps of the work' })).toBeVisible();
});

test('the camera reads a label without signal', async ({ page, signIn }, info) => {
  await signIn('technician');
  await fetchRound(page);
  const tag = await firstTag(page);
  const film = info.outputPath('label.y4m');
  await writeFile(film, await filmOfLabel(`https://cold.example/round#/tag/${tag}`));
  const tablet = await openTablet(info.outputPath('tablet'), film);
  const seeing = await tablet.newPage();
  await signInAs(seeing, 'technician');
  await fetchRound(seeing);
  await tablet.setOffline(true);
  await seeing.goto('/round#/tag');
  await seeing.getByRole('button', { name: 'Read a label' }).click();
  await expect(seeing.getByRole('navigation', { name: 'Steps of the work' })).toBeVisible();
  await expect(seeing.getByText(tag)).toBeVisible();
  await tablet.close();
});
