import 'server-only';
import type { Problem } from '../../../core/fleet-csv';
import type { RawSheet, SheetChoices } from '../../../core/sheet';
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
  /** Rows about units on file, and how many of those would change. */
  known: number;
  updates: number;
  /** What is still to be decided about a sheet. */
  open: number;
};
export type ImportReport = { problems: Problem[]; summary: ImportSummary };

const NOTHING: ImportSummary = {
  customers: 0,
  newKitchens: 0,
  kitchens: 0,
  units: 0,
  tasks: 0,
  flammable: 0,
  errors: 0,
  notes: 0,
  known: 0,
  updates: 0,
  open: 0,
};

function reportOf(json: unknown): ImportReport {
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

/** What was decided about a sheet, as it is kept. */
export function choicesOf(json: unknown): SheetChoices {
  const c = (json ?? {}) as Partial<SheetChoices>;
  return { sheet: c.sheet, columns: c.columns ?? {}, values: c.values ?? {}, answers: c.answers ?? {} };
}
export const sheetsOf = (json: unknown): RawSheet[] | null => (Array.isArray(json) ? (json as RawSheet[]) : null);
export const asJson = (value: unknown) => value as Prisma.InputJsonValue;

/** What was decided about the last sheet of this form, or nothing. */
export async function rememberedChoices(db: Tx, form: string): Promise<SheetChoices> {
  return choicesOf((await db.sheetMemory.findUnique({ where: { form } }))?.choices);
}
/** What an import put on file, and what units were before it changed them. */
export type Made = {
  customers: string[];
  kitchens: string[];
  units: string[];
  changed: { id: string; version: number; before: Record<string, unknown> }[];
};
export const madeOf = (json: unknown): Made | null => (json ? (json as Made) : null);
