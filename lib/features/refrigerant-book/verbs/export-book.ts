import 'server-only';
import Papa from 'papaparse';
import { todayIn } from '../../../core/calendar';
import { guarded } from '../../../core/fleet-csv';
import { CERTIFICATE_LABEL, CYLINDER_WAY_LABEL } from '../../../core/refrigerant-book';
import { RECOVERED_FOR_LABEL } from '../../../core/sealed/work';
import type { Tx } from '../../../database/client';
import { shopTimeZone } from '../../shop/reads/shop';
import { GWP_REPORT, gwpOf, linesOfYear } from '../reads/book';
import { chronicIn, leakingUnits } from '../reads/leaks';

/** Spreadsheets read a file as UTF-8 only when it says so. */
const MARK = '\uFEFF';
const HEAD = ['date', 'cylinder', 'refrigerant', 'what', 'kg into cylinder', 'scale before kg', 'scale after kg', 'recovered for', 'unit', 'tag', 'kitchen', 'customer', 'technician', 'certificate', 'answered for by', 'takes back', 'note', 'line', `GWP (${GWP_REPORT})`, 't CO2e'] as const; // prettier-ignore

/** Every line of a year as CSV, masses in kg, with what the GWP makes of it. */
export async function exportBook({ db }: { db: Tx }, year: number): Promise<string> {
  const zone = await shopTimeZone(db);
  const kg = (x: number | null) => (x === null ? '' : String(Number(x.toFixed(4))));
  const rows = (await linesOfYear(db, year, zone)).map((e) => {
    const gwp = gwpOf(e.cylinder.refrigerant);
    const cells = [
      todayIn(zone, e.at.getTime()), e.cylinder.label, e.cylinder.refrigerant, CYLINDER_WAY_LABEL[e.way], kg(e.kg), kg(e.grossBeforeKg), kg(e.grossAfterKg),
      e.recoveredFor ? RECOVERED_FOR_LABEL[e.recoveredFor] : '', e.unit?.name ?? '', e.unit?.tag ?? '', e.unit?.kitchen.name ?? '',
      e.unit?.kitchen.customer.name ?? '', e.by.name,
      e.certificate ? `${CERTIFICATE_LABEL[e.certificate.kind]} ${e.certificate.number}` : '', e.overruledBy, e.correctsId ?? '', e.note, e.id,
      gwp === null ? '' : String(gwp), gwp === null ? '' : ((e.kg * gwp) / 1000).toFixed(3),
    ]; // prettier-ignore
    return cells.map(guarded);
  });
  return MARK + Papa.unparse([[...HEAD], ...rows], { newline: '\r\n' }) + '\r\n';
}

const CHRONIC = [
  'unit',
  'tag',
  'kitchen',
  'customer',
  'refrigerant',
  'full charge kg',
  'added kg',
  '% of full charge',
  'added on',
  'tests',
  'rule',
] as const;

/** Units of a year on which a report is due, with what was added when and how their tests went. */
export async function exportChronic({ db, now }: { db: Tx; now: Date }, year: number): Promise<string> {
  const today = todayIn(await shopTimeZone(db), now.getTime());
  const rows = chronicIn(await leakingUnits(db, today), year, today).map(({ leaks: { unit, tests }, rule, percent, addedKg, days }) => {
    const tested = tests
      .filter((t) => t.on.startsWith(`${year}-`))
      .map((t) => `${t.on} ${t.kind === 'initial' ? 'first' : 'follow-up'} ${t.passed ? 'passed' : 'failed'}`);
    const cells = [unit.name, unit.tag, unit.kitchen.name, unit.kitchen.customer.name, unit.refrigerant, unit.chargeKg?.toFixed(3) ?? '', addedKg.toFixed(3), percent.toFixed(1), days.join(' '), tested.join('; '), `${rule.title}, ${rule.chronicSource}`]; // prettier-ignore
    return cells.map(guarded);
  });
  return MARK + Papa.unparse([[...CHRONIC], ...rows], { newline: '\r\n' }) + '\r\n';
}
