import 'server-only';
import { bookingConcerns } from '../../core/booking/concerns';
import { instantOf, type LocalDate } from '../../core/calendar';
import { AppError } from '../../core/errors';
import { needsOf } from '../../core/booking/needs';
import type { Tx } from '../../data/client';
import { bookableTechnicians, bookingKitchen, visitInTheWay } from '../../data/visits';

export type Slot = { technicianId: string; date: LocalDate; from: string; minutes: number };

/**
 * Turns a slot in the kitchen's wall time into instants and checks it.
 * @throws AppError invalid — a missing skill always; hours and days off unless `anyway`.
 */
export async function checkedSlot(
  db: Tx,
  kitchenId: string,
  slot: Slot,
  units: { refrigerant: string; roofWork: boolean }[],
  anyway: boolean,
) {
  const kitchen = await bookingKitchen(db, kitchenId);
  if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.', 'kitchenId');
  const technician = (await bookableTechnicians(db)).find((t) => t.id === slot.technicianId);
  if (!technician) throw new AppError('invalid', 'That technician is not active. Choose another.', 'technicianId');
  const shop = await db.shopSettings.findUnique({ where: { id: 1 } });

  const start = instantOf(slot.date, slot.from, kitchen.timeZone);
  const span = { start, end: start + slot.minutes * 60_000 };
  const concerns = bookingConcerns({ span, kitchen, technician, shopTimeZone: shop?.timeZone ?? kitchen.timeZone, needs: needsOf(units) });
  const refusing = concerns.filter((c) => c.refuses);
  if (refusing.length) throw new AppError('invalid', refusing.map((c) => c.words).join(' '), 'technicianId');
  if (concerns.length && !anyway)
    throw new AppError('invalid', `${concerns.map((c) => c.words).join(' ')} Tick “book anyway” if it is agreed.`, 'anyway');
  return { kitchen, technician, startsAt: new Date(span.start), endsAt: new Date(span.end) };
}

/** What to tell when the database refused an overlap. */
export async function overlapError(db: Tx, technicianId: string, startsAt: Date, endsAt: Date, notVisitId?: string): Promise<AppError> {
  const other = await visitInTheWay(db, technicianId, startsAt, endsAt, notVisitId);
  if (!other) return new AppError('overlap', 'Someone took that time a moment ago. Look at the week again and choose another.', 'from');
  const time = (d: Date) =>
    new Intl.DateTimeFormat('en-GB', { timeZone: other.kitchen.timeZone, hour: '2-digit', minute: '2-digit' }).format(d);
  return new AppError(
    'overlap',
    `${other.technician.name} is at ${other.kitchen.name} from ${time(other.startsAt)} to ${time(other.endsAt)}. Choose another time or technician.`,
    'from',
  );
}
