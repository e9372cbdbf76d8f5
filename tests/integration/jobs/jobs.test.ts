import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { jobsOfUnit } from '@/lib/features/equipment/reads/trouble';
import { reviseRulesAfterVisit } from '@/lib/features/intervals/verbs/revise-after-visit';
import { foundAgain, leaveVisit } from '@/lib/features/jobs/verbs/after-visit';
import { applyOutcomes } from '@/lib/features/jobs/verbs/apply-outcomes';
import { putOnVisit } from '@/lib/features/jobs/verbs/book-job';
import { localDate } from '@/lib/core/calendar';
import type { JobOutcome } from '@/lib/core/entries/entries';
import { settleJob } from '@/lib/features/jobs/verbs/settle-job';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { useDatabase } from '@/tests/support/database';
import { findingRow, haveOneUnit, jobRow, personRow, visitRow, visitTaskRow } from '@/tests/support/factories';

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
  database.db.job.create({ data: jobRow(have.unit, { needsQuote: true, createdAt: noon, ...over }) });
const onFile = (id: string) => database.db.job.findUniqueOrThrow({ where: { id } });
const settle = (jobId: string, as: 'done' | 'declined', note = '', actor = dispatcher) =>
  settleJob({ db: database.db, actor, now: noon }, { jobId, as, note });

describe('a job that the office settles', () => {
  it('is done or declined, with who, when and what came of it', async () => {
    const have = await haveOneUnit(database.db);
    const [done, declined] = [await wanted(have), await wanted(have)];
    await settle(done.id, 'done');
    await settle(declined.id, 'declined', ' Unit goes in spring ', owner);
    expect(await onFile(done.id)).toEqual({ ...done, state: 'done', closedAt: noon, closedById: dispatcher.userId, version: 2 });
    expect(await onFile(declined.id)).toMatchObject({ state: 'declined', closedById: owner.userId, closedNote: 'Unit goes in spring' });
    expect(await database.db.jobEvent.findMany({ where: { jobId: declined.id }, orderBy: { at: 'desc' } })).toContainEqual(
      expect.objectContaining({
        kind: 'moved',
        from: 'asked',
        to: 'declined',
        reason: 'Unit goes in spring',
        at: noon,
        byUserId: owner.userId,
      }),
    );
    const { open, settled } = await jobsOfUnit(database.db, have.unit.id);
    expect(open).toEqual([]);
    expect(settled.map((f) => [f.declined, f.by, f.note]).sort()).toEqual([
      [false, 'Idris Fenn', ''],
      [true, 'Maren Oake', 'Unit goes in spring'],
    ]);
  });

  it('is not declined without a reason', async () => {
    const { id } = await wanted(await haveOneUnit(database.db));
    await expect(settle(id, 'declined', '  ')).rejects.toMatchObject({ code: 'invalid', field: 'note' });
    expect((await onFile(id)).state).toBe('asked');
  });

  it('is the first one’s: the second is told who', async () => {
    const have = await haveOneUnit(database.db);
    const [one, two] = [await wanted(have), await wanted(have)];
    await settle(one.id, 'declined', 'Sold');
    await expect(settle(one.id, 'done', 'Mine', owner)).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Idris Fenn has declined this one already: “Sold”'),
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

  it('is by the database’s word open, or closed with a name and a reason', async () => {
    const have = await haveOneUnit(database.db);
    const { id } = await wanted(have);
    const change = (data: object) => database.db.job.update({ where: { id }, data });
    const by = { closedById: owner.userId, closedAt: noon };
    await expect(change({ state: 'done' })).rejects.toThrow(/job_closed_says_when/);
    await expect(change(by)).rejects.toThrow(/job_closed_says_when/);
    await expect(change({ closedNote: 'x' })).rejects.toThrow(/job_open_says_no_end/);
    await expect(change({ ...by, state: 'declined' })).rejects.toThrow(/job_declined_says_why/);
    await expect(change({ state: 'declined', closedAt: noon, closedNote: 'Sold' })).rejects.toThrow(/job_declined_says_why/);
    await expect(change({ state: 'booked' })).rejects.toThrow(/job_booked_has_visit/);
    await expect(change({ what: '' })).rejects.toThrow(/job_says_what/);
    await change({ ...by, state: 'done' });
    await expect(change({ state: 'asked', closedAt: null, closedById: null })).rejects.toThrow(/job_done_stays/);
    await expect(database.db.jobEvent.updateMany({ where: { jobId: id }, data: { reason: 'x' } })).rejects.toThrow(/job_event_append_only/);
    await expect(database.db.jobEvent.deleteMany({ where: { jobId: id } })).rejects.toThrow(/job_event_append_only/);
    await database.db.job.delete({ where: { id } });
    expect(await database.db.jobEvent.count({ where: { jobId: id } })).toBe(0);
  });

  it('is not left booked on a visit that is over', async () => {
    const have = await haveOneUnit(database.db);
    const { db } = database;
    const visit = await db.visit.create({ data: visitRow(have.kitchen.id, have.person.id, noon, 60) });
    const { id } = await db.job.create({ data: jobRow(have.unit, { state: 'booked', visitId: visit.id }) });
    await expect(db.visit.update({ where: { id: visit.id }, data: { status: 'cancelled', cancelReason: 'x' } })).rejects.toThrow(
      /job_booked_on_open_visit/,
    );
    const ctx = { db, actor: dispatcher, now: noon, baseUrl: 'http://localhost' };
    await cancelVisit(ctx, { visitId: visit.id, version: 1, reason: 'Kitchen closed' });
    expect(await onFile(id)).toMatchObject({ state: 'asked', visitId: visit.id });
    await expect(db.job.update({ where: { id }, data: { state: 'booked' } })).rejects.toThrow(/job_booked_on_open_visit/);
  });
});

type Seen = {
  coil?: string;
  drainOnly?: boolean;
  drain?: Grade;
  outcome?: 'seen' | 'could_not_reach';
  trip?: boolean;
  hour?: number;
  tasks?: boolean;
  notLooked?: string;
};

/** A closed visit of that day, with what was seen on the unit. */
async function visited(
  have: Have,
  on: string,
  { coil, drainOnly, drain = 'runs', outcome, trip, hour = 16, tasks = true, notLooked }: Seen,
) {
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
    if (drainOnly) await tx.finding.create({ data: findingRow(visit.id, unit.id, 'drain', drain, at) });
    if (coil)
      await tx.finding.createMany({
        data: [
          ['coil', coil],
          ['ice', 'dry'],
          ['drain', 'runs'],
        ].map(([aspect, grade]) => findingRow(visit.id, unit.id, aspect as Aspect, grade as Grade, at)),
      });
    // Cleaned, it is left clean.
    if (coil && tasks) await tx.finding.create({ data: findingRow(visit.id, unit.id, 'coil', 'bare', at, { phase: 'left' }) });
    return visit;
  });
}
const close = (visit: { id: string; startsAt: Date }, actor: { userId: string } | null = null) =>
  reviseRulesAfterVisit({ db: database.db, actor, now: new Date(visit.startsAt.getTime() + 3600_000) }, visit.id);
