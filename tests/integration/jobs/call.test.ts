import { beforeAll, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { findKitchens } from '@/lib/features/jobs/reads/find-kitchens';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { kitchenDesk } from '@/lib/features/jobs/reads/kitchen-desk';
import { closedLately, openJobLines } from '@/lib/features/jobs/reads/lists';
import { jobsOfVisit, jobsOnVisit } from '@/lib/features/jobs/reads/of-visit';
import { editJob } from '@/lib/features/jobs/verbs/edit-job';
import { putOnVisit } from '@/lib/features/jobs/verbs/book-job';
import { takeCall } from '@/lib/features/jobs/verbs/take-call';
import { takeStep } from '@/lib/features/jobs/verbs/take-step';
import { squeezeEmergency } from '@/lib/features/visits/verbs/squeeze-in';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, jobRow, personRow, unitRow, visitRow, visitTaskRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T17:05:00Z');
let ctx: { actor: { userId: string; role: Role }; now: Date; baseUrl: string };
let have: Awaited<ReturnType<typeof haveOneUnit>>;
beforeAll(async () => {
  const { db } = database;
  have = await haveOneUnit(db, {
    kitchen: { name: 'Pearl Row', address: '12 Quay Street', contactPhone: '(555) 010-7788', contactName: 'Ilse Braun' },
    unit: { name: 'Walk-in by the door' },
  });
  const idris = await db.user.create({ data: personRow({ name: 'Idris Fenn', role: 'dispatcher' }) });
  ctx = { actor: { userId: idris.id, role: 'dispatcher' }, now, baseUrl: 'http://localhost' };
});
const call = (over: object = {}) =>
  takeCall(
    { db: database.db, ...ctx },
    {
      kitchenId: have.kitchen.id,
      unitIds: [have.unit.id],
      what: 'Walk-in at 52 °F',
      urgency: 'now',
      source: 'call',
      callerName: 'Ilse',
      callerPhone: '',
      ...over,
    },
  );
const onFile = (id: string) => database.db.job.findUniqueOrThrow({ where: { id } });
const step = (
  jobId: string,
  from: 'asked' | 'looked_at' | 'agreed' | 'part_ordered' | 'declined',
  name: Parameters<typeof takeStep>[1]['step'],
  reason = '',
) => takeStep({ db: database.db, ...ctx }, { jobId, from, step: name, reason });

it('a kitchen is found by anything said of it, and not by what is not', async () => {
  const said = ['pearl', 'quay street', '0107788', '555-010-7788', 'ilse', 'walk-in by', have.unit.tag.toLowerCase(), 'braun pearl'];
  for (const q of said)
    expect(
      (await findKitchens(database.db, q)).map((k) => k.name),
      q,
    ).toEqual(['Pearl Row']);
  for (const q of ['pearl harbour', '0107789', '%', '']) expect(await findKitchens(database.db, q), q).toEqual([]);
});

it('a call is a job with its caller; what was done there within 30 days is counted against it', async () => {
  const { db } = database;
  const at = new Date('2026-11-13T17:00:00Z');
  await db.$transaction(async (tx) => {
    const visit = await tx.visit.create({ data: visitRow(have.kitchen.id, have.person.id, at, 60, { status: 'done', closedAt: at }) });
    const drain = have.tasks.find((t) => t.kindKey === 'drain_inspection');
    if (drain) await tx.visitTask.create({ data: visitTaskRow(visit.id, drain, { outcome: 'done', open: false }) });
  });
  const { jobId } = await call();
  const page = await jobPage(db, jobId);
  expect(page).toMatchObject({
    state: 'asked',
    callerName: 'Ilse',
    number: expect.any(Number),
    events: [{ kind: 'opened', by: 'Idris Fenn' }],
  });
  expect(page?.against).toMatchObject([{ on: '2026-11-13', unitId: have.unit.id }]);
  const desk = await kitchenDesk(db, have.kitchen.id, now);
  expect(desk).toMatchObject({ last: { startsAt: at }, jobs: [{ id: jobId }], past: [{ on: '2026-11-13' }] });
  expect((await openJobLines(db)).map((j) => j.id)).toContain(jobId);
  await expect(call({ unitIds: ['00000000-0000-4000-8000-000000000000'] })).rejects.toMatchObject({ code: 'conflict', field: 'unitIds' });
});

it('taking a time books the visit with the job on it, once', async () => {
  const { jobId } = await call();
  const take = {
    kitchenId: have.kitchen.id, jobId, unitIds: [have.unit.id], taskIds: [], what: 'Walk-in at 52 °F', minutes: 60,
    technicianId: have.person.id, startMs: now.getTime() + 3600_000, moves: [],
  }; // prettier-ignore
  const { visitId } = await squeezeEmergency({ db: database.db, ...ctx }, take);
  const job = await onFile(jobId);
  expect(job).toMatchObject({ state: 'booked', visitId });
  expect(await database.db.visit.findUnique({ where: { id: visitId } })).toMatchObject({
    emergency: true,
    note: `Job ${job.number}: Walk-in at 52 °F\nUnits: Walk-in by the door`,
  });
  const second = await call({ urgency: 'next_visit' });
  await putOnVisit({ db: database.db, ...ctx }, { jobId: second.jobId, visitId });
  expect(await onFile(second.jobId)).toMatchObject({ state: 'booked', visitId });
});

it('the office brings a job on step by step, and nobody overruns another', async () => {
  const { jobId } = await call({ urgency: 'week' });
  await step(jobId, 'asked', 'looked_at', 'By phone');
  await step(jobId, 'looked_at', 'part_wanted', 'Fan motor');
  await expect(step(jobId, 'looked_at', 'done')).rejects.toMatchObject({ code: 'conflict' });
  await step(jobId, 'agreed', 'part_ordered');
  expect(await onFile(jobId)).toMatchObject({ state: 'part_ordered', partsWanted: true });
  await step(jobId, 'part_ordered', 'part_here');
  expect(await onFile(jobId)).toMatchObject({ state: 'agreed', partsWanted: false });
  await expect(step(jobId, 'agreed', 'declined')).rejects.toMatchObject({ code: 'invalid', field: 'reason' });
  await step(jobId, 'agreed', 'declined', 'Ilse: they sell it');
  await step(jobId, 'declined', 'again');
  const { version } = await onFile(jobId);
  const edit = { jobId, version, what: 'Reach-in is warm', urgency: 'today' as const, unitIds: [] };
  await editJob({ db: database.db, ...ctx }, edit);
  await expect(editJob({ db: database.db, ...ctx }, edit)).rejects.toMatchObject({ code: 'conflict' });
  const page = await jobPage(database.db, jobId);
  expect(page).toMatchObject({ what: 'Reach-in is warm', urgency: 'today', units: [], closedAt: null });
  expect(page?.events.filter((e) => e.kind === 'moved').map((e) => e.to)).toEqual([
    'looked_at',
    'agreed',
    'part_ordered',
    'agreed',
    'declined',
    'asked',
  ]);
});

it('its page has whom it is for, what is coming, the units to choose from, and what counts against it: never its own visit', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db, { kitchen: { name: 'Oak' }, unit: { name: 'Ice maker' }, person: { name: 'Nell Ash' } });
  await db.customer.update({ where: { id: shop.customer.id }, data: { email: 'boss@oak.example' } });
  const [gone, spare] = await db.unit.createManyAndReturn({
    data: [unitRow(shop.kitchen.id, { name: 'Gone', archivedAt: now }), unitRow(shop.kitchen.id, { name: 'Spare' })],
  });
  await db.unit.create({ data: unitRow(shop.kitchen.id, { name: 'Long gone', archivedAt: now }) });
  for (const [what, until] of [
    ['Fan', '2027-02-01'],
    ['Door', '2026-12-01'],
  ] as const)
    // prettier-ignore
    await db.warranty.create({ data: { unitId: shop.unit.id, what, until: new Date(until) } });
  const visit = (at: string, over: object = {}) =>
    db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, new Date(at), 60, over) });
  const done = (at: string) => ({ status: 'done' as const, closedAt: new Date(at) });
  const found = await visit('2026-11-10T17:00:00Z', done('2026-11-10T18:00:00Z'));
  const later = await visit('2026-12-08T17:00:00Z');
  const sooner = await visit('2026-12-01T17:00:00Z');
  await visit('2026-12-02T17:00:00Z', { status: 'cancelled', cancelReason: 'Closed' });
  const job = await db.job.create({
    data: {
      ...jobRow(shop.unit, { source: 'call', createdAt: now, state: 'booked', visitId: sooner.id, foundVisitId: found.id, dueOn: new Date('2026-12-05') }),
      units: { create: [{ unitId: shop.unit.id }, { unitId: gone?.id ?? '' }] },
    },
  }); // prettier-ignore
  // Done within thirty days at this unit: once by another job, once on a visit of this one itself.
  const past = { state: 'done' as const, closedAt: new Date('2026-11-20T12:00:00Z'), closedNote: 'Mended', closedById: ctx.actor.userId };
  await db.job.create({ data: jobRow(shop.unit, { what: 'Descaled', ...past }) });
  await db.job.create({ data: jobRow(shop.unit, { what: 'On the way', ...past, visitId: sooner.id }) });
  await db.job.create({ data: jobRow(spare ?? shop.unit, { what: 'Elsewhere', ...past }) });
  await db.job.create({ data: jobRow(shop.unit, { what: 'Long ago', ...past, closedAt: new Date('2026-10-20T12:00:00Z') }) });
  const page = await jobPage(db, job.id);
  expect(page).toMatchObject({
    dueOn: '2026-12-05',
    calledOn: '2026-11-25',
    kitchen: { name: 'Oak', customer: { name: shop.customer.name, email: 'boss@oak.example' } },
    visit: { id: sooner.id, status: 'booked', technician: { name: 'Nell Ash' } },
    foundVisit: { id: found.id, technician: { name: 'Nell Ash' } },
    coming: [{ id: sooner.id, technician: { name: 'Nell Ash' } }, { id: later.id }],
  });
  expect(page?.units.find((u) => u.id === shop.unit.id)?.warranties.map((w) => [w.what, w.until])).toEqual([['Door', '2026-12-01'], ['Fan', '2027-02-01']]); // prettier-ignore
  expect(page?.units.find((u) => u.id === gone?.id)?.archivedAt).toEqual(now);
  // One out of use is offered only where the job names it already.
  expect(page?.kitchenUnits.map((u) => u.name)).toEqual(['Gone', 'Ice maker', 'Spare']);
  expect(page?.against.map((p) => [p.on, p.what, p.unitId])).toEqual([['2026-11-20', 'Descaled', shop.unit.id]]);
  expect(await jobPage(db, crypto.randomUUID())).toBeNull();
  await db.job.update({ where: { id: job.id }, data: { source: 'office' } });
  expect((await jobPage(db, job.id))?.against).toEqual([]);
});

