import 'server-only';
import Papa from 'papaparse';
import { todayIn } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { guarded } from '../../../core/fleet-csv';
import { SHOP_DAYS } from '../../../core/owner/days';
import { periodOf } from '../../../core/owner/period';
import type { Tx } from '../../../database/client';
import { shopTimeZone } from '../../shop/reads/shop';
import { visitLines } from '../reads/visit-lines';

const COLUMNS = [
  'day', 'kitchen', 'customer', 'technician', 'state', 'nobody there', 'begins', 'ends', 'arrived', 'left', 'minutes there',
  'minutes on the road to it', 'call-out within 30 days, job', 'visit',
]; // prettier-ignore
const moment = (at: Date | null) => at?.toISOString() ?? '';
const minutes = (x: number | null) => (x === null ? '' : x.toFixed(1));

/** A line for each visit behind the figures of the shop, days by its own clock, moments in UTC. CSV (UTF-8, RFC 4180). */
export async function exportVisits({ db, now }: { db: Tx; now: Date }, query: { from?: string; until?: string }): Promise<string> {
  const zone = await shopTimeZone(db);
  const { from, to } = periodOf(query, todayIn(zone, now.getTime()), SHOP_DAYS);
  const lines = (await visitLines(db, from, to, zone, now)).map((v) => [
    toLocalDate(v.day), guarded(v.kitchen), guarded(v.customer), guarded(v.technician), v.status, v.nobodyThere ? 'yes' : '',
    moment(v.startsAt), moment(v.endsAt), moment(v.arrivedAt), moment(v.leftAt), minutes(v.there), minutes(v.road), v.job ?? '', v.id,
  ]); // prettier-ignore
  return `\uFEFF${Papa.unparse([COLUMNS, ...lines], { newline: '\r\n' })}\r\n`;
}
