import { expect, it } from 'vitest';
import { addDays, todayIn } from '@/lib/core/calendar';
import { STORED_CHOICE } from '@/lib/database/stored/choices';
import { choicesOf, shopCosts, toLookAtAgain, unitFacts } from '@/lib/features/choices/reads/unit-facts';
import { decideUnit, lookAgain } from '@/lib/features/choices/verbs/decide-unit';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, jobRow, visitRow, visitTaskRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T17:00:00Z');
const typed = {
  coilPrice: 900,
  coilYears: 10,
  unitPrice: 6000,
  unitYears: 12,
  leftYears: 6,
  useKwh: null,
  newKwh: null,
  callOut: 260,
  refrigerantPerKg: 45,
  interest: 0.06,
};

async function begun() {
  const { db } = database;
  const shop = await haveOneUnit(db, { unit: { createdAt: new Date('2024-11-27T17:00:00Z') } });
  const ctx = {
    db,
    now,
    actor: { userId: shop.person.id, name: shop.person.name, role: 'owner' as const, sessionId: crypto.randomUUID() },
  };
  const priced = (policy: object) =>
    db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: 0.18, policy: { v: 1, ...policy } } });
  return { ...shop, db, ctx, priced };
}

it('what is on file of a unit is counted from its own jobs, visits and days it failed', async () => {
  const { db, unit, kitchen, person, tasks } = await begun();
  const visit = await db.visit.create({
    data: { ...visitRow(kitchen.id, person.id, new Date('2026-06-01T15:00:00Z'), 60), status: 'done' },
  });
  const seen = { visitId: visit.id, unitId: unit.id, at: visit.startsAt, byUserId: person.id };
  const { neededBeforeClosing } = await db.taskKind.findUniqueOrThrow({ where: { key: 'coil_cleaning' } });
  for (const aspect of neededBeforeClosing) await db.finding.create({ data: { ...seen, aspect, grade: null, notLookedWhy: 'Riveted' } });
  for (const phase of ['found', 'left'] as const) await db.finding.create({ data: { ...seen, aspect: 'coil', grade: 'bare', phase } });
  const coil = tasks.find((t) => t.kindKey === 'coil_cleaning');
  if (coil) await db.visitTask.create({ data: { ...visitTaskRow(visit.id, coil), outcome: 'done', open: false } });
  await db.job.create({ data: { ...jobRow(unit, { source: 'call', createdAt: new Date('2026-07-01T15:00:00Z') }) } });
  for (const at of ['2026-07-01T15:00:00Z', '2026-07-01T18:00:00Z', '2026-08-02T15:00:00Z'])
    await db.unitEvent.create({ data: { unitId: unit.id, kind: 'high_pressure_trip', at: new Date(at) } });
  const facts = await unitFacts(db, unit.id, now);
  expect(facts?.callOuts).toEqual({ times: 1, years: 2 });
  expect(facts?.cleanings.times).toBe(1);
  // Two trips of one day are one day that it failed.
  expect(facts?.failures.times).toBe(2);
});

it('a decision is kept with its reason and figures, and comes back a year on, once', async () => {
  const { db, unit, ctx, priced, kitchen } = await begun();
  await priced({});
  await expect(decideUnit(ctx, { unitId: unit.id, way: 'repair', reason: 'Coil is eaten', ...typed })).rejects.toMatchObject({
    code: 'invalid',
  });
  expect((await shopCosts(db, unit.id)).lacks).toEqual(['a coil cleaning', 'a breakdown']);
  await priced({ cleaningCost: 110, failureCost: 1800 });
  await expect(decideUnit(ctx, { unitId: unit.id, way: 'replace', reason: 'x', ...typed, unitPrice: null })).rejects.toMatchObject({
    field: 'way',
  });
  await decideUnit(ctx, { unitId: unit.id, way: 'repair', reason: 'Coil is eaten', ...typed });
  const [kept] = await choicesOf(db, unit.id);
  const today = todayIn(kitchen.timeZone, now.getTime());
  expect(kept).toMatchObject({ way: 'repair', reason: 'Coil is eaten', lookAgainOn: addDays(today, 365), lookedAt: null });
  const row = await db.unitChoice.findUniqueOrThrow({ where: { id: kept?.id } });
  expect(STORED_CHOICE.read(row.figures)).toMatchObject({
    facts: { callOuts: { times: 0 } },
    typed: { coilPrice: 900 },
    costs: { cleaning: 110 },
    result: { ways: [{ way: 'go_on' }, { way: 'repair' }, { way: 'replace' }] },
  });
  expect(await toLookAtAgain(db, addDays(today, 364))).toEqual([]);
  expect(await toLookAtAgain(db, addDays(today, 365))).toMatchObject([{ id: kept?.id, unit: { id: unit.id } }]);
  const note = { id: kept?.id ?? '', note: 'It held; the coil was right.' };
  await lookAgain(ctx, note);
  await expect(lookAgain(ctx, note)).rejects.toMatchObject({ code: 'conflict' });
  expect(await toLookAtAgain(db, addDays(today, 400))).toEqual([]);
  expect((await choicesOf(db, unit.id))[0]).toMatchObject({ lookedNote: note.note, lookedBy: ctx.actor.name });
});

it('the database keeps no decision without a reason, and no second look without a word', async () => {
  const { db, unit, person } = await begun();
  const row = { unitId: unit.id, byUserId: person.id, way: 'go_on' as const, reason: 'Fine', figures: {}, lookAgainOn: now };
  await expect(db.unitChoice.create({ data: { ...row, reason: '' } })).rejects.toThrow(/unit_choice_has_reason/);
  await expect(db.unitChoice.create({ data: { ...row, lookedAt: now } })).rejects.toThrow(/unit_choice_looked_at/);
  await expect(db.unitChoice.create({ data: { ...row, lookedNote: 'x' } })).rejects.toThrow(/unit_choice_looked_at/);
});
