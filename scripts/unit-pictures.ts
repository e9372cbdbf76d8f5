// Pictures of a unit's page, step by step, for each kind of unit, on a tablet and on a phone:
//   npx tsx scripts/unit-pictures.ts --at http://localhost:3000 [--into .data/pictures] [--only ice-machine] [--fresh]
// Needs the demo shop running. The round is the shop's own; its first unit is shown as built otherwise each time.
// --fresh takes the tablet's screens from the sources as they are, without a build of the app.
import { mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { chromium, type Page } from '@playwright/test';
import people from '../prisma/seed/sign-ins.json' with { type: 'json' };
import { TASK_KIND_INFO, usualTasks } from '../lib/core/tasks/kinds';
import { WORK_STEPS } from '../lib/core/findings/cautions';
import type { RoundReply, UnitOnFile, VisitOnFile } from '../lib/core/tablet';
import { screensToScroll } from '../tests/e2e/support/taps';
import { QUIET_BROWSER } from './support/browser-arguments.mjs';
import { findBrowser } from './support/browser.mjs';
import { bundleTablet } from './support/tablet.mjs';

const SIZES = { tablet: { width: 834, height: 1112 }, phone: { width: 390, height: 844 } } as const;

const PLUG: Partial<UnitOnFile> = {
  kind: 'reach_in',
  condenserKind: 'fin_and_tube',
  circuitAccess: 'sealed',
  application: 'medium',
  roofWork: false,
};
const BUILDS: Record<string, Partial<UnitOnFile>> = {
  'reach-in': { ...PLUG, refrigerant: 'R134a' },
  'ice-machine': { ...PLUG, kind: 'ice_machine', application: 'low', circuitAccess: 'ports', refrigerant: 'R404A' },
  'ice-machine-water': { ...PLUG, kind: 'ice_machine', application: 'low', circuitAccess: 'ports', condenserKind: 'water_cooled', refrigerant: 'R404A' },
  'water-cooled': { ...PLUG, condenserKind: 'water_cooled', circuitAccess: 'ports', refrigerant: 'R134a' },
  microchannel: { ...PLUG, condenserKind: 'microchannel', refrigerant: 'R134a' },
  'wire-and-tube': { ...PLUG, kind: 'undercounter', condenserKind: 'wire_and_tube', refrigerant: 'R600a', chargeKg: 0.06 },
  'boxed-in': { ...PLUG, kind: 'drawer_base', placement: 'fryer', refrigerant: 'R134a' },
  co2: { ...PLUG, kind: 'display', circuitAccess: 'ports', refrigerant: 'R744', chargeKg: 1.1, cutoutPaGauge: 12_000_000 },
  a2l: { ...PLUG, kind: 'prep_table', circuitAccess: 'ports', refrigerant: 'R454C', chargeKg: 0.9 },
  a3: { ...PLUG, refrigerant: 'R290', chargeKg: 0.15 },
  'roof-unit': { ...PLUG, kind: 'remote_condensing_unit', circuitAccess: 'ports', refrigerant: 'R448A', placement: 'outdoors', roofWork: true, chargeKg: 9 },
  'walk-in-cooler': { ...PLUG, kind: 'walk_in_cooler', circuitAccess: 'ports', refrigerant: 'R448A', chargeKg: 4.5 },
  'walk-in-freezer': { ...PLUG, kind: 'walk_in_freezer', application: 'low', circuitAccess: 'ports', refrigerant: 'R448A', chargeKg: 6, roofWork: true },
  'not-known': { ...PLUG, refrigerant: 'unknown' },
  'old-deposit': { ...PLUG, refrigerant: 'R134a', oldDeposit: 'The sentence of the office stands here.' },
}; // prettier-ignore

const { values: given } = parseArgs({
  options: {
    at: { type: 'string', default: 'http://localhost:3000' },
    into: { type: 'string', default: '.data/pictures' },
    only: { type: 'string' },
    fresh: { type: 'boolean', default: false },
  },
});

/** The round's answer with its first booked visit's first unit built as asked, its usual tasks planned. */
function rebuilt(reply: RoundReply, build: Partial<UnitOnFile>): RoundReply {
  const visit = reply.changed.find((v) => v.status === 'booked');
  const first = visit?.units[0];
  if (!visit || !first) throw new Error('The shop has no booked visit.');
  const built = { ...first, ...build, boxSetK: build.kind === 'ice_machine' ? null : first.boxSetK } as UnitOnFile;
  const tasks = usualTasks(built).map((kindKey, n) => ({
    taskId: `00000000-0000-4000-8000-00000000000${n}`,
    unitId: built.id,
    kindKey,
    label: TASK_KIND_INFO[kindKey].label,
    minutes: TASK_KIND_INFO[kindKey].minutes,
    lowSide: TASK_KIND_INFO[kindKey].lowSide,
    dueOn: visit.startsAt.slice(0, 10),
    outcome: 'planned' as const,
    reason: '',
  }));
  const unit: UnitOnFile = { ...built, tasks: tasks.map(({ unitId: _, outcome: __, reason: ___, ...standing }) => standing) };
  const changed: VisitOnFile = {
    ...visit,
    units: [unit, ...visit.units.slice(1)],
    tasks: [...tasks, ...visit.tasks.filter((t) => t.unitId !== unit.id)],
  };
  return { ...reply, changed: reply.changed.map((v) => (v === visit ? changed : v)) };
}

/** The tablet's screens as they are in the sources. */
async function fresh(page: Page, folder: string): Promise<void> {
  const { shell } = JSON.parse(readFileSync(path.join(folder, 'bundle.json'), 'utf8')) as { shell: string };
  await page.route('**/round', (route) => route.fulfill({ contentType: 'text/html', body: shell }));
  await page.route('**/round-app/*', (route) =>
    route.fulfill({ path: path.join(folder, 'files', new URL(route.request().url()).pathname.split('/').at(-1) ?? '') }),
  );
}

const { executablePath } = await findBrowser();
const browser = await chromium.launch({ executablePath: executablePath || undefined, args: [...QUIET_BROWSER] });
const bundle = path.resolve('.data/tablet-fresh');
if (given.fresh) await bundleTablet({ folder: bundle, development: false });
mkdirSync(given.into, { recursive: true });
const person = people.find((p) => p.role === 'technician');
const signedIn = await browser.newContext({ baseURL: given.at });
const { csrfToken } = (await (await signedIn.request.get('/api/auth/csrf')).json()) as { csrfToken: string };
await signedIn.request.post('/api/auth/callback/credentials', {
  form: { csrfToken, email: person?.email ?? '', password: person?.password ?? '', json: 'true' },
});
const storageState = await signedIn.storageState();
for (const [name, build] of Object.entries(BUILDS)) {
  if (given.only && !given.only.split(',').includes(name)) continue;
  for (const [size, viewport] of Object.entries(SIZES)) {
    const context = await browser.newContext({
      baseURL: given.at,
      viewport,
      storageState,
      serviceWorkers: 'block',
      locale: 'en-US',
      hasTouch: true,
    });
    const page = await context.newPage();
    if (given.fresh) await fresh(page, bundle);
    const shown = { visit: '', unit: '' };
    await page.route('**/api/sync/round**', async (route) => {
      const answer = await route.fetch();
      const reply = rebuilt((await answer.json()) as RoundReply, build);
      const visit = reply.changed.find((v) => v.status === 'booked');
      Object.assign(shown, { visit: visit?.id, unit: visit?.units[0]?.id });
      await route.fulfill({ response: answer, json: reply });
    });
    await page.goto('/round');
    await page.getByText('All in the office').waitFor();
    let screens = 0;
    for (const step of WORK_STEPS) {
      await page.goto(`/round#/visit/${shown.visit}/unit/${shown.unit}/${step}`);
      await page.getByRole('navigation', { name: 'Onward' }).waitFor();
      await page.waitForTimeout(300);
      screens += await screensToScroll(page);
      await page.screenshot({ path: path.join(given.into, `${name}-${size}-${step}.png`), fullPage: true });
    }
    console.log(`${name}, ${size}: ${screens.toFixed(2)} screens to scroll`);
    await context.close();
  }
}
await browser.close();
