import 'server-only';
import { shopSettings } from '../../shop/reads/settings';
import { timeIn } from '../../../core/calendar/when';
import { bookingConcerns } from '../../../core/visits/concerns';
import { instantOf, type LocalDate } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { needsOf } from '../../../core/visits/needs';
import type { Span } from '../../../core/visits/service-hours';
import type { Tx } from '../../../database/client';
import { bookableTechnicians, bookingKitchen, visitInTheWay } from '../reads/visits';
import { pastWords } from './past';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

export type Slot = { technicianId: string; date: LocalDate; from: string; minutes: number };
type At = { now: Date; anyway: boolean };
type Units = readonly { refrigerant: string; roofWork: boolean }[];

/**
 * Turns a slot in the kitchen's wall time into instants and checks it.
 * @throws AppError not_found | invalid, as `checkedSpan`
 */
export async function checkedSlot(db: Tx, kitchenId: string, slot: Slot, units: Units, at: At) {
  const kitchen = await kitchenOf(db, kitchenId);
  const start = instantOf(slot.date, slot.from, kitchen.timeZone);
  return checked(db, kitchen, slot.technicianId, { start, end: start + slot.minutes * 60_000 }, units, at);
}

/**
 * Checks a slot given as instants, which tell apart the two times of an hour that comes twice.
 * @throws AppError not_found | invalid — a missing skill always; a time past, hours and days off unless `anyway`
 */
export async function checkedSpan(db: Tx, kitchenId: string, technicianId: string, span: Span, units: Units, at: At) {
  return checked(db, await kitchenOf(db, kitchenId), technicianId, span, units, at);
}

async function kitchenOf(db: Tx, id: string) {
  const kitchen = await bookingKitchen(db, id);
  if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.', 'kitchenId');
  return kitchen;
}

async function checked(
  db: Tx,
  kitchen: Awaited<ReturnType<typeof kitchenOf>>,
  technicianId: string,
  span: Span,
  units: Units,
  { now, anyway }: At,
) {
  const technician = (await bookableTechnicians(db)).find((t) => t.id === technicianId);
  if (!technician) throw new AppError('invalid', 'That technician is not active. Choose another.', 'technicianId');
  const shop = await shopSettings(db);

  const concerns = bookingConcerns({ span, kitchen, technician, shopTimeZone: shop?.timeZone ?? kitchen.timeZone, needs: needsOf(units) });
  const refusing = concerns.filter((c) => c.refuses);
  if (refusing.length) throw new AppError('invalid', refusing.map((c) => c.message).join(' '), 'technicianId');
  const past = pastWords(span.start, kitchen.timeZone, now);
  const messages = [...(past ? [`${past}.`] : []), ...concerns.map((c) => c.message)];
  if (messages.length && !anyway) throw new AppError('invalid', `${messages.join(' ')} Tick “book anyway” if it is agreed.`, 'anyway');
  return { kitchen, technician, startsAt: new Date(span.start), endsAt: new Date(span.end) };
}

/** What to tell when the database refused an overlap. */
export async function overlapError(
  db: Tx,
  technicianId: string,
  startsAt: Date,
  endsAt: Date,
  notVisitId?: string,
  remedy = 'Choose another time or technician.',
  field = 'from',
): Promise<AppError> {
  const other = await visitInTheWay(db, technicianId, startsAt, endsAt, notVisitId);
  if (!other) return new AppError('overlap', 'Someone took that time a moment ago. Look at the week again and choose another.', field);
  const time = (d: Date) => timeIn(d, other.kitchen.timeZone);
  return new AppError(
    'overlap',
    `${other.technician.name} is at ${fullKitchenName(other.kitchen)} from ${time(other.startsAt)} to ${time(other.endsAt)}. ${remedy}`,
    field,
  );
}
