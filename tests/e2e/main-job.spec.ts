import { addDays, todayIn } from '../../lib/core/calendar';
import { expect, SIGN_INS, test } from './support/test';
import { freshShop } from './support/server';
import { atStep, grade, typeReading } from './support/tablet';

// The whole main job, by hand: import → due → book → findings → estimate → tightened rule → the owner's list.
test.beforeAll(() => freshShop());
test.describe.configure({ timeout: 240_000 });

const ZONE = 'America/Denver';
const KITCHEN = 'The Gilded Perch, Quay';
const UNIT = 'Fry line reach-in';
// By the calendar: a day is not always 24 hours long.
const daysAgo = (n: number) => addDays(todayIn(ZONE, Date.now()), -n);
const june = SIGN_INS.find((p) => p.name.startsWith('June'))!;

const fleet = (kind: string) =>
  [
    'customer,kitchen,time_zone,altitude_ft,energy_price_per_kwh,hot_day_air_f,unit,kind,placement,refrigerant,circuit,cutout_psig,box_f,coil_cleaning_rule,coil_cleaning_last_done,drain_inspection_rule,evaporator_inspection_rule',
    `The Gilded Perch,"${KITCHEN}",${ZONE},5280,0.15,100,${UNIT},${kind},fryer,R134a,ports,300,38,12,${daysAgo(62)},13,13`,
  ].join('\n');

