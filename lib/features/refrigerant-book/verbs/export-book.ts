import 'server-only';
import Papa from 'papaparse';
import { todayIn } from '../../../core/calendar';
import { guarded } from '../../../core/fleet-csv';
import { CERTIFICATE_LABEL, CYLINDER_WAY_LABEL } from '../../../core/refrigerant-book';
import { RECOVERED_FOR_LABEL } from '../../../core/sealed/work';
import type { Tx } from '../../../database/client';
import { shopTimeZone } from '../../shop/reads/shop';
import { GWP_REPORT, gwpOf, linesOfYear } from '../reads/book';

/** Spreadsheets read a file as UTF-8 only when it says so. */
const MARK = '\uFEFF';
const HEAD = ['date', 'cylinder', 'refrigerant', 'what', 'kg into cylinder', 'scale before kg', 'scale after kg', 'recovered for', 'unit', 'tag', 'kitchen', 'technician', 'certificate', 'answered for by', 'takes back', 'note', 'line', `GWP (${GWP_REPORT})`, 't CO2e'] as const; // prettier-ignore

/** Every line of a year as CSV, masses in kg, with what the GWP makes of it. */
export async function exportBook({ db }: { db: Tx }, year: number): Promise<string> {
  const zone = await shopTimeZone(db);
  const kg = (x: number | null) => (x === null ? '' : String(Number(x.toFixed(4))));
  const rows = (await linesOfYear(db, year, zone)).map((e) => {
    const gwp = gwpOf(e.cylinder.refrigerant);
    const cells = [
      todayIn(zone, e.at.getTime()), e.cylinder.label, e.cylinder.refrigerant, CYLINDER_WAY_LABEL[e.way], kg(e.kg), kg(e.grossBeforeKg), kg(e.grossAfterKg),
      e.recoveredFor ? RECOVERED_FOR_LABEL[e.recoveredFor] : '', e.unit?.name ?? '', e.unit?.tag ?? '', e.unit?.kitchen.name ?? '', e.by.name,
      e.certificate ? `${CERTIFICATE_LABEL[e.certificate.kind]} ${e.certificate.number}` : '', e.overruledBy, e.correctsId ?? '', e.note, e.id,
      gwp === null ? '' : String(gwp), gwp === null ? '' : ((e.kg * gwp) / 1000).toFixed(3),
    ]; // prettier-ignore
    return cells.map(guarded);
  });
  return MARK + Papa.unparse([[...HEAD], ...rows], { newline: '\r\n' }) + '\r\n';
}
