import 'server-only';
import type { Problem } from '../../../core/fleet-csv';
import type { Prisma, Tx } from '../../../database/client';

/** What a dry run found. `errors` and `notes` count all problems. */
export type ImportSummary = {
  customers: number;
  newKitchens: number;
  kitchens: number;
  units: number;
  tasks: number;
  flammable: number;
  errors: number;
  notes: number;
};
export type ImportReport = { problems: Problem[]; summary: ImportSummary };

const NOTHING: ImportSummary = { customers: 0, newKitchens: 0, kitchens: 0, units: 0, tasks: 0, flammable: 0, errors: 0, notes: 0 };

export function reportOf(json: unknown): ImportReport {
  const r = (json ?? {}) as Partial<ImportReport>;
  return { problems: r.problems ?? [], summary: { ...NOTHING, ...r.summary } };
}
export const reportJson = (report: ImportReport) => report as unknown as Prisma.InputJsonObject;

/** One import with its report, or null. `csv` is what was handed in. */
export async function importRun(db: Tx, id: string) {
  const run = await db.importRun.findUnique({ where: { id } });
  return run && { ...run, report: reportOf(run.problems) };
}

export const recentImports = (db: Tx) =>
  db.importRun.findMany({
    orderBy: { createdAt: 'desc' },
    take: 8,
    select: { id: true, fileName: true, status: true, rows: true, doneRows: true, createdAt: true },
  });
