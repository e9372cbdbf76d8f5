import type { Model } from '../model/model';
import type { LpColumn, LpModel, LpRow, LpSolution, LpSolver } from './lp';

/** A way to use one shift, or (shift −1) a set of one job's items that stays undone. */
export interface Column {
  readonly shift: number;
  readonly jobs: readonly number[];
  readonly sets: readonly number[];
  readonly cost: number;
}

export interface Kind {
  /** One shift that stands for all of its kind. */
  readonly shift: number;
  readonly copies: number;
}

export function kindsOf(model: Model): Kind[] {
  const kinds = new Map<number, { shift: number; copies: number }>();
  model.shifts.forEach(({ kind }, shift) => {
    const found = kinds.get(kind);
    if (found) found.copies++;
    else kinds.set(kind, { shift, copies: 1 });
  });
  return [...kinds.values()];
}

/**
 * The rows of set partitioning: every item is in exactly one chosen route or left once; no
 * more routes of a kind than there are shifts of it; one leave column a job.
 */
export interface Partition {
  readonly rows: readonly LpRow[];
  /** Row of each shift's kind. */
  readonly kindRow: readonly number[];
  toLp(column: Column): LpColumn;
}

export function partitionOf(model: Model): Partition {
  const kinds = kindsOf(model);
  const kindAt = new Map(kinds.map((kind, k) => [model.shifts[kind.shift]!.kind, model.rows + k]));
  const kindRow = model.shifts.map((shift) => kindAt.get(shift.kind)!);
  const leaveRow = new Map<number, number>();
  model.jobs.forEach((job, j) => {
    if (job.items > 1) leaveRow.set(j, model.rows + kinds.length + leaveRow.size);
  });
  return {
    rows: [
      ...Array.from({ length: model.rows }, () => ({ lower: 1, upper: 1 })),
      ...kinds.map((kind) => ({ lower: 0, upper: kind.copies })),
      ...[...leaveRow].map(() => ({ lower: 0, upper: 1 })),
    ],
    kindRow,
    toLp(column) {
      const at = new Map<number, number>();
      column.jobs.forEach((job, p) => {
        for (let rest = column.sets[p]!; rest !== 0; rest &= rest - 1) {
          const row = model.jobs[job]!.firstRow + (31 - Math.clz32(rest & -rest));
          at.set(row, (at.get(row) ?? 0) + 1);
        }
      });
      const extra = column.shift >= 0 ? kindRow[column.shift] : leaveRow.get(column.jobs[0]!);
      if (extra !== undefined) at.set(extra, 1);
      return { cost: column.cost, rows: [...at.keys()], values: [...at.values()] };
    },
  };
}

/** The partitioning problem over a growing list of columns, without doubles. */
export interface Master {
  readonly columns: readonly Column[];
  readonly kindRow: readonly number[];
  /** How many of the columns were new. */
  add(columns: readonly Column[]): number;
  solve(): LpSolution;
  solveWhole(limitMs: number): LpSolution;
  close(): void;
}

export function openMaster(model: Model, solver: LpSolver): Master {
  const partition = partitionOf(model);
  const lp: LpModel = solver.open();
  lp.addRows(partition.rows);
  const columns: Column[] = [];
  const keysAdded = new Set<string>();
  return {
    columns,
    kindRow: partition.kindRow,
    add(added) {
      const fresh = added.filter((column) => {
        const kind = column.shift < 0 ? -1 : model.shifts[column.shift]!.kind;
        const key = `${kind}:${column.jobs.join(',')}:${column.sets.join(',')}`;
        if (keysAdded.has(key)) return false;
        keysAdded.add(key);
        return true;
      });
      if (fresh.length > 0) lp.addColumns(fresh.map((column) => partition.toLp(column)));
      columns.push(...fresh);
      return fresh.length;
    },
    solve: () => lp.solve(),
    solveWhole: (limitMs) => lp.solveWhole(limitMs),
    close: () => lp.close(),
  };
}
