/** Chebyshev expansions: Σ c_k·T_k(x), x the argument mapped from [a, b] to [−1, 1]. */

/** Coefficients of the interpolant through the n + 1 Chebyshev–Lobatto points of [a, b]. */
export function chebyshevFit(f: (x: number) => number, a: number, b: number, n: number): Float64Array {
  const values = new Float64Array(n + 1);
  for (let j = 0; j <= n; j++) values[j] = f((a + b) / 2 + ((b - a) / 2) * Math.cos((Math.PI * j) / n));
  return chebyshevCoefficients(values);
}

/** Coefficients from values at cos(πj/n), j = 0…n. */
export function chebyshevCoefficients(values: ArrayLike<number>): Float64Array {
  const n = values.length - 1;
  const c = new Float64Array(n + 1);
  for (let k = 0; k <= n; k++) {
    let sum = 0.5 * (values[0]! + (k % 2 === 0 ? 1 : -1) * values[n]!);
    // The index is reduced first: cos of a large angle would lose digits.
    for (let j = 1; j < n; j++) sum += values[j]! * Math.cos((Math.PI * ((j * k) % (2 * n))) / n);
    c[k] = ((k === 0 || k === n ? 1 : 2) * sum) / n;
  }
  return c;
}

/** Clenshaw's sum at x in [−1, 1]. */
export function clenshaw(c: ArrayLike<number>, x: number): number {
  const twice = 2 * x;
  let b1 = 0;
  let b2 = 0;
  for (let k = c.length - 1; k > 0; k--) {
    const b = c[k]! + twice * b1 - b2;
    b2 = b1;
    b1 = b;
  }
  return c[0]! + x * b1 - b2;
}

/**
 * A function in pieces: piece i lies between knots i and i + 1. With `halved` only the ends are written: how often the whole was halved
 * for each piece, a digit of base 36 each.
 */
export type Piecewise = { knots: readonly number[]; halved?: string; pieces: readonly (readonly number[])[] };

function allKnots({ knots, halved }: Piecewise): number[] {
  if (halved === undefined) return [...knots];
  const all = [knots[0]!];
  const walk = (a: number, b: number, depth: number): void => {
    if (parseInt(halved[all.length - 1]!, 36) === depth) {
      all.push(b);
      return;
    }
    const middle = (a + b) / 2;
    walk(a, middle, depth + 1);
    walk(middle, b, depth + 1);
  };
  walk(knots[0]!, knots[1]!, 0);
  return all;
}

export type FitOptions = {
  /** Absolute error allowed. */
  tolerance: number;
  /** Degree at which a piece is halved rather than refined. */
  maxDegree?: number;
  /** Narrowest piece; below it the fit is given up. */
  narrowest?: number;
};

/** Halves [a, b] until every piece meets the tolerance, then drops what the tolerance does not need. */
export function fitPiecewise(f: (x: number) => number, a: number, b: number, options: FitOptions): Piecewise {
  const { tolerance, maxDegree = 24, narrowest = Math.abs(b - a) / 4096 } = options;
  for (let n = 8; n <= maxDegree; n += 4) {
    const c = chebyshevFit(f, a, b, n);
    const tail = Math.abs(c[n]!) + Math.abs(c[n - 1]!) + Math.abs(c[n - 2]!);
    if (tail < tolerance / 4) return { knots: [a, b], pieces: [trim(c, tolerance / 4)] };
  }
  if (Math.abs(b - a) <= narrowest) throw new Error(`No Chebyshev fit between ${a} and ${b} meets ${tolerance}`);
  const middle = (a + b) / 2;
  const left = fitPiecewise(f, a, middle, { ...options, narrowest });
  const right = fitPiecewise(f, middle, b, { ...options, narrowest });
  return { knots: [...left.knots, ...right.knots.slice(1)], pieces: [...left.pieces, ...right.pieces] };
}

function trim(c: ArrayLike<number>, tolerance: number): number[] {
  let last = c.length - 1;
  for (let sum = 0; last > 0; last--) {
    sum += Math.abs(c[last]!);
    if (sum > tolerance) break;
  }
  return Array.from(c).slice(0, last + 1);
}

/** A piecewise expansion ready to be evaluated. Arguments outside the knots are not checked. */
export class ChebyshevCurve {
  private readonly knots: Float64Array;
  private readonly pieces: Float64Array[];

  constructor(data: Piecewise) {
    this.knots = Float64Array.from(allKnots(data));
    this.pieces = data.pieces.map((p) => Float64Array.from(p));
  }

  value(x: number): number {
    const { knots, pieces } = this;
    let i = 0;
    while (i < pieces.length - 1 && x > knots[i + 1]!) i++;
    const a = knots[i]!;
    const b = knots[i + 1]!;
    return clenshaw(pieces[i]!, (2 * x - a - b) / (b - a));
  }
}