it('lists show what is open with the most pressing first, its visit and its quote, and what was closed lately', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db, { person: { name: 'Nell Ash' } });
  const at = new Date('2026-12-10T17:00:00Z');
  const visit = await db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, at, 60) });
  const open = async (what: string, over: object) =>
    (await db.job.create({ data: jobRow(shop.unit, { what, createdAt: now, ...over }) })).id;
  const quoted = await open('Quoted', { urgency: 'week', state: 'quoted', visitId: visit.id });
  await open('Later', { urgency: 'next_visit' });
  await open('Booked', { urgency: 'today', state: 'booked', visitId: visit.id, dueOn: new Date('2026-12-12') });
  await open('Older', { urgency: 'today', createdAt: new Date(now.getTime() - 1000) });
  const quote = { jobId: quoted, lines: { v: 1, lines: [] }, netCents: 5, taxCents: 0, totalCents: 5, currency: 'USD', validUntil: new Date('2026-12-20'), reason: '', sentAt: now }; // prettier-ignore
  await db.quote.create({ data: { ...quote, version: 1, supersededAt: now } });
  await db.quote.create({ data: { ...quote, version: 2, totalCents: 7, netCents: 7 } });
  await db.quote.create({ data: { ...quote, version: 3, sentAt: null } });
  const lines = await openJobLines(db, { kitchenId: shop.kitchen.id });
  expect(lines.map((j) => j.what)).toEqual(['Older', 'Booked', 'Quoted', 'Later']);
  expect(lines[1]).toMatchObject({
    dueOn: '2026-12-12', createdAt: now.getTime(), units: [{ id: shop.unit.id }], visit: { id: visit.id, startsAt: at.getTime(), technician: 'Nell Ash' }, quote: null,
  }); // prettier-ignore
  // A visit that it does not stand on any more is none of its own.
  expect(lines[2]).toMatchObject({ visit: null, quote: { totalCents: 7, currency: 'USD', validUntil: '2026-12-20' } });

  const closed = { state: 'done' as const, closedNote: 'Mended', closedById: ctx.actor.userId };
  await open('Closed', { ...closed, closedAt: new Date('2026-11-24T12:00:00Z') });
  await open('Closed last', { ...closed, state: 'declined', closedAt: new Date('2026-11-25T12:00:00Z') });
  await open('Long closed', { ...closed, closedAt: new Date('2026-11-20T12:00:00Z') });
  const lately = (await closedLately(db, new Date('2026-11-21T00:00:00Z'))).filter((j) => j.kitchen.id === shop.kitchen.id);
  expect(lately).toMatchObject([
    { what: 'Closed last', state: 'declined' },
    { what: 'Closed', note: 'Mended', at: Date.parse('2026-11-24T12:00:00Z') },
  ]);
  const [, booked] = lines;
  await db.jobOutcome.create({
    data: { id: crypto.randomUUID(), jobId: quoted, visitId: visit.id, outcome: 'not_done', note: 'No key', at: now },
  });
  expect((await jobsOnVisit(db, visit.id)).map((j) => [j.what, j.outcomes[0]?.note])).toEqual([['Booked', undefined], ['Quoted', 'No key']]); // prettier-ignore
  expect((await jobsOfVisit(db, visit.id)).map((j) => j.id).toSorted()).toEqual([quoted, booked?.id ?? ''].toSorted());
});
