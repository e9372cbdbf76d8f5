import { newOutcome, run, type Machine, type Outcome } from './equations';
import { AIR, BOX, DRY, FLOODED, STEP, TC, TE } from './state';

const FREE = [TC, TE, FLOODED, DRY] as const;
const LIMIT = [12, 10, 0.15, 0.2] as const;
const MOST_ROUNDS = 30;
const r = new Float64Array(4);
const there = new Float64Array(4);
const J = new Float64Array(16);

/**
 * Where a machine of known constants settles in given air and box: Newton's method on the four imbalances, from `x`,
 * which is left at the solution. The slopes are worked out anew only every other round; `near`: those of the call before serve
 * as long as they bring it nearer. False where it does not settle.
 */
export function settle(
  machine: Machine,
  x: Float64Array,
  at: { airK: number; boxK: number },
  o: Outcome = newOutcome(),
  near = false,
): boolean {
  x[AIR] = at.airK;
  x[BOX] = at.boxK;
  let before = Infinity;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    run(machine, x, o);
    imbalances(o, machine, r);
    const size = Math.max(Math.abs(r[0]!), Math.abs(r[1]!), Math.abs(r[2]!), Math.abs(r[3]!));
    if (!Number.isFinite(size)) return false;
    if (size < 1e-5) return true;
    if (near ? size > 0.5 * before : round % 2 === 0 || size > 0.3 * before) slopes(machine, x, o);
    before = size;
    const step = solved4(J, r)?.x;
    if (!step) return false;
    let scale = round > 8 ? 0.5 : 1;
    for (let i = 0; i < 4; i++) scale = Math.min(scale, LIMIT[i]! / Math.max(1e-12, Math.abs(step[i]!)));
    for (let i = 0; i < 4; i++) x[FREE[i]!] = x[FREE[i]!]! - scale * step[i]!;
  }
  run(machine, x, o);
  imbalances(o, machine, r);
  return Math.max(...r.map(Math.abs)) < 2e-3;
}

function slopes(machine: Machine, x: Float64Array, o: Outcome): void {
  // The temperatures come last, as the properties hang on them.
  for (let i = 3; i >= 0; i--) {
    const k = FREE[i]!;
    const kept = x[k]!;
    x[k] = kept + STEP[k]!;
    run(machine, x, o);
    imbalances(o, machine, there);
    x[k] = kept;
    for (let j = 0; j < 4; j++) J[j * 4 + i] = (there[j]! - r[j]!) / STEP[k]!;
  }
}

function imbalances(o: Outcome, machine: Machine, into: Float64Array): void {
  into[0] = o.condenser;
  into[1] = o.evaporator;
  into[2] = machine.capillary ? o.expansion : o.expansion / 20;
  into[3] = o.charge;
}

/** Four by four, with pivoting, and ln of how large the determinant is; null when singular. */
export function solved4(J: Float64Array, r: Float64Array): { x: number[]; lnDet: number } | null {
  const a = [0, 1, 2, 3].map((i) => [J[i * 4]!, J[i * 4 + 1]!, J[i * 4 + 2]!, J[i * 4 + 3]!, r[i]!]);
  let lnDet = 0;
  for (let i = 0; i < 4; i++) {
    let p = i;
    for (let k = i + 1; k < 4; k++) if (Math.abs(a[k]![i]!) > Math.abs(a[p]![i]!)) p = k;
    const pivot = a[p]!;
    a[p] = a[i]!;
    a[i] = pivot;
    if (!(Math.abs(pivot[i]!) > 1e-14)) return null;
    lnDet += Math.log(Math.abs(pivot[i]!));
    for (let k = i + 1; k < 4; k++) {
      const m = a[k]![i]! / pivot[i]!;
      for (let l = i; l < 5; l++) a[k]![l] = a[k]![l]! - m * pivot[l]!;
    }
  }
  const out = [0, 0, 0, 0];
  for (let i = 3; i >= 0; i--) {
    let sum = a[i]![4]!;
    for (let k = i + 1; k < 4; k++) sum -= a[i]![k]! * out[k]!;
    out[i] = sum / a[i]![i]!;
  }
  return { x: out, lnDet };
}
