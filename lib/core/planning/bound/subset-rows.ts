import type { Model } from '../model/model';
import type { LpSolver } from './lp';
import { partitionOf, type Column } from './master';

/** Rounds of cuts, cuts a round, and the number of items above which triples are too many to look through. */
const ROUNDS = 15;
const CUTS_A_ROUND = 40;
const MOST_ITEMS = 90;
const LEAST_VIOLATION = 0.02;

/** What is left of a pool of columns after cutting, and how cheap a plan made of it can be. */
export interface Tightened {
  readonly columns: readonly Column[];
  readonly bound: number;
}

/**
 * Subset-row cuts over a complete pool of columns: of three items at most one route can
 * hold two (Jepsen, Petersen, Spoorendonk & Pisinger 2008, Operations Research
 * 56(2):497–511). They raise the bound, and columns whose reduced cost then shows that no
 * plan as cheap as `incumbent` uses them are dropped.
 */
export function* tighten(model: Model, solver: LpSolver, pool: readonly Column[], incumbent: number): Generator<void, Tightened, void> {
  const partition = partitionOf(model);
  const lp = solver.open();
  try {
    const columns = pool.map((column) => partition.toLp(column));
    const items = columns.map((column) => column.rows.filter((row) => row < model.rows));
    const cuts: Int32Array[] = [];
    lp.addRows(partition.rows);
    lp.addColumns(columns);
    let bound = -Infinity;
    for (let round = 0; ; round++) {
      yield;
      const { status, objective, primal, duals } = lp.solve();
      if (status !== 'optimal') return { columns: pool, bound };
      bound = objective;
      if (bound >= incumbent - 1e-7) return { columns: [], bound };
      const found = round < ROUNDS && model.rows <= MOST_ITEMS ? separate(model.rows, items, primal) : [];
      if (found.length > 0) {
        lp.addRows(
          found.map((cut) => {
            const on = items.flatMap((held, c) => (holdsTwo(held, cut) ? [c] : []));
            return { lower: -Infinity, upper: 1, columns: on, values: on.map(() => 1) };
          }),
        );
        cuts.push(...found);
        continue;
      }
      const kept = pool.filter((_, c) => {
        let reduced = columns[c]!.cost;
        for (const row of columns[c]!.rows) reduced -= duals[row]!;
        cuts.forEach((cut, i) => {
          if (holdsTwo(items[c]!, cut)) reduced -= duals[partition.rows.length + i]!;
        });
        return reduced <= incumbent - bound + 1e-6;
      });
      return { columns: kept, bound };
    }
  } finally {
    lp.close();
  }
}

function holdsTwo(items: readonly number[], cut: Int32Array): boolean {
  let count = 0;
  for (const item of items) if (item === cut[0] || item === cut[1] || item === cut[2]) count++;
  return count >= 2;
}

/** The most violated triples of a fractional solution. */
function separate(rows: number, items: readonly (readonly number[])[], primal: Float64Array): Int32Array[] {
  // together[a][b]: how much of the solution holds both a and b; whole triples are counted three times over.
  const used = items.flatMap((held, c) => (primal[c]! > 1e-6 && primal[c]! < 1 - 1e-6 ? [{ held: new Set(held), value: primal[c]! }] : []));
  const violated: { cut: Int32Array; by: number }[] = [];
  const pair = (a: number, b: number): number => used.reduce((sum, { held, value }) => (held.has(a) && held.has(b) ? sum + value : sum), 0);
  const together = Array.from({ length: rows }, (_, a) => Array.from({ length: rows }, (_, b) => (a < b ? pair(a, b) : 0)));
  for (let a = 0; a < rows; a++)
    for (let b = a + 1; b < rows; b++)
      for (let c = b + 1; c < rows; c++) {
        const most = together[a]![b]! + together[a]![c]! + together[b]![c]!;
        if (most <= 1 + LEAST_VIOLATION) continue;
        let all = 0;
        for (const { held, value } of used) if (held.has(a) && held.has(b) && held.has(c)) all += value;
        const by = most - 2 * all - 1;
        if (by > LEAST_VIOLATION) violated.push({ cut: Int32Array.of(a, b, c), by });
      }
  violated.sort((x, y) => y.by - x.by);
  return violated.slice(0, CUTS_A_ROUND).map(({ cut }) => cut);
}
