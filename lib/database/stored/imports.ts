import { z } from 'zod';
import type { Problem, UnfitRows } from '../../core/fleet-csv';
import type { RawSheet, SheetChoices, SheetView } from '../../core/sheet';
import { renamed, stored, storedList } from './stored';

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
  rowsOnFile: number;
  updates: number;
  /** Kitchens on file that would change. */
  kitchenUpdates: number;
  /** What is still to be decided about a sheet. */
  open: number;
};
export type ImportReport = {
  /** The first of them, where there are very many. */
  problems: Problem[];
  summary: ImportSummary;
  /** Of a sheet that is not in our own columns. */
  sheet?: SheetView;
  unfit?: UnfitRows;
};

/** What an import put on file, and what units and kitchens were before it changed them. */
export type Made = {
  customers: string[];
  kitchens: string[];
  units: string[];
  changed: Changed[];
  changedKitchens: Changed[];
};
type Changed = { id: string; version: number; before: Record<string, unknown> };

const count = z.number().default(0);
const summary = z.object({
  customers: count, newKitchens: count, kitchens: count, units: count, tasks: count, flammable: count, errors: count, notes: count,
  rowsOnFile: count, updates: count, kitchenUpdates: count, open: count,
}); // prettier-ignore
const problem: z.ZodType<Problem> = z.object({
  line: z.number(),
  column: z.string(),
  value: z.string(),
  message: z.string(),
  severity: z.enum(['error', 'note']),
});
const changed = z.array(z.object({ id: z.string(), version: z.number(), before: z.record(z.string(), z.unknown()) }));
const texts = z.record(z.string(), z.string());
const ids = z.array(z.string());
const examples = z.array(z.string());
const sheetView: z.ZodType<SheetView> = z.object({
  columns: z.array(
    z.object({ at: z.number(), header: z.string(), samples: examples, filled: z.number(), target: z.string(), chosen: z.boolean() }),
  ),
  headerLine: z.number(),
  groups: z.array(
    z.object({
      target: z.string(), key: z.string(), value: z.string(), rows: z.number(), taken: z.string(), chosen: z.boolean(), open: z.boolean(),
    }),
  ),
  questions: z.array(
    z.object({
      id: z.string(), text: z.string(), rows: z.number(), examples, answer: z.string(), open: z.boolean(),
      options: z.array(z.object({ value: z.string(), label: z.string() })),
    }),
  ),
  assumptions: z.array(
    z.object({ column: z.string().default(''), text: z.string(), rows: z.number(), lines: z.array(z.number()).default(() => []), examples }),
  ),
  lines: z.array(z.object({ line: z.number(), cells: z.array(z.string()) })),
  rows: z.number(),
  sheets: z.array(z.string()),
  chosen: z.number(),
  tabs: z.number().optional(),
  moreGroups: z.number(),
}); // prettier-ignore
const unfit: z.ZodType<UnfitRows> = z.object({
  rows: z.number(),
  causes: z.array(z.object({ column: z.string(), message: z.string(), rows: z.number(), first: z.array(z.number()) })),
});

export const STORED_REPORT = stored<ImportReport>(
  'report of an import',
  3,
  z.object({
    problems: z.array(problem).default(() => []),
    summary: summary.prefault({}),
    sheet: sheetView.optional(),
    unfit: unfit.optional(),
  }),
  { 1: renamed(['told', 'assumptions'], ['known', 'rowsOnFile'], ['words', 'text']) },
);

/** A sheet as it was handed in. */
export const STORED_SHEETS = storedList<RawSheet>('sheet of an import', 1, z.object({ name: z.string(), rows: z.array(z.array(z.string())) })); // prettier-ignore

/** What was decided about a sheet. */
export const STORED_CHOICES = stored<SheetChoices>(
  'choices about a sheet',
  1,
  z.object({
    sheet: z.number().optional(),
    columns: texts.default(() => ({})),
    values: z.record(z.string(), texts).default(() => ({})),
    answers: texts.default(() => ({})),
  }),
);

export const STORED_MADE = stored<Made>(
  'note of what an import made',
  1,
  z.object({
    customers: ids,
    kitchens: ids,
    units: ids,
    changed,
    changedKitchens: changed.default(() => []),
  }),
);
