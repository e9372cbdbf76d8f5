import 'server-only';
import Papa from 'papaparse';
import { guarded } from '../../../core/fleet-csv';
import { quoteSums } from '../../../core/jobs';
import { todayIn } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';
import { quotesToExport } from '../reads/quotes';

const COLUMNS = [
  'job', 'version', 'customer', 'kitchen', 'sent', 'valid until', 'answer', 'answered on', 'answered by',
  'kind', 'what', 'part number', 'quantity', 'unit', 'price', 'amount', 'taxed', 'tax percent', 'currency',
]; // prettier-ignore

const amount = (cents: number) => (cents / 100).toFixed(2);

/** A line for each line of each quote that was sent, for whatever the shop keeps its books with. UTF-8, RFC 4180. */
export async function exportQuotes({ db }: { db: Tx }): Promise<string> {
  const rows = (await quotesToExport(db)).flatMap((q) => {
    const { kitchen } = q.job;
    const day = (at: Date | null) => (at ? todayIn(kitchen.timeZone, at.getTime()) : '');
    const { lines } = q;
    const sums = quoteSums(lines, q.taxPercent);
    return lines.map((l, i) => [
      String(q.job.number), String(q.version), guarded(kitchen.customer.name), guarded(kitchen.name), day(q.sentAt), toLocalDate(q.validUntil),
      q.supersededAt ? 'replaced' : (q.answer ?? ''), day(q.answeredAt), guarded(q.answeredBy),
      l.kind, guarded(l.what), guarded(l.partNumber), String(l.quantity), guarded(l.unit), amount(l.priceCents), amount(sums.lines[i] ?? 0),
      l.taxed ? 'yes' : 'no', String(q.taxPercent), q.currency,
    ]); // prettier-ignore
  });
  return `\uFEFF${Papa.unparse([COLUMNS, ...rows], { newline: '\r\n' })}\r\n`;
}
