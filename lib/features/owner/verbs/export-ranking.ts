import 'server-only';
import Papa from 'papaparse';
import { guarded } from '../../../core/fleet-csv';
import { monthlyLoss } from '../../../core/evidence';
import { foulingFilter } from '../../../core/owner/fouling-filter';
import { todayIn } from '../../../core/calendar';
import type { Tx } from '../../../database/client';
import { shopTimeZone } from '../../shop/reads/shop';
import { foulingRanking } from '../reads/ranking';

const COLUMNS = [
  'place from', 'place to', 'name', 'kitchen', 'customer', 'kind', 'placement', 'units', 'looks and readings',
  'lost in 30 days %', 'from %', 'to %', 'rate of ln conductance per day', 'standard deviation',
]; // prettier-ignore
/** Places are found by going through pairs: of more it would take minutes. */
const MOST = 5000;
const percent = (x: number) => (100 * x).toFixed(2);

/** The ranking as an address narrows it, days by the shop's clock, as CSV (UTF-8, RFC 4180). Places are those that cannot be told apart. A last line says what is left out. */
export async function exportRanking(
  { db, now }: { db: Tx; now: Date },
  query: Readonly<Record<string, string | undefined>>,
): Promise<string> {
  const filter = foulingFilter(query, todayIn(await shopTimeZone(db), now.getTime()));
  const { rows, total } = await foulingRanking(db, filter, { take: MOST, skip: 0 });
  const lines = rows.map((r) => {
    const loss = monthlyLoss([{ ratePerDay: r.rate, rateSdPerDay: r.sd }]);
    return [
      r.best, r.worst, guarded(r.name), guarded(r.kitchen), guarded(r.customer), r.kind ?? '', r.placement ?? '', r.units, r.evidence,
      loss ? percent(loss.value) : '', loss ? percent(loss.lo) : '', loss ? percent(loss.hi) : '', r.rate.toPrecision(4), r.sd.toPrecision(3),
    ]; // prettier-ignore
  });
  const rest =
    total > rows.length
      ? [['', '', `The ${rows.length} fastest of ${total}: places are found pair by pair. Narrow the ranking to have the others.`]]
      : [];
  return `\uFEFF${Papa.unparse([COLUMNS, ...lines, ...rest], { newline: '\r\n' })}\r\n`;
}
