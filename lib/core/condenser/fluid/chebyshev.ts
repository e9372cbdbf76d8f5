/**
 * Smooth functions fitted once by Chebyshev interpolation and then looked up: a curve as cubics over half a kelvin, a
 * surface as one polynomial. An inference asks them a hundred thousand times a second.
 */
export type Curve = (x: number) => number;
export type Surface = (x: number, y: number) => number;

function nodes(lo: number, hi: number, n: number): number[] {
  return Array.from({ length: n }, (_, i) => (lo + hi) / 2 + ((hi - lo) / 2) * Math.cos((Math.PI * (i + 0.5)) / n));
}

function coefficients(values: readonly number[]): Float64Array {
  const n = values.length;
  const c = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += (values[i] ?? NaN) * Math.cos((Math.PI * k * (i + 0.5)) / n);
    c[k] = ((k === 0 ? 1 : 2) / n) * sum;
  }
  return c;
}

function clenshaw(c: Float64Array, t: number): number {
  let b1 = 0;
  let b2 = 0;
  for (let k = c.length - 1; k > 0; k--) {
    const b = 2 * t * b1 - b2 + c[k]!;
    b2 = b1;
    b1 = b;
  }
  return t * b1 - b2 + c[0]!;
}

const CELL = 0.5;

/** Beyond its ends a curve goes on straight, so that a solver that strays finds its way back. */
export function chebyshev(f: (x: number) => number, lo: number, hi: number, n: number): Curve {
  const c = coefficients(nodes(lo, hi, n).map(f));
  const mid = (lo + hi) / 2;
  const half = (hi - lo) / 2;
  const at = (x: number) => clenshaw(c, (x - mid) / half);
  const cells = Math.ceil((hi - lo) / CELL);
  const table = new Float64Array(4 * cells);
  const slope = (x: number) => (at(x + 0.01) - at(x - 0.01)) / 0.02;
  for (let i = 0; i < cells; i++) {
    const x = lo + i * CELL;
    const [y0, y1] = [at(x), at(x + CELL)];
    const [d0, d1] = [slope(x) * CELL, slope(x + CELL) * CELL];
    table.set([y0, d0, 3 * (y1 - y0) - 2 * d0 - d1, 2 * (y0 - y1) + d0 + d1], 4 * i);
  }
  const [yLo, yHi, sLo, sHi] = [at(lo), at(hi), slope(lo), slope(hi)];
  return (x) => {
    if (!(x >= lo)) return yLo + sLo * (x - lo);
    if (x >= hi) return yHi + sHi * (x - hi);
    const u = (x - lo) / CELL;
    const i = u | 0;
    const t = u - i;
    const k = 4 * i;
    return table[k]! + t * (table[k + 1]! + t * (table[k + 2]! + t * table[k + 3]!));
  };
}

type Axis = readonly [lo: number, hi: number, n: number];

/** A Chebyshev series as powers: good for the low degrees used here. */
function powers(c: Float64Array): Float64Array {
  const n = c.length;
  const out = new Float64Array(n);
  let before = new Float64Array(n);
  let now = new Float64Array(n);
  before[0] = 1;
  if (n > 1) now[1] = 1;
  for (let k = 0; k < n; k++) {
    const t = k === 0 ? before : now;
    for (let i = 0; i < n; i++) out[i] = out[i]! + c[k]! * t[i]!;
    if (k === 0) continue;
    const next = new Float64Array(n);
    for (let i = 0; i < n; i++) next[i] = (i > 0 ? 2 * now[i - 1]! : 0) - before[i]!;
    before = now;
    now = next;
  }
  return out;
}

export function chebyshev2(f: Surface, [xLo, xHi, nx]: Axis, [yLo, yHi, ny]: Axis): Surface {
  const rows = nodes(xLo, xHi, nx).map((x) => powers(coefficients(nodes(yLo, yHi, ny).map((y) => f(x, y)))));
  const flat = new Float64Array(nx * ny);
  for (let k = 0; k < ny; k++) {
    const column = powers(coefficients(rows.map((r) => r[k] ?? NaN)));
    for (let i = 0; i < nx; i++) flat[k * nx + i] = column[i]!;
  }
  const clamp = (x: number, lo: number, hi: number) => (x < lo ? lo : x > hi ? hi : x);
  return (x, y) => {
    const u = (2 * clamp(x, xLo, xHi) - xLo - xHi) / (xHi - xLo);
    const v = (2 * clamp(y, yLo, yHi) - yLo - yHi) / (yHi - yLo);
    let sum = 0;
    for (let k = ny - 1; k >= 0; k--) {
      let row = 0;
      for (let i = nx - 1; i >= 0; i--) row = row * u + flat[k * nx + i]!;
      sum = sum * v + row;
    }
    return sum;
  };
}
