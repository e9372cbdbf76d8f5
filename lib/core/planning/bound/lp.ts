/**
 * What the bounds need of a linear-programming library. The core defines it, the caller
 * supplies it, so that no library is imported here.
 */
export interface LpColumn {
  readonly cost: number;
  readonly upper?: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

export interface LpRow {
  readonly lower: number;
  readonly upper: number;
  readonly columns?: readonly number[];
  readonly values?: readonly number[];
}

export interface LpSolution {
  /** `optimal` only when proven; anything else means the numbers are not to be used as a bound. */
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  readonly objective: number;
  readonly primal: Float64Array;
  /** One dual a row, for a minimisation: reduced cost of a column = cost − Σ dual × value. */
  readonly duals: Float64Array;
}

/** A model that grows: columns ≥ 0, minimised. Holds native memory until closed. */
export interface LpModel {
  addRows(rows: readonly LpRow[]): void;
  addColumns(columns: readonly LpColumn[]): void;
  solve(): LpSolution;
  /** The same model with every column whole. */
  solveWhole(limitMs: number): LpSolution;
  close(): void;
}

export interface LpSolver {
  open(): LpModel;
}
