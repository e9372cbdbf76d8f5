import { beforeAll, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { listsOf } from '@/lib/core/jobs';
import { findKitchens, kitchensSaid } from '@/lib/features/jobs/reads/find-kitchens';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { kitchenDesk } from '@/lib/features/jobs/reads/kitchen-desk';
import { closedLately, openJobLines, openJobs } from '@/lib/features/jobs/reads/lists';
import { jobsOfVisit, jobsOnVisit } from '@/lib/features/jobs/reads/of-visit';
import { editJob } from '@/lib/features/jobs/verbs/edit-job';
import { putOnVisit } from '@/lib/features/jobs/verbs/book-job';
import { takeCall } from '@/lib/features/jobs/verbs/take-call';
import { takeStep } from '@/lib/features/jobs/verbs/take-step';
import { squeezeEmergency } from '@/lib/features/visits/verbs/squeeze-in';
import { useDatabase } from '@/tests/support/database';
import { findingRow, haveOneUnit, jobRow, personRow, unitRow, visitRow, visitTaskRow } from '@/tests/support/factories';

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
  const pearl = { name: 'Pearl Row' };
  expect(await kitchensSaid(database.db, 'pearl quay')).toMatchObject({ found: [pearl], near: [], only: have.kitchen.id });
  // Only near to it: shown, and opened by nobody but the dispatcher.
  expect(await kitchensSaid(database.db, 'perl roww')).toMatchObject({ found: [], near: [pearl], only: undefined });
  for (const q of ['', '0107789', 'zander'])
    expect(await kitchensSaid(database.db, q), q).toEqual({ found: [], near: [], only: undefined });
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

it('a kitchen is found by a unit’s serial too, the likest first, as many as are asked for; what is out of use is not', async () => {
  const { db } = database;
  const place = async (name: string, over: object = {}, unit: object = {}) => (await haveOneUnit(db, { kitchen: { name, ...over }, unit })).kitchen; // prettier-ignore
  await place('Zander Grill and Fish Bar', {}, { serial: 'Sn-77Q', name: 'Prep table' });
  await place('Zander');
  await place('Zander Grill', { archivedAt: now });
  const left = await haveOneUnit(db, { kitchen: { name: 'Zander Pier' } });
  await db.customer.update({ where: { id: left.customer.id }, data: { archivedAt: now } });
  const gone = await haveOneUnit(db, { kitchen: { name: 'Other' } });
  await db.unit.create({ data: unitRow(gone.kitchen.id, { name: 'Zander cabinet', serial: 'SN-99', archivedAt: now }) });
  const found = async (said: string, limit?: number) => (await findKitchens(db, said, limit)).map((k) => k.name);
  expect(await found('zander')).toEqual(['Zander', 'Zander Grill and Fish Bar']);
  expect(await found('zander', 1)).toEqual(['Zander']);
  expect(await found('sn-77q')).toEqual(['Zander Grill and Fish Bar']);
  expect(await found('sn-99')).toEqual([]);
  // Which unit it was found by is said, and nothing where it was found by its own name.
  expect(await findKitchens(db, 'prep table zander')).toMatchObject([{ unit: expect.stringMatching(/^Prep table, TAG-/) }]);
  expect((await findKitchens(db, 'zander', 1))[0]?.unit).toBeNull();
  // The customer's telephone and contact stand in for the kitchen's.
  await db.customer.update({ where: { id: gone.customer.id }, data: { phone: '555 010 3322', contactName: 'Teodor Wick' } });
  expect(await findKitchens(db, 'teodor')).toMatchObject([{ name: 'Other', customer: gone.customer.name, phone: '555 010 3322' }]);
  expect(await found('0103322')).toEqual(['Other']);
  // Four digits are a house number.
  expect(await found('3322')).toEqual([]);
});

it('the desk of a kitchen that rings: its units, its last and next visits, what stands wrong and what is overdue', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db, { unit: { name: 'Walk-in' }, person: { name: 'Nell Ash' } });
  const { kitchen, unit, person, tasks } = shop;
  const [gone] = await db.unit.createManyAndReturn({
    data: [unitRow(kitchen.id, { name: 'Gone', archivedAt: now }), unitRow(kitchen.id, { name: 'Ice maker' })],
  });
  const visit = (at: string, over: object = {}) => db.visit.create({ data: visitRow(kitchen.id, person.id, new Date(at), 30, over) });
  const done = (at: string) => visit(at, { status: 'done', closedAt: new Date(at) });
  const old = await done('2026-10-01T17:00:00Z');
  const last = await done('2026-11-20T17:00:00Z');
  const coming = [];
  for (const day of ['07', '02', '05', '03', '06', '04']) coming.push(await visit(`2026-12-${day}T17:00:00Z`));
  await visit('2026-12-01T17:00:00Z', { status: 'cancelled', cancelReason: 'Closed' });
  const started = await visit('2026-11-25T16:00:00Z', { status: 'started', arrivedAt: now });
  const [at, later] = [new Date('2026-11-20T17:10:00Z'), new Date('2026-11-20T17:40:00Z')];
  await db.finding.createMany({
    data: [
      findingRow(old.id, unit.id, 'drain', 'blocked', new Date('2026-10-01T17:10:00Z')),
      findingRow(last.id, unit.id, 'drain', 'runs', at),
      findingRow(last.id, unit.id, 'condenser_fan', 'failed', at),
      // As found and as left in one moment: as left is how it stands.
      findingRow(last.id, unit.id, 'coil', 'packed', later),
      findingRow(last.id, unit.id, 'coil', 'bare', later, { phase: 'left' }),
      findingRow(last.id, unit.id, 'ice', 'block', later),
      findingRow(last.id, unit.id, 'gasket', 'failed', later, { supersededAt: now }),
      findingRow(last.id, gone?.id ?? '', 'drain', 'blocked', at),
    ],
  });
  const [first, second, third] = tasks;
  await db.task.update({ where: { id: first?.id ?? '' }, data: { dueOn: new Date('2026-11-24') } });
  await db.task.update({ where: { id: second?.id ?? '' }, data: { dueOn: new Date('2026-11-25') } });
  await db.task.update({ where: { id: third?.id ?? '' }, data: { dueOn: new Date('2026-11-20'), active: false } });
  const job = await db.job.create({ data: jobRow(unit) });
  const desk = await kitchenDesk(db, kitchen.id, now);
  expect(desk?.kitchen.units.map((u) => u.name)).toEqual(['Ice maker', 'Walk-in']);
  expect(desk?.kitchen.customer.name).toBe(shop.customer.name);
  expect(desk?.today).toBe('2026-11-25');
  expect(desk?.last).toMatchObject({ id: last.id, technician: { name: 'Nell Ash' } });
  expect(desk?.coming.map((v) => v.id)).toEqual([started.id, ...coming.toSorted((a, b) => +a.startsAt - +b.startsAt).slice(0, 4).map((v) => v.id)]); // prettier-ignore
  expect(desk?.trouble.map((t) => [t.unit, t.aspect, t.grade, t.at])).toEqual([['Walk-in', 'ice', 'block', later], ['Walk-in', 'condenser_fan', 'failed', at]]); // prettier-ignore
  expect(desk?.overdue).toBe(1);
  expect(desk?.jobs.map((j) => j.id)).toEqual([job.id]);
  await db.kitchen.update({ where: { id: kitchen.id }, data: { archivedAt: now } });
  expect(await kitchenDesk(db, kitchen.id, now)).toBeNull();
});