test('from a fleet file to a tightened rule', async ({ browser, page, signIn, accessible }) => {
  await signIn('dispatcher');

  // Import: a bad row is named by line and column and nothing is written; mended, it goes on file.
  await page.goto('/customers/import');
  await page.getByLabel('Or paste the lines').fill(fleet('fridge'));
  await page.getByRole('button', { name: 'Check it' }).click();
  await expect(page.getByText('Nothing has been written.')).toBeVisible();
  const problem = page.getByRole('row').filter({ hasText: 'kind' });
  await expect(problem).toContainText('fridge');
  await accessible();
  await page.getByLabel('The lines as you gave them').fill(fleet('reach_in'));
  await page.getByRole('button', { name: 'Check it' }).click();
  await page.getByRole('button', { name: 'Put 1 unit on file' }).click();
  await expect(page.getByText('Done', { exact: true })).toBeVisible({ timeout: 30_000 });

  // Due: found by search, chosen, booked for this evening.
  await page.goto(`/due?q=Gilded`);
  const row = page.getByRole('rowgroup').filter({ hasText: KITCHEN }).first();
  await expect(row).toBeVisible();
  await accessible();
  await row.getByRole('link', { name: /^Book all/ }).click();
  await expect(page.getByRole('heading', { name: `Book ${KITCHEN}` })).toBeVisible();
  await page.getByLabel(/Coil cleaning/).check();
  await expect(page.getByText('rides along with the coil').first()).toBeVisible();
  await page.getByLabel('Technician', { exact: true }).selectOption({ label: june.name });
  await page.getByLabel('Day', { exact: true }).fill(daysAgo(0));
  await page.getByLabel('From', { exact: true }).fill('20:30');
  await page.getByLabel('Length').fill('45');
  await accessible();
  await page.getByRole('button', { name: 'Book the visit' }).click();
  await expect(page.getByText(/outside/)).toBeVisible();
  await page.getByLabel('Book anyway').check();
  await page.getByRole('button', { name: 'Book the visit' }).click();
  await expect(page).toHaveURL(/\/week\?day=/);

  // The technician's tablet.
  const van = await browser.newContext({ viewport: { width: 834, height: 1112 }, hasTouch: true });
  const tablet = await van.newPage();
  await tablet.goto(page.url().replace(/\/week.*/, '/sign-in'));
  await tablet.getByLabel('E-mail').fill(june.email);
  await tablet.getByLabel('Password').fill(june.password);
  await tablet.getByRole('button', { name: 'Sign in' }).click();
  await tablet.waitForURL(/\/round/);
  await tablet.getByRole('link', { name: new RegExp(KITCHEN) }).click();
  await tablet.getByRole('button', { name: 'I have arrived' }).click();
  await tablet.getByRole('link', { name: new RegExp(UNIT) }).click();

  // Readings become an estimate as they are typed, each figure with its band.
  const before = tablet.locator('#readings-before');
  await typeReading(before, 'Head pressure', '228');
  await typeReading(before, 'Air into the coil', '95');
  await typeReading(before, 'Running steadily for', '20');
  const estimate = before.getByRole('region', { name: 'Estimate' });
  await expect(estimate.getByText(/^Head is \d+ °F \(\d+ K\) over the air; this unit runs \d+ °F \(\d+ K\) clean\.$/)).toBeVisible();
  await estimate.getByText('The figures').click();
  await expect(estimate.getByText('Heat transfer lost')).toBeVisible();
  await expect(estimate.getByText(/\d+ % \(\d+–\d+\)/).first()).toBeVisible();
  await expect(estimate.getByText('Cooling lost, hot day')).toBeVisible();
  await before.getByRole('button', { name: 'Save readings' }).click();

  // Done by hand first, the low side cannot be skipped.
  await atStep(tablet, 'Leave the unit');
  await tablet
    .locator('#tasks')
    .getByRole('listitem')
    .filter({ hasText: 'Coil cleaning' })
    .getByRole('button', { name: 'Done', exact: true })
    .click();
  await expect(tablet.getByText(/look and grade: .*the drain/)).toBeVisible();
  await atStep(tablet, 'Lock out, look and clean');
  for (const [aspect, label] of [
    ['Condenser coil', 'Packed'],
    ['Ice on the low side', 'Dry'],
    ['Evaporator coil, dirt', 'Clean'],
    ['Drain and pan', 'Slow'],
    ['Condenser coil, as left', 'Bare'],
  ] as const)
    await grade(tablet, aspect, label);
  await tablet.getByRole('button', { name: 'All sound' }).click();
  await atStep(tablet, 'Leave the unit');
  await expect(tablet.getByText(/look and grade/)).toHaveCount(0);
  // Graded, the two inspections are done.
  await expect(tablet.locator('#tasks').getByText('Done', { exact: true })).toHaveCount(3);

  await atStep(tablet, 'Power back, wait, read');
  const after = tablet.locator('#readings-after');
  await typeReading(after, 'Head pressure', '170');
  await typeReading(after, 'Air into the coil', '95');
  await typeReading(after, 'Running steadily for', '20');
  await tablet.getByRole('button', { name: 'Leave the unit' }).click();
  await tablet.getByRole('button', { name: 'Back to the visit' }).click();
  await tablet.getByRole('link', { name: 'Close the visit' }).click();
  await tablet.getByRole('button', { name: 'Nobody there' }).click();
  await tablet.getByRole('button', { name: 'Close the visit and leave' }).click();
  await expect(tablet.getByText('All in the office')).toBeVisible({ timeout: 30_000 });
  await van.close();

  // The rule: tightened, with a reason made of the numbers; the old one is kept as history.
  await page.goto('/customers');
  await page.getByRole('searchbox').first().fill('Gilded');
  await page.keyboard.press('Enter');
  // The answer, not the list that stood there before: it holds the same link.
  await page.waitForURL(/q=Gilded/);
  await page.getByRole('link', { name: KITCHEN }).first().click();
  await page.waitForURL(/\/kitchens\//);
  await page
    .getByRole('link', { name: new RegExp(UNIT) })
    .first()
    .click();
  await page.getByText('Why this date').click();
  // How much is the fleet's word, whose demo record ends today.
  await expect(page.getByText(/Packed at 62 days; .*, so cleaning moves from 12 weeks to [2-8]; /).first()).toBeVisible({
    timeout: 20_000,
  });
  await expect(page.getByText(/every 12 weeks/).first()).toBeAttached();
  await accessible();

  // The owner's list: the kitchen with its evidence.
  const office = await browser.newContext();
  const owner = await office.newPage();
  await owner.goto(page.url().replace(/\/units.*/, '/sign-in'));
  const boss = SIGN_INS.find((p) => p.role === 'owner')!;
  await owner.getByLabel('E-mail').fill(boss.email);
  await owner.getByLabel('Password').fill(boss.password);
  await owner.getByRole('button', { name: 'Sign in' }).click();
  await owner.waitForURL(/\/owner/);
  await expect(owner.getByText(KITCHEN).first()).toBeVisible();
  await office.close();
});
