import 'server-only';
import { isFlammable } from '../../../core/visits/needs';
import { allColumns, planFleet, unfitRows, type FleetPlan, type OnFilePolicy, type Line, type Problem } from '../../../core/fleet-csv';
import { viewOf, type RawSheet, type SheetChoices, type SheetReading } from '../../../core/sheet';
import type { Tx } from '../../../database/client';
import { fleetOnFile, fleetTaskKinds, knownUnitsOnFile } from '../reads/fleet';
import type { ImportReport } from '../reads/imports';
import { readingOf } from '../reads/sheet-reading';
import { shopTimeZone } from '../../shop/reads/shop';
import { readCsv } from './read-csv';

/** Kept of one file: whoever has mended so many checks it again. */
const MOST_PROBLEMS = 5000;

type Source = { csv: string; sheets: readonly RawSheet[] | null; choices: SheetChoices };
export type ImportPlan = { plan: FleetPlan; report: ImportReport; reading: SheetReading | null };

/** The dry run: what a file would put on file, against what is there now. */
export async function planImport(db: Tx, { csv, sheets, choices }: Source, now: Date): Promise<ImportPlan> {
  const reading = sheets ? await readingOf(db, sheets, choices, now) : null;
  const { lines, problems } = reading ? { lines: reading.lines as Line[], problems: nothingIn(reading) } : readCsv(csv);
  const whereOnFile = (choices.answers.known as OnFilePolicy | undefined) ?? (reading ? 'fill' : undefined);
  const plan = await planLines(db, lines, problems, whereOnFile, now);
  // One decision for all rows that cannot be filed, whatever their trouble.
  const bad = new Set(plan.problems.filter((p) => p.severity === 'error').map((p) => p.line));
  const kept =
    reading && choices.answers.unfit === 'leave out' && bad.size > 0
      ? await planLines(
          db,
          lines.filter((l) => !bad.has(l.line)),
          problems,
          whereOnFile,
          now,
        )
      : plan;
  const report = reportOfPlan(kept, reading);
  return { plan: kept, report: reading && sheets ? { ...report, sheet: viewOf(reading, sheets, choices) } : report, reading };
}

function nothingIn({ rows, headerLine }: SheetReading): Problem[] {
  if (rows > 0) return [];
  const message = 'No unit was found: no column holds a unit’s name, kind, model or serial. Say under “Columns” what each one is.';
  return [{ line: headerLine, column: '', value: '', message, severity: 'error' }];
}

async function planLines(db: Tx, lines: Line[], problems: Problem[], whereOnFile: OnFilePolicy | undefined, now: Date): Promise<FleetPlan> {
  const kinds = await fleetTaskKinds(db);
  if (problems.length > 0)
    return { kitchens: [], units: [], updates: [], kitchenUpdates: [], rowsOnFile: 0, problems, rows: Math.max(0, lines.length - 1) };
  const onFile = { ...(await fleetOnFile(db)), units: await knownUnitsOnFile(db) };
  return planFleet(lines, {
    columns: allColumns(kinds),
    kinds,
    onFile,
    whereOnFile,
    shopTimeZone: await shopTimeZone(db),
    now: now.getTime(),
  });
}

function reportOfPlan(plan: FleetPlan, reading: SheetReading | null): ImportReport {
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
    rowsOnFile: plan.rowsOnFile,
    updates: plan.updates.length,
    kitchenUpdates: plan.kitchenUpdates.length,
    open: reading ? openIn(reading) : 0,
  };
  // What is still open makes rows incomplete: that is said once, as the question.
  if (summary.open > 0) return { problems: [], summary: { ...summary, errors: 0 } };
  const problems = plan.problems.slice(0, MOST_PROBLEMS);
  return { problems, summary, ...(reading && summary.errors > 0 ? { unfit: unfitRows(plan.problems) } : {}) };
}

/** What is still to be decided. */
const openIn = ({ questions, groups }: SheetReading): number =>
  questions.filter((q) => q.open).length + groups.filter((g) => g.open).length;
