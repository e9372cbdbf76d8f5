import { randomUUID } from 'node:crypto';
import { encode } from 'next-auth/jwt';
import { connect, type Db } from '@/lib/database/client';
import { ensureBuild, serve } from '../../scripts/support/app.mjs';
import { create, databaseName, drop } from '../../scripts/support/databases.mjs';
import { freePort } from '../../scripts/support/ports.mjs';
import { openTestServer } from '../../scripts/support/test-databases.mjs';
import { customerRow, haveTaskKinds, kitchenRow, personRow, taskRow, unitRow, visitRow, visitTaskRow } from '../../tests/support/factories';

const SECRET = 'only-for-measuring-rimebook';
const VISITS = 8;
const UNITS = 12;
const TASKS = ['coil_cleaning', 'drain_inspection', 'evaporator_inspection'];

/** The built app on a database of its own, with one technician's day of eight visits to twelve units each. */
export async function openOffice() {
  const distDir = '.next-test';
  const server = await openTestServer();
  const url = server.url(`rimebook_bench_round_${process.pid}`);
  await create(url, databaseName(await server.migrated()));
  const port = await freePort(4500);
  const base = `http://localhost:${port}`;
  const env = { ...process.env, DATABASE_URL: url, NEXTAUTH_URL: base, NEXTAUTH_SECRET: SECRET, SMTP_URL: '', LOG_LEVEL: 'warn' };
  await ensureBuild({ distDir, env });
  const db = connect(url, 4);
  const { cookie, visitId } = await haveDay(db);
  const start = () => serve({ port, distDir, env });
  let app = await start();
  return {
    base,
    cookie,
    visitId,
    db,
    stop: () => app.stop(),
    start: async () => void (app = await start()),
    close: async () => {
      await app.stop().catch(() => undefined);
      await db.$disconnect();
      await drop(url);
      await server.close();
    },
  };
}
export type BenchOffice = Awaited<ReturnType<typeof openOffice>>;

async function haveDay(db: Db) {
  await haveTaskKinds(db);
  await db.shopSettings.createMany({ data: { id: 1, name: 'Bench', timeZone: 'America/Denver' }, skipDuplicates: true });
  const person = personRow({ name: 'Tova Lind' });
  await db.user.create({ data: person });
  const visits = [];
  for (let n = 0; n < VISITS; n++) {
    const customer = customerRow();
    const kitchen = kitchenRow(customer.id as string);
    const units = Array.from({ length: UNITS }, (_, u) => unitRow(kitchen.id as string, { name: `Unit ${u + 1}` }));
    const tasks = units.flatMap((u) =>
      TASKS.map((kindKey) => taskRow({ id: u.id as string, kitchenId: kitchen.id as string }, { kindKey })),
    );
    const visit = visitRow(kitchen.id as string, person.id as string, new Date(Date.now() + n * 3_600_000), 50);
    await db.customer.create({ data: customer });
    await db.kitchen.create({ data: kitchen });
    await db.unit.createMany({ data: units });
    await db.task.createMany({ data: tasks });
    await db.visit.create({ data: visit });
    await db.visitTask.createMany({ data: tasks.map((t) => visitTaskRow(visit.id as string, { id: t.id as string, unitId: t.unitId })) });
    visits.push(visit);
  }
  const session = await db.staffSession.create({
    data: { userId: person.id as string, userAgent: 'bench', expiresAt: new Date(Date.now() + 86_400_000) },
  });
  return { cookie: await encode({ token: { sid: session.id, jti: randomUUID() }, secret: SECRET }), visitId: visits[0]?.id as string };
}