const returns = async ({ unit }: Have) =>
  (
    await database.db.job.findMany({
      where: { units: { some: { unitId: unit.id } } },
      orderBy: [{ createdAt: 'asc' }, { what: 'asc' }],
      include: { events: { where: { kind: 'found_again' } } },
    })
  ).map((j) => ({ what: j.what, state: j.state, visitId: j.foundVisitId, note: j.closedNote, again: j.events.length }));

describe('going back', () => {
  it('is done once a later visit has looked at the unit, and says which', async () => {
    const have = await haveOneUnit(database.db);
    const first = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(first);
    expect(await returns(have)).toEqual([{ what: PACKED, state: 'asked', visitId: first.id, note: '', again: 0 }]);
    await close(await visited(have, '2026-03-13', { coil: 'bare' }), { userId: have.person.id });
    expect(await returns(have)).toEqual([{ what: PACKED, state: 'done', visitId: first.id, note: 'Found right at a visit.', again: 0 }]);
    expect(await database.db.job.count({ where: { units: { some: { unitId: have.unit.id } }, closedById: have.person.id } })).toBe(1);
  });

  it('stays open where nobody got to the unit, or what it is about was not looked at', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-03-08', { coil: 'packed' }));
    await close(await visited(have, '2026-03-13', { coil: 'furred', outcome: 'could_not_reach' }));
    await close(await visited(have, '2026-03-14', { tasks: false, notLooked: 'Boxes before it' }));
    await close(await visited(have, '2026-03-14', { tasks: false, drainOnly: true, hour: 18 }));
    expect(await returns(have)).toMatchObject([{ state: 'asked' }]);
    await close(await visited(have, '2026-03-15', { coil: 'furred', outcome: 'seen' }));
    expect(await returns(have)).toMatchObject([{ state: 'done' }]);
  });

  it('never settles what a person asked for, whatever the words', async () => {
    const have = await haveOneUnit(database.db);
    const first = await visited(have, '2026-03-08', { coil: 'packed' });
    const asked = [await wanted(have, { dueOn: noon }), await wanted(have, { what: PACKED })];
    await database.db.job.updateMany({ where: { id: { in: asked.map((f) => f.id) } }, data: { foundVisitId: first.id } });
    await close(first);
    expect(await returns(have)).toHaveLength(3);
    await close(await visited(have, '2026-03-13', { coil: 'bare' }));
    for (const f of asked) expect((await onFile(f.id)).state).toBe('asked');
  });

  it('goes on when the same is found again, and is asked for anew once it was found right', async () => {
    const have = await haveOneUnit(database.db);
    const spring = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(spring);
    const autumn = await visited(have, '2026-09-08', { coil: 'packed' });
    expect((await close(autumn)).jobIds).toEqual([]);
    expect((await close(autumn)).jobIds).toEqual([]);
    const stands = [{ what: PACKED, state: 'asked', visitId: spring.id, again: 1 }];
    expect(await returns(have)).toMatchObject(stands);
    expect((await close(spring)).jobIds).toEqual([]);
    expect(await returns(have)).toMatchObject(stands);
    await close(await visited(have, '2026-09-12', { coil: 'bare' }));
    expect(await returns(have)).toMatchObject([{ state: 'done', again: 1 }]);
    const winter = await visited(have, '2026-12-12', { coil: 'packed' });
    expect((await close(winter)).jobIds).toHaveLength(1);
    expect((await returns(have)).map((r) => r.state)).toEqual(['done', 'asked']);
  });

  it('that a person asked for by what was found is settled by a look that finds it right, and goes on while it is not', async () => {
    const have = await haveOneUnit(database.db);
    const asked = (await visited(have, '2026-03-08', { drainOnly: true, tasks: false })).id;
    const { id } = await database.db.job.create({
      data: jobRow(have.unit, {
        what: 'Drain and pan: frozen',
        cause: 'look:drain',
        foundVisitId: asked,
        createdAt: new Date('2026-03-08T17:00:00Z'),
      }),
    });
    await close(await visited(have, '2026-03-10', { drainOnly: true, drain: 'frozen', tasks: false }));
    expect(await onFile(id)).toMatchObject({ state: 'asked' });
    expect(await database.db.jobEvent.count({ where: { jobId: id, kind: 'found_again' } })).toBe(1);
    await close(await visited(have, '2026-03-12', { drainOnly: true, tasks: false }));
    expect(await onFile(id)).toMatchObject({ state: 'done', closedNote: 'Found right at a visit.' });
  });

  it('is asked for once by two visits of one day', async () => {
    const have = await haveOneUnit(database.db);
    const morning = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(morning);
    await close(await visited(have, '2026-03-08', { coil: 'packed', hour: 20 }));
    expect(await returns(have)).toMatchObject([{ state: 'asked', visitId: morning.id }]);
  });

  it('is not asked for by a visit that is closed after a later one looked at the unit', async () => {
    const have = await haveOneUnit(database.db);
    const first = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(await visited(have, '2026-03-13', { coil: 'bare' }));
    expect((await close(first)).jobIds).toEqual([]);
  });

  it('is asked for once for one trip, and again for the next', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-03-08', { coil: 'furred', trip: true, tasks: false }));
    await close(await visited(have, '2026-03-13', { coil: 'furred', tasks: false }));
    expect(await returns(have)).toMatchObject([{ what: 'Go back: tripped on high pressure', state: 'done' }]);
    await close(await visited(have, '2026-03-20', { coil: 'furred', trip: true, tasks: false }));
    expect((await returns(have)).map((r) => r.state)).toEqual(['done', 'asked']);
  });

  it('is not settled a second time by hand', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-03-08', { coil: 'packed' }));
    const [open] = await database.db.job.findMany({ where: { units: { some: { unitId: have.unit.id } } } });
    await close(await visited(have, '2026-03-13', { coil: 'bare' }));
    await expect(settle(open!.id, 'done')).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('A closed visit has settled this one as done already: “Found right at a visit.”'),
    });
  });
});

