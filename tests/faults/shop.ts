import { randomUUID } from 'node:crypto';
import { encode } from 'next-auth/jwt';
import { cookieNames } from '@/lib/core/people/cookies';
import type { Db } from '@/lib/database/client';
import { customerRow, haveTaskKinds, kitchenRow, personRow, taskRow, unitRow, visitRow, visitTaskRow } from '../support/factories';
import { CERTIFICATE, CYLINDER, PART_ON_LIST } from './entries';
import { SECRET } from './office';

const HOUR = 3_600_000;
/** Of the one part on the list, before anybody took any: enough of one, too few of the other. */
export const IN_STOCK = { inVan: 100_000, inShop: 5 };
const TASKS = ['coil_cleaning', 'drain_inspection', 'evaporator_inspection'];

export async function openShop(db: Db): Promise<void> {
  await haveTaskKinds(db);
  await db.shopSettings.createMany({ data: { id: 1, name: 'Fault test', timeZone: 'America/Denver' }, skipDuplicates: true });
}

/** A technician who is signed in, and a colleague. */
export async function havePeople(db: Db) {
  const [person, other] = [personRow({ name: 'Tova Lind' }), personRow({ name: 'June Castell' })];
  await db.user.createMany({ data: [person, other] });
  await db.certificate.create({ data: { id: CERTIFICATE, userId: person.id as string, kind: 'us_608_universal', number: 'F-1' } });
  await db.cylinder.create({
    data: { id: CYLINDER, label: 'Fault', refrigerant: 'R134a', contents: 'recovered', tareKg: 5, firstKg: 7, mostKg: 11 },
  });
  await db.part.create({ data: { id: PART_ON_LIST, number: 'F-7', name: 'Filter', priceCents: 100, ...IN_STOCK, warrantyMonths: 12 } });
  const session = await db.staffSession.create({
    data: { userId: person.id as string, userAgent: 'fault test', expiresAt: new Date(Date.now() + 24 * HOUR) },
  });
  const token = await encode({ token: { sid: session.id }, secret: SECRET });
  return { personId: person.id as string, otherId: other.id as string, cookie: `${cookieNames('http:').session}=${token}` };
}
export type People = Awaited<ReturnType<typeof havePeople>>;

/** Two visits of this morning and tomorrow in one kitchen with three units. */
export async function haveRound(db: Db, people: People) {
  const customer = customerRow({ name: `Customer ${randomUUID()}` });
  const kitchen = kitchenRow(customer.id as string, { name: `Kitchen ${randomUUID()}` });
  const kitchenId = kitchen.id as string;
  const units = Array.from({ length: 3 }, (_, n) =>
    unitRow(kitchenId, { name: `Unit ${n + 1}`, tag: randomUUID().slice(0, 13).toUpperCase() }),
  );
  const tasks = units.flatMap((u) => TASKS.map((kindKey) => taskRow({ id: u.id as string, kitchenId }, { kindKey })));
  // Each run in an hour of its own: one technician cannot be in two places.
  const start = new Date(Date.now() - 2 * HOUR);
  const visits = [
    visitRow(kitchenId, people.personId, start, 50),
    visitRow(kitchenId, people.personId, new Date(start.getTime() + 24 * HOUR), 50),
  ];
  const onVisit = visits.flatMap((v, n) =>
    tasks.filter((_, i) => i % 2 === n).map((t) => visitTaskRow(v.id as string, { id: t.id, unitId: t.unitId })),
  );
  await db.customer.create({ data: customer });
  await db.kitchen.create({ data: kitchen });
  await db.unit.createMany({ data: units });
  await db.task.createMany({ data: tasks });
  await db.visit.createMany({ data: visits });
  await db.visitTask.createMany({ data: onVisit });
  await haveJobs(
    db,
    kitchenId,
    visits.map((v) => v.id as string),
    units.map((u) => u.id as string),
  );
  return { kitchenId, visitIds: visits.map((v) => v.id as string), unitIds: units.map((u) => u.id as string) };
}
export type Round = Awaited<ReturnType<typeof haveRound>>;

/** One job booked on each of two visits, and one that waits for whoever comes. */
async function haveJobs(db: Db, kitchenId: string, visitIds: readonly string[], unitIds: readonly string[]): Promise<void> {
  for (const [n, visitId] of [...visitIds, null].entries())
    await db.job.create({
      data: {
        kitchenId,
        source: 'call',
        urgency: 'today',
        what: `Rang about it, ${n}`,
        ...(visitId ? { state: 'booked', visitId } : {}),
        units: { create: [{ unitId: unitIds[n % unitIds.length] ?? '' }] },
        events: {
          create: [
            { kind: 'opened', to: 'asked' },
            ...(visitId ? [{ kind: 'moved' as const, from: 'asked' as const, to: 'booked' as const }] : []),
          ],
        },
      },
    });
}

/** Leaves the technician free for the next run. */
export async function putAway(db: Db, round: Round): Promise<void> {
  await db.job.updateMany({ where: { visitId: { in: round.visitIds }, state: 'booked' }, data: { state: 'asked' } });
  await db.visit.updateMany({
    where: { id: { in: round.visitIds } },
    data: {
      startsAt: new Date('2020-01-01T00:00:00Z'),
      endsAt: new Date('2020-01-01T00:00:01Z'),
      status: 'cancelled',
      cancelReason: 'run is over',
    },
  });
}
