import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { lastSettled, unitTrouble } from '@/lib/features/equipment/reads/trouble';
import { reviseRulesAfterVisit } from '@/lib/features/intervals/verbs/revise-after-visit';
import { settleFollowUp } from '@/lib/features/follow-ups/verbs/settle-follow-up';
import { useDatabase } from '@/tests/support/database';
import { findingRow, haveOneUnit, personRow, visitRow, visitTaskRow } from '@/tests/support/factories';

const database = useDatabase();
const noon = new Date('2026-11-25T19:00:00Z');
const PACKED = 'Go back: coil was packed';
type Have = Awaited<ReturnType<typeof haveOneUnit>>;

let owner: { userId: string; role: Role };
let dispatcher: { userId: string; role: Role };
beforeAll(async () => {
  const { db } = database;
  const maren = await db.user.create({ data: personRow({ name: 'Maren Oake', role: 'owner' }) });
  const idris = await db.user.create({ data: personRow({ name: 'Idris Fenn', role: 'dispatcher' }) });
  owner = { userId: maren.id, role: 'owner' };
  dispatcher = { userId: idris.id, role: 'dispatcher' };
});

const wanted = (have: Have, over: { what?: string; dueOn?: Date } = {}) =>
  database.db.followUp.create({ data: { unitId: have.unit.id, what: 'Quote a door gasket', urgency: 'quote', createdAt: noon, ...over } });
const onFile = (id: string) => database.db.followUp.findUniqueOrThrow({ where: { id } });
const settle = (followUpId: string, as: 'done' | 'dropped', note = '', actor = dispatcher) =>
  settleFollowUp({ db: database.db, actor, now: noon }, { followUpId, as, note });

describe('a follow-up that the office settles', () => {
  it('is done or dropped, with who, when and what came of it', async () => {
    const have = await haveOneUnit(database.db);
    const [done, dropped] = [await wanted(have), await wanted(have)];
    await settle(done.id, 'done');
    await settle(dropped.id, 'dropped', ' Unit goes in spring ', owner);
    expect(await onFile(done.id)).toEqual({ ...done, status: 'done', resolvedAt: noon, resolvedById: dispatcher.userId });
    expect(await onFile(dropped.id)).toMatchObject({ status: 'dropped', resolvedById: owner.userId, resolvedNote: 'Unit goes in spring' });
    expect((await unitTrouble(database.db, have.unit.id)).followUps).toEqual([]);
    const told = await lastSettled(database.db, have.unit.id, 5);
    expect(told.map((f) => [f.dropped, f.by, f.note]).sort()).toEqual([
      [false, 'Idris Fenn', ''],
      [true, 'Maren Oake', 'Unit goes in spring'],
    ]);
  });

  it('is not dropped without a reason', async () => {
    const { id } = await wanted(await haveOneUnit(database.db));
    await expect(settle(id, 'dropped', '  ')).rejects.toMatchObject({ code: 'invalid', field: 'note' });
    expect((await onFile(id)).status).toBe('open');
  });

  it('is the first one’s: the second is told who', async () => {
    const have = await haveOneUnit(database.db);
    const [one, two] = [await wanted(have), await wanted(have)];
    await settle(one.id, 'dropped', 'Sold');
    await expect(settle(one.id, 'done', 'Mine', owner)).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Idris Fenn has dropped this one already: “Sold”'),
    });
    const both = await Promise.allSettled([settle(two.id, 'done', '', owner), settle(two.id, 'done')]);
    expect(both.map((r) => r.status).sort()).toEqual(['fulfilled', 'rejected']);
  });

  it('is settled by the office only, and only where there is one', async () => {
    const have = await haveOneUnit(database.db);
    const { id } = await wanted(have);
    const technician = { userId: have.person.id, role: 'technician' as const };
    await expect(settle(id, 'done', '', technician)).rejects.toMatchObject({ code: 'not_allowed' });
    await expect(settle(randomUUID(), 'done')).rejects.toMatchObject({ code: 'not_found' });
  });

  it('is by the database’s word open, or resolved', async () => {
    const { id } = await wanted(await haveOneUnit(database.db));
    const change = (data: object) => database.db.followUp.update({ where: { id }, data });
    const by = { resolvedById: owner.userId, resolvedAt: noon };
    await expect(change({ status: 'done' })).rejects.toThrow(/follow_up_open_or_resolved/);
    await expect(change(by)).rejects.toThrow(/follow_up_open_or_resolved/);
    await expect(change({ resolvedNote: 'x' })).rejects.toThrow(/follow_up_open_or_resolved/);
    await expect(change({ ...by, status: 'dropped' })).rejects.toThrow(/follow_up_dropped_says_why/);
    await expect(change({ ...by, status: 'later' })).rejects.toThrow(/follow_up_status/);
    await change({ ...by, status: 'done' });
  });
});

type Seen = {
  coil?: string;
  drainOnly?: boolean;
  outcome?: 'seen' | 'could_not_reach';
  trip?: boolean;
  hour?: number;
  tasks?: boolean;
  notLooked?: string;
};

