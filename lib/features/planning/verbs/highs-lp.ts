import loadHighs, { type Highs, type Model } from 'highs';
import type { LpModel, LpRow, LpColumn, LpSolution, LpSolver } from '@/lib/core/planning/bound/lp';

/** Tighter than the library's 1e-7, because bounds are rounded up to whole units. */
const TOLERANCE = 1e-9;

/** HiGHS (MIT licence, highs.dev) compiled to WebAssembly, behind the planner's interface. */
export async function highsLp(): Promise<LpSolver> {
  const highs = await loadHighs();
  return { open: () => openModel(highs) };
}

function openModel(highs: Highs): LpModel {
  const model: Model = highs.createModel();
  model.options.set({
    output_flag: false,
    primal_feasibility_tolerance: TOLERANCE,
    dual_feasibility_tolerance: TOLERANCE,
    random_seed: 1,
  });
  const bound = (value: number): number => (value === Infinity ? highs.infinity : value === -Infinity ? -highs.infinity : value);
  let rows = 0;
  let columns = 0;
  let closed = false;
  const read = (): LpSolution => {
    const { modelStatus } = highs.constants;
    const status = model.getModelStatus();
    const solution = model.getSolution();
    const answered = status === modelStatus.optimal;
    return {
      status: answered ? 'optimal' : status === modelStatus.infeasible ? 'infeasible' : 'stopped',
      objective: answered ? model.getObjectiveValue() : NaN,
      primal: solution.colValue,
      duals: solution.rowDual,
    };
  };
  return {
    addRows(added: readonly LpRow[]) {
      const starts = [0];
      const indices: number[] = [];
      const values: number[] = [];
      for (const row of added) {
        indices.push(...(row.columns ?? []));
        values.push(...(row.values ?? []));
        starts.push(indices.length);
      }
      model.addRows({
        lower: Float64Array.from(added, (row) => bound(row.lower)),
        upper: Float64Array.from(added, (row) => bound(row.upper)),
        matrix: {
          format: 'csr',
          numRows: added.length,
          numCols: columns,
          starts: Int32Array.from(starts),
          indices: Int32Array.from(indices),
          values: Float64Array.from(values),
        },
      });
      rows += added.length;
    },
    addColumns(added: readonly LpColumn[]) {
      const starts = [0];
      const indices: number[] = [];
      const values: number[] = [];
      for (const column of added) {
        for (const row of column.rows) indices.push(row);
        for (const value of column.values) values.push(value);
        starts.push(indices.length);
      }
      model.addCols({
        cost: Float64Array.from(added, (column) => column.cost),
        lower: new Float64Array(added.length),
        upper: Float64Array.from(added, (column) => bound(column.upper ?? Infinity)),
        matrix: {
          format: 'csc',
          numRows: rows,
          numCols: added.length,
          starts: Int32Array.from(starts),
          indices: Int32Array.from(indices),
          values: Float64Array.from(values),
        },
      });
      columns += added.length;
    },
    solve() {
      model.run();
      return read();
    },
    solveWhole(limitMs: number) {
      for (let c = 0; c < columns; c++) model.changeColIntegrality(c, highs.constants.variableType.integer);
      model.options.set({
        time_limit: Math.max(0.01, limitMs / 1000),
        mip_rel_gap: 0,
        mip_abs_gap: 1e-7,
        mip_feasibility_tolerance: TOLERANCE,
      });
      model.run();
      return read();
    },
    close() {
      if (!closed) model.dispose();
      closed = true;
    },
  };
}
