import { beforeAll, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { findKitchens } from '@/lib/features/jobs/reads/find-kitchens';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { kitchenDesk } from '@/lib/features/jobs/reads/kitchen-desk';
import { openJobLines } from '@/lib/features/jobs/reads/lists';
import { editJob } from '@/lib/features/jobs/verbs/edit-job';
import { putOnVisit } from '@/lib/features/jobs/verbs/book-job';
import { takeCall } from '@/lib/features/jobs/verbs/take-call';
import { takeStep } from '@/lib/features/jobs/verbs/take-step';
import { squeezeEmergency } from '@/lib/features/visits/verbs/squeeze-in';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, personRow, visitRow, visitTaskRow } from '@/tests/support/factories';

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