/** A closed visit of that day, with what was seen on the unit. */
async function visited(have: Have, on: string, { coil, drainOnly, outcome, trip, hour = 16, tasks = true, notLooked }: Seen) {
  const { db } = database;
  const { kitchen, unit, person } = have;
  const at = new Date(`${on}T${hour}:00:00Z`);
  return db.$transaction(async (tx) => {
    const visit = await tx.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
    if (tasks) await tx.visitTask.createMany({ data: have.tasks.map((t) => visitTaskRow(visit.id, t, { outcome: 'done', open: false })) });
    if (outcome) await tx.unitVisit.create({ data: { visitId: visit.id, unitId: unit.id, outcome, reason: 'Locked', at } });
    if (trip) await tx.unitEvent.create({ data: { unitId: unit.id, visitId: visit.id, kind: 'high_pressure_trip', at } });
    const skipped = { grade: null, notLookedWhy: notLooked };
    if (notLooked) await tx.finding.create({ data: findingRow(visit.id, unit.id, 'gasket', null, at, skipped) });
    if (drainOnly) await tx.finding.create({ data: findingRow(visit.id, unit.id, 'drain', 'runs', at) });
    if (coil)
      await tx.finding.createMany({
        data: [
          ['coil', coil],
          ['ice', 'dry'],
          ['drain', 'runs'],
        ].map(([aspect, grade]) => findingRow(visit.id, unit.id, aspect as Aspect, grade as Grade, at)),
      });
    return visit;
  });
}
const close = (visit: { id: string; startsAt: Date }, actor: { userId: string } | null = null) =>
  reviseRulesAfterVisit({ db: database.db, actor, now: new Date(visit.startsAt.getTime() + 3600_000) }, visit.id);
const returns = async ({ unit }: Have) =>
  (await database.db.followUp.findMany({ where: { unitId: unit.id }, orderBy: [{ createdAt: 'asc' }, { what: 'asc' }] })).map((f) => ({
    what: f.what,
    status: f.status,
    visitId: f.visitId,
    note: f.resolvedNote,
  }));

describe('going back', () => {
  it('is done once a later visit has looked at the unit, and says which', async () => {
    const have = await haveOneUnit(database.db);
    const first = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(first);
    expect(await returns(have)).toEqual([{ what: PACKED, status: 'open', visitId: first.id, note: '' }]);
    await close(await visited(have, '2026-03-13', { coil: 'bare' }), { userId: have.person.id });
    expect(await returns(have)).toEqual([{ what: PACKED, status: 'done', visitId: first.id, note: 'Seen at the visit of 13 Mar 2026.' }]);
    expect(await database.db.followUp.count({ where: { unitId: have.unit.id, resolvedById: have.person.id } })).toBe(1);
  });

  it('stays open where nobody got to the unit, or what it is about was not looked at', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-03-08', { coil: 'packed' }));
    await close(await visited(have, '2026-03-13', { coil: 'furred', outcome: 'could_not_reach' }));
    await close(await visited(have, '2026-03-14', { tasks: false, notLooked: 'Boxes before it' }));
    await close(await visited(have, '2026-03-14', { tasks: false, drainOnly: true, hour: 18 }));
    expect(await returns(have)).toMatchObject([{ status: 'open' }]);
    await close(await visited(have, '2026-03-15', { coil: 'furred', outcome: 'seen' }));
    expect(await returns(have)).toMatchObject([{ status: 'done' }]);
  });

  it('never settles what a person asked for, whatever the words', async () => {
    const have = await haveOneUnit(database.db);
    const first = await visited(have, '2026-03-08', { coil: 'packed' });
    const asked = [await wanted(have, { dueOn: noon }), await wanted(have, { what: PACKED })];
    await database.db.followUp.updateMany({ where: { id: { in: asked.map((f) => f.id) } }, data: { visitId: first.id } });
    await close(first);
    expect(await returns(have)).toHaveLength(3);
    await close(await visited(have, '2026-03-13', { coil: 'bare' }));
    for (const f of asked) expect((await onFile(f.id)).status).toBe('open');
  });

  it('is asked for again when the same is found again, whatever became of the last', async () => {
    const have = await haveOneUnit(database.db);
    const spring = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(spring);
    const autumn = await visited(have, '2026-09-08', { coil: 'packed' });
    expect((await close(autumn)).followUpIds).toHaveLength(1);
    expect((await close(autumn)).followUpIds).toEqual([]);
    const stands = [
      { what: PACKED, status: 'done', visitId: spring.id },
      { what: PACKED, status: 'open', visitId: autumn.id },
    ];
    expect(await returns(have)).toMatchObject(stands);
    expect((await close(spring)).followUpIds).toEqual([]);
    expect(await returns(have)).toMatchObject(stands);
  });

  it('is asked for once by two visits of one day', async () => {
    const have = await haveOneUnit(database.db);
    const morning = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(morning);
    await close(await visited(have, '2026-03-08', { coil: 'packed', hour: 20 }));
    expect(await returns(have)).toMatchObject([{ status: 'open', visitId: morning.id }]);
  });

  it('is not asked for by a visit that is closed after a later one looked at the unit', async () => {
    const have = await haveOneUnit(database.db);
    const first = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(await visited(have, '2026-03-13', { coil: 'bare' }));
    expect((await close(first)).followUpIds).toEqual([]);
  });

  it('is asked for once for one trip, and again for the next', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-03-08', { coil: 'furred', trip: true, tasks: false }));
    await close(await visited(have, '2026-03-13', { coil: 'furred', tasks: false }));
    expect(await returns(have)).toMatchObject([{ what: 'Go back: tripped on high pressure', status: 'done' }]);
    await close(await visited(have, '2026-03-20', { coil: 'furred', trip: true, tasks: false }));
    expect((await returns(have)).map((r) => r.status)).toEqual(['done', 'open']);
  });

  it('is not settled a second time by hand', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-03-08', { coil: 'packed' }));
    const [open] = await database.db.followUp.findMany({ where: { unitId: have.unit.id } });
    await close(await visited(have, '2026-03-13', { coil: 'bare' }));
    await expect(settle(open!.id, 'done')).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('A closed visit has settled this one as done already: “Seen at the visit of 13 Mar 2026.”'),
    });
  });
});
