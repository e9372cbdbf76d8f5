import 'server-only';
import { todayIn, type LocalDate } from '../../../core/calendar';
import type { DateOrder } from '../../../core/calendar/read-date';
import { AppError } from '../../../core/errors';
import { FILED_REFRIGERANTS } from '../../../core/refrigerants/catalogue';
import { readSheet, unitLines, type RawSheet, type SheetChoices, type SheetReading } from '../../../core/sheet';
import type { Tx } from '../../../database/client';
import { knownUnitsOnFile } from './fleet';
import { customersUnits, shopPosition, shopTimeZone } from '../../shop/reads/shop';

/** How the shop writes days, and which one it is. */
async function daysOf(db: Tx, now: Date): Promise<{ dateOrder: DateOrder; today: LocalDate }> {
  const zone = await shopTimeZone(db);
  // Where the month is written first; the column's own dates overrule it.
  return {
    dateOrder: zone.startsWith('America/') || zone.startsWith('US/') ? 'month first' : 'day first',
    today: todayIn(zone, now.getTime()),
  };
}

const REFRIGERANTS = FILED_REFRIGERANTS.map((r) => r.id);

/** Units that were typed a line each for a kitchen, as a sheet. @throws AppError not_found */
export async function sheetOfLines(db: Tx, { lines, kitchenId }: { lines: string; kitchenId: string }, now: Date): Promise<RawSheet> {
  const kitchen = await db.kitchen.findUnique({ where: { id: kitchenId, archivedAt: null }, include: { customer: true } });
  if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.');
  return unitLines(lines, {
    kitchen: { customer: kitchen.customer.name, name: kitchen.name },
    refrigerants: REFRIGERANTS,
    ...(await daysOf(db, now)),
  });
}

/** Reads a sheet against what is on file. */
export async function readingOf(db: Tx, sheets: readonly RawSheet[], choices: SheetChoices, now: Date): Promise<SheetReading> {
  const customers = await db.customer.findMany({ where: { archivedAt: null }, select: { name: true } });
  return readSheet(sheets, choices, {
    refrigerants: REFRIGERANTS,
    customersOnFile: customers.map((c) => c.name),
    unitsOnFile: await knownUnitsOnFile(db),
    temperature: (await customersUnits(db)).temperature,
    shop: await shopPosition(db),
    ...(await daysOf(db, now)),
  });
}