it('a call counts against what was done at its units in the thirty days before it, to the day', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db, { person: { name: 'Nell Ash' } });
  const drain = shop.tasks.find((t) => t.kindKey === 'drain_inspection') ?? expect.fail();
  // Noon in Denver, but one late in the evening, which is the next day elsewhere.
  for (const at of ['2026-10-25T19:00:00Z', '2026-10-27T05:00:00Z', '2026-11-25T16:00:00Z', '2026-11-26T19:00:00Z']) {
    const visit = await db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, new Date(at), 60, { status: 'done', closedAt: new Date(at) }) }); // prettier-ignore
    await db.finding.create({ data: findingRow(visit.id, shop.unit.id, 'drain', 'runs', new Date(at)) });
    await db.visitTask.create({ data: visitTaskRow(visit.id, drain, { outcome: 'done', open: false }) });
  }
  const closed = (what: string, at: string) =>
    db.job.create({ data: jobRow(shop.unit, { what, state: 'done', closedAt: new Date(at), closedById: ctx.actor.userId }) });
  await closed('Too old', '2026-10-25T19:00:00Z');
  await closed('Just', '2026-10-26T19:00:00Z');
  await closed('After', '2026-11-26T19:00:00Z');
  await db.job.create({ data: jobRow(shop.unit, { what: 'Declined', state: 'declined', closedAt: now, closedById: ctx.actor.userId, closedNote: 'x' }) }); // prettier-ignore
  const job = await db.job.create({ data: jobRow(shop.unit, { source: 'call', createdAt: now }) });
  const against = (await jobPage(db, job.id))?.against;
  const { label } = await db.taskKind.findUniqueOrThrow({ where: { key: 'drain_inspection' } });
  // Newest first; of one day in either order.
  expect(against?.map((p) => p.on)).toEqual(['2026-11-25', '2026-10-26', '2026-10-26']);
  expect(against?.map((p) => `${p.on} ${p.what}`).toSorted()).toEqual([`2026-10-26 ${label}`, '2026-10-26 Just', `2026-11-25 ${label}`].toSorted()); // prettier-ignore
  const past = (await kitchenDesk(db, shop.kitchen.id, now))?.past ?? [];
  const whoDid = (on: string, what: string) => past.find((p) => p.on === on && p.what === what)?.by;
  expect([whoDid('2026-11-25', label), whoDid('2026-10-26', 'Just')]).toEqual(['Nell Ash', 'Idris Fenn']);
});

