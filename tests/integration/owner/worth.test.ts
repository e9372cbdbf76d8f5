import { beforeAll, expect, it } from 'vitest';
import { foresightsSince } from '@/lib/features/owner/reads/foresights';
import { worthToday } from '@/lib/features/owner/reads/worth';
import { workOutWorth } from '@/lib/features/owner/verbs/work-out-worth';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { refitFleet } from '@/lib/features/intervals/verbs/refit-fleet';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const HOUR = 3_600_000;
const later = (hours: number) => new Date(now.getTime() + hours * HOUR);
const PRICES = { cleaningCost: 110, failureCost: 1800 };
const today = async (at: Date, prices = PRICES) => worthToday(database.db, at, prices, await policyOnFile(database.db));

beforeAll(async () => {
  const { db } = database;
  const { kitchen, unit, person } = await haveOneUnit(db);
  const unseen = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Never looked at' }) });
  const at = later(-16 * 24);
  const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
  await db.finding.create({ data: findingRow(visit.id, unit.id, 'coil', 'matted', at) });
  await db.task.create({
    data: { unitId: unseen.id, kitchenId: kitchen.id, kindKey: 'coil_cleaning', rule: 'FREQ=WEEKLY;INTERVAL=12', anchorDate: now, dueOn: now, minWeeks: 2, maxWeeks: 52 },
  }); // prettier-ignore
  await refitFleet({ db, now });
});

it('what cleaning saves is not reckoned before the shop has said what things cost', async () => {
  await workOutWorth({ db: database.db, now });
  expect(await database.db.ownerFigure.count()).toBe(0);
});

it('it is kept by night with its moment, told as kept for a day, and reckoned anew where that is older or prices are others', async () => {
  const { db } = database;
  const fresh = await today(now);
  expect(fresh).toMatchObject({ at: now, unseen: 1, more: false, days: 30 });
  expect(fresh.worth?.energy.value).toBeGreaterThan(0);
  await db.shopSettings.update({ where: { id: 1 }, data: { policy: { v: 1, ...PRICES } } });
  await workOutWorth({ db, now });
  const kept = await today(later(29));
  expect(kept.at).toEqual(now);
  expect(kept.worth?.energy.value).toBeCloseTo(fresh.worth?.energy.value ?? NaN, 9);
  expect((await today(later(30))).at).toEqual(later(30));
  expect((await today(later(1), { ...PRICES, failureCost: 900 })).at).toEqual(later(1));
  await workOutWorth({ db, now: later(24) });
  expect((await today(later(40))).at).toEqual(later(24));
  expect(await db.ownerFigure.count()).toBe(1);
});

it('since when anything was foretold is the first day of it', async () => {
  const { db } = database;
  expect(await foresightsSince(db)).toBeNull();
  const unit = await db.unit.findFirstOrThrow({ where: { name: 'Reach-in' } });
  const visit = await db.visit.findFirstOrThrow();
  const row = { unitId: unit.id, visitId: visit.id, evidence: 1, modelVersion: 't', chances: [1, 0, 0, 0, 0], likely: [0], likelyChance: 1, lnK: 0, lnKSd: 1, mattedChance: 0 }; // prettier-ignore
  await db.foresight.create({ data: { ...row, on: new Date('2026-02-16') } });
  expect(await foresightsSince(db)).toEqual(new Date('2026-02-16'));
});
