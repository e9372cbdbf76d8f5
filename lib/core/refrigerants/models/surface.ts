import type { SurfacePatch, SurfaceTable } from '../tables/surface-format';
import type { ResidualModel } from './helmholtz';

type Patch = {
  tauMin: number;
  tauMax: number;
  deltaMid: number;
  deltaScale: number;
  /** Coefficients row by row, and where each row ends. */
  c: Float64Array;
  ends: Uint16Array;
  columns: number;
};

/**
 * αʳ(τ, δ) and its reduced derivatives from a table of Chebyshev patches: the blend's own mixture equation without
 * its hundred terms. As with the equations, what depends on τ is summed once per temperature.
 */
export class Surface implements ResidualModel {
  a00 = 0;
  a01 = 0;
  a02 = 0;
  a10 = 0;
  a20 = 0;
  a11 = 0;
  private tau = NaN;
  private patch: Patch;
  private readonly patches: Patch[];
  private readonly overDelta: boolean;
  private readonly c0: Float64Array;
  private readonly c1: Float64Array;
  private readonly c2: Float64Array;
  private readonly t0: Float64Array;
  private readonly t1: Float64Array;
  private readonly t2: Float64Array;

  constructor(table: SurfaceTable) {
    this.patches = table.patches.map(prepare);
    this.patch = this.patches[0]!;
    this.overDelta = table.overDelta;
    const rows = Math.max(...this.patches.map((p) => p.ends.length));
    const columns = Math.max(...this.patches.map((p) => p.columns));
    [this.c0, this.c1, this.c2] = [new Float64Array(rows), new Float64Array(rows), new Float64Array(rows)];
    [this.t0, this.t1, this.t2] = [new Float64Array(columns), new Float64Array(columns), new Float64Array(columns)];
  }

  setTau(tau: number): void {
    if (tau === this.tau) return;
    this.tau = tau;
    const { patches, c0, c1, c2, t0, t1, t2 } = this;
    let k = 0;
    while (k < patches.length - 1 && tau > patches[k]!.tauMax) k++;
    const patch = (this.patch = patches[k]!);
    const scale = 2 / (patch.tauMax - patch.tauMin);
    chebyshevBasis((tau - patch.tauMin) * scale - 1, patch.columns, t0, t1, t2);
    const s1 = tau * scale;
    const s2 = s1 * s1;
    const { c, ends } = patch;
    let at = 0;
    for (let j = 0; j < ends.length; j++) {
      const end = ends[j]!;
      let v0 = 0;
      let v1 = 0;
      let v2 = 0;
      for (let i = 0; at < end; at++, i++) {
        const x = c[at]!;
        v0 += x * t0[i]!;
        v1 += x * t1[i]!;
        v2 += x * t2[i]!;
      }
      c0[j] = v0;
      c1[j] = s1 * v1;
      c2[j] = s2 * v2;
    }
  }

  virial(): number {
    const { c0, patch } = this;
    let sum = 0;
    let [a, b] = [1, -patch.deltaMid * patch.deltaScale];
    const x = b;
    for (let j = 0; j < patch.ends.length; j++) {
      sum += c0[j]! * a;
      [a, b] = [b, 2 * x * b - a];
    }
    return sum;
  }

  highestDelta(): number {
    return this.patch.deltaMid + 1 / this.patch.deltaScale;
  }

  slope(delta: number): void {
    this.sum(delta, false);
  }

  evaluate(delta: number): void {
    this.sum(delta, true);
  }

  private sum(delta: number, all: boolean): void {
    const { patch, c0, c1, c2 } = this;
    const n = patch.ends.length;
    const k = patch.deltaScale;
    const x = (delta - patch.deltaMid) * k;
    const twice = 2 * x;
    // T_j and its first two derivatives, upwards from j = 0.
    let [u, u1, u2] = [1, 0, 0];
    let [w, w1, w2] = [x, 1, 0];
    let f = 0, fd = 0, fdd = 0, ft = 0, ftd = 0, ftt = 0; // prettier-ignore
    for (let j = 0; j < n; j++) {
      const c = c0[j]!;
      f += c * u;
      fd += c * u1;
      fdd += c * u2;
      if (all) {
        ft += c1[j]! * u;
        ftd += c1[j]! * u1;
        ftt += c2[j]! * u;
      }
      const next = twice * w - u;
      const next1 = 2 * w + twice * w1 - u1;
      const next2 = 4 * w1 + twice * w2 - u2;
      u = w;
      u1 = w1;
      u2 = w2;
      w = next;
      w1 = next1;
      w2 = next2;
    }
    const dk = delta * k;
    if (this.overDelta) {
      this.a00 = delta * f;
      this.a01 = delta * (f + dk * fd);
      this.a02 = delta * dk * (2 * fd + dk * fdd);
      this.a10 = delta * ft;
      this.a11 = delta * (ft + dk * ftd);
      this.a20 = delta * ftt;
    } else {
      this.a00 = f;
      this.a01 = dk * fd;
      this.a02 = dk * dk * fdd;
      this.a10 = ft;
      this.a11 = dk * ftd;
      this.a20 = ftt;
    }
  }
}

function chebyshevBasis(x: number, n: number, t0: Float64Array, t1: Float64Array, t2: Float64Array): void {
  t0[0] = 1;
  t1[0] = t2[0] = 0;
  if (n === 1) return;
  t0[1] = x;
  t1[1] = 1;
  t2[1] = 0;
  for (let i = 2; i < n; i++) {
    t0[i] = 2 * x * t0[i - 1]! - t0[i - 2]!;
    t1[i] = 2 * t0[i - 1]! + 2 * x * t1[i - 1]! - t1[i - 2]!;
    t2[i] = 4 * t1[i - 1]! + 2 * x * t2[i - 1]! - t2[i - 2]!;
  }
}

function prepare(patch: SurfacePatch): Patch {
  let total = 0;
  const [d0, d1] = patch.delta;
  return {
    tauMin: patch.tau[0],
    tauMax: patch.tau[1],
    deltaMid: (d0 + d1) / 2,
    deltaScale: 2 / (d1 - d0),
    c: Float64Array.from(patch.rows.flat()),
    ends: Uint16Array.from(patch.rows, (row) => (total += row.length)),
    columns: Math.max(...patch.rows.map((row) => row.length)),
  };
}