it('its history says who: by name, by account, or the program; its quotes come newest first, and no more than six visits', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db);
  const job = await db.job.create({ data: jobRow(shop.unit) });
  const event = (over: object) => db.jobEvent.create({ data: { jobId: job.id, at: now, kind: 'changed', reason: 'x', ...over } });
  await event({ byUserId: ctx.actor.userId });
  await event({ byUserId: ctx.actor.userId, byName: 'Rosa Ibarra' });
  for (let day = 10; day < 17; day += 1)
    await db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, new Date(`2026-12-${day}T17:00:00Z`), 30) });
  const quote = { jobId: job.id, lines: { v: 1, lines: [] }, netCents: 0, taxCents: 0, totalCents: 0, currency: 'USD', validUntil: new Date('2026-12-20'), reason: '' }; // prettier-ignore
  await db.quote.create({ data: { ...quote, version: 1, sentAt: now, supersededAt: now } });
  await db.quote.create({ data: { ...quote, version: 2 } });
  const page = await jobPage(db, job.id);
  expect(page?.events.map((e) => e.by)).toEqual(['the program', 'Idris Fenn', 'Rosa Ibarra']);
  expect(page?.quotes.map((q) => [q.version, q.validUntil, q.lines])).toEqual([[2, '2026-12-20', []], [1, '2026-12-20', []]]); // prettier-ignore
  expect(page?.coming).toHaveLength(6);
});

