import 'server-only';
import { isFlammable } from '../../../core/visits/needs';
import { allColumns, planFleet, type FleetPlan } from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
import { fleetOnFile, fleetTaskKinds } from '../reads/fleet';
import type { ImportReport } from '../reads/imports';
import { shopTimeZone } from '../../shop/reads/shop';
import { readCsv } from './read-csv';

/** The dry run: what a file would put on file, against what is there now. */
export async function planImport(db: Tx, csv: string, now: Date): Promise<{ plan: FleetPlan; report: ImportReport }> {
  const { lines, problems } = readCsv(csv);
  const [kinds, onFile, zone] = [await fleetTaskKinds(db), await fleetOnFile(db), await shopTimeZone(db)];
  const plan = problems.length
    ? { kitchens: [], units: [], problems, rows: Math.max(0, lines.length - 1) }
    : planFleet(lines, { columns: allColumns(kinds), kinds, onFile, shopTimeZone: zone, now: now.getTime() });
  const { kitchens, units } = plan;
  const summary = {
    customers: new Set(kitchens.filter((k) => !k.customerId).map((k) => k.customer.toLowerCase())).size,
    newKitchens: kitchens.filter((k) => !k.kitchenId).length,
    kitchens: kitchens.length,
    units: units.length,
    tasks: units.reduce((sum, u) => sum + u.tasks.length, 0),
    flammable: units.filter((u) => isFlammable(u.refrigerant)).length,
    errors: plan.problems.filter((p) => p.severity === 'error').length,
    notes: plan.problems.filter((p) => p.severity === 'note').length,
  };
  return { plan, report: { problems: plan.problems, summary } };
}
