import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { exportFleet } from '@/lib/features/fleet-csv/verbs/export-fleet';
import { editPerson } from '@/lib/features/people/verbs/edit-person';
import { setActive } from '@/lib/features/people/verbs/set-active';
import { setPassword } from '@/lib/features/people/verbs/set-password';
import { claimRun } from '@/lib/features/planning/verbs/plan-claim';
import { weekProblem } from '@/lib/features/planning/reads/week-problem';
import { kitchenTasks } from '@/lib/features/visits/reads/visits';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, personRow, unitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
const monday = localDate('2026-11-30');

describe('what was taken out of use', () => {
  it('is neither planned nor exported: a unit, and a whole kitchen', async () => {
    const { db } = database;
    const due = { person: { shifts: ANY_TIME } };
    const kept = await haveOneUnit(db, { ...due, kitchen: { name: 'Kept kitchen' }, unit: { name: 'Kept unit' } });
    const gone = await haveOneUnit(db, { ...due, kitchen: { name: 'Kitchen of a gone unit' }, unit: { name: 'Gone unit' } });
    const closed = await haveOneUnit(db, { ...due, kitchen: { name: 'Closed kitchen' }, unit: { name: 'Unit of the closed' } });
    const ids = (p: Awaited<ReturnType<typeof weekProblem>>['problem']) => new Set(p.tasks.map((t) => t.id));
    await db.task.updateMany({ data: { dueOn: new Date('2026-11-20') } });
    const all = ids((await weekProblem(db, monday, now)).problem);
    for (const shop of [kept, gone, closed]) expect(shop.tasks.some((t) => all.has(t.id))).toBe(true);

    await db.unit.update({ where: { id: gone.unit.id }, data: { archivedAt: now } });
    await db.kitchen.update({ where: { id: closed.kitchen.id }, data: { archivedAt: now } });
    await db.unit.update({ where: { id: closed.unit.id }, data: { archivedAt: now } });
    await db.unit.create({ data: unitRow(kept.kitchen.id, { name: 'Sold unit', archivedAt: now }) });
    const week = await weekProblem(db, monday, now);
    const left = ids(week.problem);
    // Nor counted as due to whoever asks for the plan.
    expect((await week.input()).due).toEqual({ tasks: kept.tasks.length, kitchens: 1, onVisits: 0 });
    expect((await week.input()).unitsOnFile).toBe(1);
    expect(kept.tasks.some((t) => left.has(t.id))).toBe(true);
    expect([...gone.tasks, ...closed.tasks].filter((t) => left.has(t.id))).toEqual([]);
    // Nor offered to whoever books by hand.
    expect(await kitchenTasks(db, gone.kitchen.id)).toEqual([]);
    expect(await kitchenTasks(db, kept.kitchen.id)).toHaveLength(kept.tasks.length);

    const exported = async () => {
      let text = '';
      for await (const part of exportFleet({ db, actor: { userId: kept.person.id } })) text += part;
      return text;
    };
    const csv = await exported();
    expect(csv).toContain('Kept unit');
    expect(csv).not.toContain('Gone unit');
    expect(csv).not.toContain('Sold unit');
    expect(csv).not.toContain('Closed kitchen');
    // A kitchen out of use takes its units along, whatever stands on them.
    await db.unit.update({ where: { id: closed.unit.id }, data: { archivedAt: null } });
    expect(await exported()).not.toContain('Unit of the closed');
    const planned = ids((await weekProblem(db, monday, now)).problem);
    expect(closed.tasks.filter((t) => planned.has(t.id))).toEqual([]);
  });
});

describe('a queued search', () => {
  it('is taken once, and alone', async () => {
    const { db } = database;
    const { person } = await haveOneUnit(db);
    const make = () => db.planRun.create({ data: { createdById: person.id, weekStart: new Date('2026-11-30') } });
    const [first, second] = [await make(), await make()];
    expect(await claimRun(db, first.id)).not.toBeNull();
    expect(await claimRun(db, first.id)).toBeNull();
    const stands = await db.planRun.findMany({ where: { id: { in: [first.id, second.id] } }, select: { id: true, status: true } });
    expect(new Map(stands.map((r) => [r.id, r.status]))).toEqual(new Map([[first.id, 'running'], [second.id, 'queued']])); // prettier-ignore
  });
});

describe('the audit', () => {
  let actor = { userId: '' };
  beforeAll(async () => {
    actor = { userId: (await database.db.user.create({ data: personRow({ role: 'owner', name: 'Maren' }) })).id };
  });

  it('keeps who did what to a person, from what to what, and never a password', async () => {
    const { db } = database;
    const tova = await db.user.create({ data: personRow({ name: 'Tova', role: 'technician', version: 1 }) });
    const ctx = { db, actor, now };
    const fields = {
      name: 'Tova',
      email: tova.email,
      role: 'dispatcher' as const,
      alsoVisits: false,
      skills: [],
      shifts: [],
      onCall: [],
      phone: '',
    };
    const gauge = { gaugeGrade: '1A' as const, gaugeSpanPa: 3_447_379, homeLat: null, homeLng: null };
    await editPerson(ctx, { id: tova.id, version: 1, ...fields, ...gauge });
    await setPassword(ctx, { id: tova.id, password: 'nine lanterns by the sea' });
    await setActive(ctx, { id: tova.id, version: 2, active: 'no' });
    const rows = await db.auditEntry.findMany({ where: { entity: 'User', entityId: tova.id }, orderBy: { id: 'asc' } });
    expect(rows.map((r) => [r.action, r.userId])).toEqual([
      ['person.edited', actor.userId],
      ['person.password_set', actor.userId],
      ['person.deactivated', actor.userId],
    ]);
    expect(rows[0]?.detail).toMatchObject({ changed: { role: ['technician', 'dispatcher'] } });
    expect(JSON.stringify(rows.map((r) => r.detail))).not.toMatch(/lanterns|argon2/);
  });
});

describe('a proposed day', () => {
  it('ends with the shift, unless the shop lets it run over', async () => {
    const { db } = database;
    await haveOneUnit(db, { person: { shifts: ANY_TIME } });
    const over = async () =>
      (await weekProblem(db, monday, now)).problem.technicians.flatMap((t) => t.shifts.map((s) => s.overtimeMinutes));
    expect(new Set(await over())).toEqual(new Set([0]));
    await db.shopSettings.updateMany({ data: { overShiftMinutes: 45 } });
    expect(new Set(await over())).toEqual(new Set([45]));
    await expect(db.shopSettings.updateMany({ data: { overShiftMinutes: 181 } })).rejects.toThrow(/ShopSettings_over_shift/);
    await expect(db.shopSettings.updateMany({ data: { overShiftMinutes: -1 } })).rejects.toThrow(/ShopSettings_over_shift/);
  });
});
