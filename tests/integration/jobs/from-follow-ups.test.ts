import { randomUUID } from 'node:crypto';
import { afterAll, expect, inject, it } from 'vitest';
import { connect } from '@/lib/database/client';
import { create, drop, query, withDatabase } from '../../../scripts/support/databases.mjs';
import { migrate, migrations } from '../../../scripts/support/migrations.mjs';

const url = withDatabase(inject('databaseTemplate'), `${inject('databasePrefix')}_${randomUUID().slice(0, 8)}`);
afterAll(() => drop(url));

type Old = { what: string; urgency?: string; status?: string; dueOn?: string; visit?: boolean; by?: boolean; note?: string };

/** A shop as it was before jobs: a visit, a unit and follow-ups of each standing. */
async function olderShop(followUps: readonly Old[]) {
  await create(url, undefined);
  await migrate(
    url,
    migrations().filter((m) => m.name < '20261127110000_jobs'),
  );
  const [customer, kitchen, unit, user, visit] = Array.from({ length: 5 }, () => randomUUID());
  const run = (sql: string, values: unknown[]) => query(url, sql, values);
  await run(`INSERT INTO "Customer" (id, name) VALUES ($1, 'Old')`, [customer]);
  await run(`INSERT INTO "Kitchen" (id, "customerId", name, "timeZone") VALUES ($1, $2, 'Old kitchen', 'America/Denver')`, [
    kitchen,
    customer,
  ]);
  await run(`INSERT INTO "Unit" (id, "kitchenId", tag, name, kind, refrigerant, placement) VALUES ($1, $2, 'OLD-1', 'Old unit', 'reach_in', 'R134a', 'line')`, [unit, kitchen]); // prettier-ignore
  await run(`INSERT INTO "User" (id, email, name, role, "passwordHash") VALUES ($1, 'o@old.example', 'Old Hand', 'technician', 'x')`, [
    user,
  ]);
  await run(`INSERT INTO "Visit" (id, "kitchenId", "technicianId", "startsAt", "endsAt", "updatedAt") VALUES ($1, $2, $3, '2026-10-01T15:00Z', '2026-10-01T16:00Z', now())`, [visit, kitchen, user]); // prettier-ignore
  for (const f of followUps) {
    const settled = (f.status ?? 'open') !== 'open';
    await run(
      `INSERT INTO "FollowUp" (id, "unitId", what, urgency, status, "dueOn", "visitId", "createdById", "createdAt", "resolvedAt", "resolvedById", "resolvedNote")
       VALUES (gen_random_uuid(), $1, $2, $3, $4, $5, $6, $7, '2026-10-01T16:00Z', $8, $9, $10)`,
      [unit, f.what, f.urgency ?? 'next', f.status ?? 'open', f.dueOn ?? null, f.visit === false ? null : visit, user,
       settled ? '2026-10-20T10:00Z' : null, settled && f.by !== false ? user : null, f.note ?? ''],
    ); // prettier-ignore
  }
  return { kitchen, unit, user, visit };
}

it('what stood as a follow-up goes over to a job as it stood, each once, with its unit and its history', async () => {
  const { kitchen, unit, user, visit } = await olderShop([
    { what: 'Go back: drain did not run', urgency: 'soon', dueOn: '2026-10-09' },
    { what: 'Replace door gasket', urgency: 'quote' },
    { what: 'Fan left off', urgency: 'now', visit: false },
    { what: 'Washed the floor', status: 'done', note: 'By the night crew' },
    { what: 'Paint the door', status: 'dropped', note: 'They will not pay' },
    { what: '' },
  ]);
  await migrate(url);
  const db = connect(url, 2);
  try {
    const jobs = await db.job.findMany({ orderBy: { what: 'asc' }, include: { units: true, events: { orderBy: { seq: 'asc' } } } });
    expect(jobs.map((j) => [j.what, j.state, j.urgency, j.source, j.cause, j.needsQuote])).toEqual([
      ['Fan left off', 'asked', 'now', 'office', '', false],
      ['Follow-up', 'asked', 'next_visit', 'finding', '', false],
      ['Go back: drain did not run', 'asked', 'week', 'finding', 'return:drain_blocked', false],
      ['Paint the door', 'declined', 'next_visit', 'finding', '', false],
      ['Replace door gasket', 'asked', 'next_visit', 'finding', '', true],
      ['Washed the floor', 'done', 'next_visit', 'finding', '', false],
    ]);
    for (const j of jobs) expect([j.kitchenId, j.units.map((u) => u.unitId), j.events[0]?.kind]).toEqual([kitchen, [unit], 'opened']);
    const [declined, done] = [jobs[3], jobs[5]];
    expect([declined?.closedNote, declined?.closedById, declined?.events.map((e) => e.to)]).toEqual([
      'They will not pay',
      user,
      ['asked', 'declined'],
    ]);
    expect([done?.closedNote, done?.closedAt?.toISOString()]).toEqual(['By the night crew', '2026-10-20T10:00:00.000Z']);
    expect(jobs[2]).toMatchObject({ foundVisitId: visit, dueOn: new Date('2026-10-09') });
    expect(await query(url, `SELECT to_regclass('"FollowUp"') AS left`)).toMatchObject([{ left: null }]);
  } finally {
    await db.$disconnect();
  }
});