it('a change says what was there before, once, and one that changes nothing is none', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db);
  const [other] = await db.unit.createManyAndReturn({ data: [unitRow(shop.kitchen.id, { name: 'Spare' })] });
  const elsewhere = await haveOneUnit(db);
  const { id } = await db.job.create({ data: jobRow(shop.unit, { what: 'Drips', urgency: 'week' }) });
  const edit = async (over: object) => {
    const { version, what, urgency } = await onFile(id);
    const units = await db.jobUnit.findMany({ where: { jobId: id } });
    await editJob({ db, ...ctx }, { jobId: id, version, what, urgency, unitIds: units.map((u) => u.unitId), ...over });
  };
  const said = async () => (await db.jobEvent.findMany({ where: { jobId: id, kind: 'changed' }, orderBy: { seq: 'asc' } })).map((e) => [e.reason, e.byUserId]); // prettier-ignore
  const before = await onFile(id);
  await edit({});
  expect(await onFile(id)).toEqual(before);
  expect(await said()).toEqual([]);
  await edit({ what: 'Drips a lot' });
  await edit({ urgency: 'today' });
  await edit({ unitIds: [shop.unit.id, other?.id ?? ''] });
  await edit({ unitIds: [other?.id ?? ''] });
  await edit({ unitIds: [shop.unit.id], what: 'Runs over' });
  const by = ctx.actor.userId;
  expect(await said()).toEqual([
    ['Was: “Drips”.', by],
    ['From “Within the week” to “Today”.', by],
    ['Other units.', by],
    ['Other units.', by],
    ['Was: “Drips a lot”. Other units.', by],
  ]);
  expect(await onFile(id)).toMatchObject({ what: 'Runs over', urgency: 'today', version: 6 });
  expect(await db.jobUnit.findMany({ where: { jobId: id } })).toMatchObject([{ unitId: shop.unit.id }]);
  await expect(edit({ unitIds: [shop.unit.id, elsewhere.unit.id] })).rejects.toMatchObject({
    code: 'conflict',
    field: 'unitIds',
    message: 'A chosen unit is not at this kitchen.',
  });
  await expect(edit({ jobId: crypto.randomUUID() })).rejects.toMatchObject({ code: 'not_found' });
  await step(id, 'asked', 'declined', 'Sold');
  await expect(edit({ what: 'Closed' })).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('changed this job a moment ago') }); // prettier-ignore
});

it('is put on a visit of its own kitchen that is not over, unless its quote waits for an answer', async () => {
  const { db } = database;
  const [shop, elsewhere] = [await haveOneUnit(db), await haveOneUnit(db)];
  let hours = 0;
  const visitOf = async (of: typeof shop, status: 'booked' | 'started' | 'done' | 'cancelled') =>
    (await db.visit.create({ data: visitRow(of.kitchen.id, of.person.id, new Date(now.getTime() + (hours += 2) * 3600_000), 60, { status, ...(status === 'done' ? { closedAt: now } : {}), ...(status === 'cancelled' ? { cancelReason: 'x' } : {}) }) })).id; // prettier-ignore
  const put = async (visitId: string, over: object = {}, jobId?: string) =>
    putOnVisit({ db, ...ctx }, { jobId: jobId ?? (await db.job.create({ data: jobRow(shop.unit, over) })).id, visitId });
  const over = { code: 'conflict', field: 'visitId', message: 'That visit is over. Choose another.' };
  await expect(put(await visitOf(shop, 'done'))).rejects.toMatchObject(over);
  await expect(put(await visitOf(shop, 'cancelled'))).rejects.toMatchObject(over);
  await expect(put(crypto.randomUUID())).rejects.toMatchObject({
    code: 'not_found',
    field: 'visitId',
    message: 'That visit is not on file.',
  });
  const there = await visitOf(elsewhere, 'booked');
  await expect(put(there)).rejects.toMatchObject({ code: 'conflict', field: 'kitchenId', message: 'That job is of another kitchen.' });
  await expect(put(there, {}, crypto.randomUUID())).rejects.toMatchObject({ code: 'not_found', message: 'That job is not on file.' });
  const started = await visitOf(shop, 'started');
  await expect(put(started, { state: 'quoted' })).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('Say first that they agreed') }); // prettier-ignore
  expect(await db.job.count({ where: { visitId: started } })).toBe(0);
  await put(started);
  const [job] = await db.job.findMany({ where: { visitId: started }, include: { events: { where: { kind: 'moved' } } } });
  expect(job).toMatchObject({ state: 'booked', events: [{ from: 'asked', to: 'booked', visitId: started, byUserId: ctx.actor.userId, reason: '' }] }); // prettier-ignore
});

