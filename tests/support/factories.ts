import { addDays, localDate, weeksRule, type LocalDate } from '@/lib/core/calendar';
import { fromLocalDate } from '@/lib/data/dates';
import type { Tx } from '@/lib/data/client';

/** Small builders with plain defaults; a test overrides what it is about. */

let serial = 0;
const next = () => ++serial;

export const makePerson = (db: Tx, over: Partial<Parameters<Tx['user']['create']>[0]['data']> = {}) =>
  db.user.create({ data: { email: `person${next()}@example.test`, name: `Person ${serial}`, role: 'technician', passwordHash: 'none', ...over } as never });

export const makeCustomer = (db: Tx, name = `Customer ${next()}`) => db.customer.create({ data: { name } });

export async function makeKitchen(db: Tx, over: Record<string, unknown> = {}) {
  const customerId = (over.customerId as string | undefined) ?? (await makeCustomer(db)).id;
  return db.kitchen.create({ data: { name: `Kitchen ${next()}`, timeZone: 'America/Denver', altitudeM: 1600, ...over, customerId } as never });
}

export const makeUnit = (db: Tx, kitchenId: string, over: Record<string, unknown> = {}) =>
  db.unit.create({
    data: { kitchenId, tag: `T${next()}`, name: `Unit ${serial}`, kind: 'reach_in', refrigerant: 'R134a', placement: 'line', boxSetK: 276.15, ...over } as never,
  });

const KINDS = [
  { key: 'coil_cleaning', label: 'Coil cleaning', minutes: 25, lowSide: false, defaultWeeks: 8, sort: 1 },
  { key: 'drain_inspection', label: 'Drain inspection', minutes: 10, lowSide: true, defaultWeeks: 13, sort: 2 },
  { key: 'evaporator_inspection', label: 'Evaporator inspection', minutes: 10, lowSide: true, defaultWeeks: 13, sort: 3 },
];

/** The three task kinds every shop starts with; safe to call again. */
export const makeTaskKinds = (db: Tx) => db.taskKind.createMany({ data: KINDS, skipDuplicates: true });

/** The three tasks of a unit, due on `dueOn`. */
export async function makeTasks(db: Tx, unit: { id: string; kitchenId: string }, dueOn: LocalDate = localDate('2026-11-20')) {
  await makeTaskKinds(db);
  const anchorDate = fromLocalDate(addDays(dueOn, -56));
  return Promise.all(
    KINDS.map((k) =>
      db.task.create({ data: { unitId: unit.id, kitchenId: unit.kitchenId, kindKey: k.key, rule: weeksRule(8), anchorDate, dueOn: fromLocalDate(dueOn) } }),
    ),
  );
}