describe('a visit that ends', () => {
  const at = noon;
  /** A visit with a job on it that was booked from where it stood. */
  async function onVisit(have: Have, from: 'asked' | 'agreed' | 'part_ordered', over: object = {}) {
    const { db } = database;
    const start = new Date(noon.getTime() + (await db.visit.count()) * 7_200_000);
    const visit = await db.visit.create({ data: visitRow(have.kitchen.id, have.person.id, start, 60) });
    const job = await db.job.create({ data: jobRow(have.unit, { state: from, createdAt: noon, ...over }) });
    await putOnVisit({ db, actor: dispatcher, now: noon }, { jobId: job.id, visitId: visit.id });
    return { visitId: visit.id, id: job.id, there: { visitId: visit.id, by: owner.userId, at } };
  }
  const leave = (how: 'cancelled' | 'closed', of: Awaited<ReturnType<typeof onVisit>>) =>
    database.db.$transaction((tx) => leaveVisit(tx, how, of.there));
  const lastEvent = (jobId: string) => database.db.jobEvent.findFirst({ where: { jobId }, orderBy: { seq: 'desc' } });

  it('by being cancelled brings its jobs back to where they stood before they were booked, last of all', async () => {
    const { db } = database;
    const have = await haveOneUnit(db);
    for (const from of ['asked', 'agreed', 'part_ordered'] as const) {
      const one = await onVisit(have, from);
      await leave('cancelled', one);
      expect(await onFile(one.id)).toMatchObject({ state: from, closedAt: null });
      expect(await lastEvent(one.id)).toMatchObject({ kind: 'moved', from: 'booked', to: from, reason: 'The visit was cancelled.', visitId: one.visitId, byUserId: owner.userId, at }); // prettier-ignore
    }
    const twice = await onVisit(have, 'asked');
    await leave('cancelled', twice);
    await db.job.update({ where: { id: twice.id }, data: { state: 'agreed' } });
    await putOnVisit({ db, actor: dispatcher, now: noon }, { jobId: twice.id, visitId: twice.visitId });
    // Found again there says nothing to a visit that was called off.
    await db.jobEvent.create({ data: { jobId: twice.id, at, kind: 'found_again', visitId: twice.visitId } });
    await leave('cancelled', twice);
    expect((await onFile(twice.id)).state).toBe('agreed');
  });

  it('by closing without a word on them leaves them to the office; what was found again there waits for a date', async () => {
    const { db } = database;
    const have = await haveOneUnit(db);
    const silent = await onVisit(have, 'agreed');
    const done = await db.job.create({ data: jobRow(have.unit, { state: 'done', closedAt: noon, closedById: owner.userId, visitId: silent.visitId }) }); // prettier-ignore
    const other = await onVisit(have, 'asked');
    await leave('closed', silent);
    expect((await onFile(silent.id)).state).toBe('looked_at');
    expect(await lastEvent(silent.id)).toMatchObject({ reason: 'The visit closed without a word on it.', from: 'booked', to: 'looked_at' });
    expect((await onFile(done.id)).state).toBe('done');
    expect((await onFile(other.id)).state).toBe('booked');
    const again = await onVisit(have, 'agreed');
    const found = { id: again.id, note: 'Drain blocked still', dueOn: localDate('2026-12-02') };
    // Said twice of one visit, it is one.
    for (const dueOn of [found.dueOn, null]) await db.$transaction((tx) => foundAgain(tx, [{ ...found, dueOn }], again.there));
    expect(await db.jobEvent.findMany({ where: { jobId: again.id, kind: 'found_again' } })).toMatchObject([{ reason: 'Drain blocked still', visitId: again.visitId, byUserId: owner.userId, at }]); // prettier-ignore
    expect(await onFile(again.id)).toMatchObject({ dueOn: new Date('2026-12-02'), state: 'booked' });
    await leave('closed', again);
    expect((await onFile(again.id)).state).toBe('asked');
    expect(await lastEvent(again.id)).toMatchObject({ reason: 'Found again at the visit.' });
  });

  it('takes each job to where its technician said it stands, the last word last, in their words', async () => {
    const { db } = database;
    const have = await haveOneUnit(db);
    const say = async (outcome: JobOutcome, note: string, over: object = {}, from: 'asked' | 'part_ordered' = 'asked') => {
      const one = await onVisit(have, from);
      const row = (o: JobOutcome, n: string, minute: number, more: object = {}) =>
        db.jobOutcome.create({ data: { id: randomUUID(), visitId: one.visitId, jobId: one.id, outcome: o, note: n, at: new Date(noon.getTime() + minute * 60_000), ...more } }); // prettier-ignore
      await row(outcome, note, 1, over);
      await db.$transaction((tx) => applyOutcomes(tx, one.visitId, { by: owner.userId, at }));
      const { state, needsQuote, partsWanted } = await onFile(one.id);
      const event = await lastEvent(one.id);
      return [state, needsQuote, partsWanted, event?.reason, event?.byUserId];
    };
    expect(await say('done', '')).toEqual(['done', false, false, 'Done.', owner.userId]);
    expect(await say('done', 'New belt', { byUserId: dispatcher.userId })).toEqual(['done', false, false, 'Done: New belt', dispatcher.userId]); // prettier-ignore
    expect((await say('found_right', ''))[0]).toBe('done');
    expect((await say('needs_part', 'Fan motor')).slice(0, 3)).toEqual(['agreed', false, true]);
    expect((await say('needs_quote', '')).slice(0, 3)).toEqual(['looked_at', true, false]);
    expect((await say('not_done', 'No key')).slice(0, 3)).toEqual(['looked_at', false, false]);
  });
});