it('a call is taken of a kitchen and units that are on file', async () => {
  const { db } = database;
  const shop = await haveOneUnit(db);
  const said = { kitchenId: shop.kitchen.id, unitIds: [shop.unit.id] };
  const { jobId } = await call({ ...said, callerPhone: '555 0199' });
  expect(await onFile(jobId)).toMatchObject({
    callerPhone: '555 0199',
    createdById: ctx.actor.userId,
    createdAt: now,
    urgency: 'now',
    source: 'call',
  });
  expect(await db.jobUnit.findMany({ where: { jobId } })).toMatchObject([{ unitId: shop.unit.id }]);
  const unknown = { code: 'conflict', field: 'unitIds', message: expect.stringContaining('no longer on file') };
  await expect(call({ ...said, unitIds: [shop.unit.id, have.unit.id] })).rejects.toMatchObject(unknown);
  await db.unit.update({ where: { id: shop.unit.id }, data: { archivedAt: now } });
  await expect(call(said)).rejects.toMatchObject(unknown);
  await db.kitchen.update({ where: { id: shop.kitchen.id }, data: { archivedAt: now } });
  await expect(call({ ...said, unitIds: [] })).rejects.toMatchObject({ code: 'not_found', field: 'kitchenId' });
});

it('a step that leaves a job where it stands is in its history, with its reason', async () => {
  const { db } = database;
  const { jobId } = await call({ urgency: 'week' });
  await step(jobId, 'asked', 'quote_wanted');
  expect(await onFile(jobId)).toMatchObject({ state: 'asked', needsQuote: true, version: 2 });
  await step(jobId, 'asked', 'agreed', 'By phone');
  await step(jobId, 'agreed', 'part_wanted', 'Fan motor');
  const events = await db.jobEvent.findMany({ where: { jobId }, orderBy: { seq: 'asc' } });
  expect(events.map((e) => [e.kind, e.to, e.reason, e.byUserId])).toEqual([
    ['opened', 'asked', '', ctx.actor.userId],
    ['changed', null, 'A quote first.', ctx.actor.userId],
    ['moved', 'agreed', 'By phone', ctx.actor.userId],
    ['changed', null, 'A part is needed: Fan motor', ctx.actor.userId],
  ]);
  await expect(step(jobId, 'agreed', 'again')).rejects.toMatchObject({ code: 'conflict' });
  await expect(step(crypto.randomUUID(), 'asked', 'done')).rejects.toMatchObject({ code: 'not_found' });
});

it('open jobs stand on the lists that their lines would stand on, and a line is read of those asked for alone', async () => {
  const { db } = database;
  const made = [await call(), await call({ urgency: 'week' }), await call({ what: 'Door of the reach-in hangs' })].map((c) => c.jobId);
  const [closed, ...open] = made;
  await db.job.updateMany({ where: { id: closed }, data: { state: 'done', closedAt: now } });
  const lines = await openJobLines(db);
  const placed = (jobs: Parameters<typeof listsOf>[0]) => listsOf(jobs).map(({ wait, jobs }) => [wait, jobs.map((j) => j.number)]);
  expect(placed(await openJobs(db))).toEqual(placed(lines));
  expect(await openJobLines(db, { ids: made })).toEqual(lines.filter((l) => open.includes(l.id)));
  expect(await openJobLines(db, { ids: [] })).toEqual([]);
});
