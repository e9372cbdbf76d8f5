import 'server-only';
import { todayIn } from '../../../core/calendar';
import { FILED_REFRIGERANTS } from '../../../core/refrigerants/catalogue';
import { readSheet, type RawSheet, type SheetChoices, type SheetReading } from '../../../core/sheet';
import type { Tx } from '../../../database/client';
import { knownUnitsOnFile } from './fleet';
import { customersUnits, shopPosition, shopTimeZone } from '../../shop/reads/shop';

/** Reads a sheet against what is on file. */
export async function readingOf(db: Tx, sheets: readonly RawSheet[], choices: SheetChoices, now: Date): Promise<SheetReading> {
  const zone = await shopTimeZone(db);
  const customers = await db.customer.findMany({ where: { archivedAt: null }, select: { name: true } });
  return readSheet(sheets, choices, {
    refrigerants: FILED_REFRIGERANTS.map((r) => r.id),
    customersOnFile: customers.map((c) => c.name),
    unitsOnFile: await knownUnitsOnFile(db),
    // Where the month is written first; the column's own dates overrule it.
    dateOrder: zone.startsWith('America/') || zone.startsWith('US/') ? 'month first' : 'day first',
    temperature: (await customersUnits(db)).temperature,
    shop: await shopPosition(db),
    today: todayIn(zone, now.getTime()),
  });
}
