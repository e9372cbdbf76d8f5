import type { NonAnalyticTerm, ResidualTerms } from './equation';
import { addNonAnalytic, type ResidualSums } from './non-analytic';

type Group = { d: number; shape: number; centre: number; terms: number[][] };

/**
 * The residual part αʳ(τ, δ) and its reduced derivatives a_ij = τ^i δ^j ∂^(i+j)αʳ/∂τ^i∂δ^j.
 *
 * Terms that share their density factor are summed once per temperature, so that a density iteration
 * at fixed temperature touches a dozen numbers instead of every power of τ.
 */
export class Residual implements ResidualSums {
  a00 = 0;
  a01 = 0;
  a02 = 0;
  a10 = 0;
  a20 = 0;
  a11 = 0;

  private tau = NaN;
  /** Powers of δ times exp(−δ^l), by group: exponent d, exponent l. */
  private readonly d: Uint8Array;
  private readonly l: Uint8Array;
  /** Bell-shaped groups: exponent d, width η, centre ε. */
  private readonly gd: Uint8Array;
  private readonly geta: Float64Array;
  private readonly geps: Float64Array;
  /** Per term: group, n, t, then m, β and γ where the kind has them. */
  private readonly n: Float64Array;
  private readonly t: Float64Array;
  private readonly group: Uint16Array;
  private readonly damped: readonly (readonly number[])[];
  private readonly bells: readonly (readonly number[])[];
  private readonly critical: readonly NonAnalyticTerm[];
  private readonly c0: Float64Array;
  private readonly c1: Float64Array;
  private readonly c2: Float64Array;
  private readonly powers: Float64Array;

  constructor(terms: ResidualTerms) {
    const plain = [...(terms.power ?? []), ...(terms.lemmon ?? []).filter((x) => x[4] === 0)];
    const damped = (terms.lemmon ?? []).filter((x) => x[4] !== 0);
    const shaped = groupBy([...plain, ...damped], 3, -1);
    const bells = groupBy(terms.gaussian ?? [], 3, 4);
    this.d = Uint8Array.from(shaped, (g) => g.d);
    this.l = Uint8Array.from(shaped, (g) => g.shape);
    this.gd = Uint8Array.from(bells, (g) => g.d);
    this.geta = Float64Array.from(bells, (g) => g.shape);
    this.geps = Float64Array.from(bells, (g) => g.centre);
    const undamped = shaped.flatMap((g, i) => g.terms.filter((x) => !x[4]).map((x) => [i, x[0]!, x[1]!]));
    this.group = Uint16Array.from(undamped, (x) => x[0]!);
    this.n = Float64Array.from(undamped, (x) => x[1]!);
    this.t = Float64Array.from(undamped, (x) => x[2]!);
    this.damped = shaped.flatMap((g, i) => g.terms.filter((x) => x[4]).map((x) => [i, x[0]!, x[1]!, x[4]!]));
    this.bells = bells.flatMap((g, i) => g.terms.map((x) => [shaped.length + i, x[0]!, x[1]!, x[5]!, x[6]!]));
    this.critical = terms.nonAnalytic ?? [];
    const groups = shaped.length + bells.length;
    this.c0 = new Float64Array(groups);
    this.c1 = new Float64Array(groups);
    this.c2 = new Float64Array(groups);
    this.powers = new Float64Array(1 + Math.max(1, ...this.d, ...this.l, ...this.gd));
  }

  /** Sums the temperature factors. Call before `slope` or `evaluate`. */
  setTau(tau: number): void {
    if (tau === this.tau) return;
    this.tau = tau;
    const { c0, c1, c2, n, t, group } = this;
    c0.fill(0);
    c1.fill(0);
    c2.fill(0);
    const ln = Math.log(tau);
    for (let i = 0; i < n.length; i++) {
      const e = t[i]!;
      const v = n[i]! * Math.exp(e * ln);
      const g = group[i]!;
      c0[g]! += v;
      c1[g]! += e * v;
      c2[g]! += e * (e - 1) * v;
    }
    for (const [g, a, e, m] of this.damped as readonly (readonly [number, number, number, number])[]) {
      const y = Math.pow(tau, m);
      this.add(g, a * Math.exp(e * ln - y), e - m * y, -m * m * y);
    }
    for (const [g, a, e, b, c] of this.bells as readonly (readonly [number, number, number, number, number])[]) {
      const y = tau - c;
      this.add(g, a * Math.exp(e * ln - b * y * y), e - 2 * b * tau * y, -2 * b * tau * (tau + y));
    }
  }

  private add(g: number, v: number, h: number, bend: number): void {
    this.c0[g]! += v;
    this.c1[g]! += h * v;
    this.c2[g]! += (h * h - h + bend) * v;
  }

  /** Second virial coefficient times the reducing density. */
  virial(): number {
    let b = 0;
    for (let i = 0; i < this.d.length; i++) if (this.d[i] === 1) b += this.c0[i]!;
    for (let i = 0; i < this.gd.length; i++)
      if (this.gd[i] === 1) b += this.c0[this.d.length + i]! * Math.exp(-this.geta[i]! * this.geps[i]! ** 2);
    return b;
  }

  /** Published equations are valid to pressures far above any met here. */
  highestDelta(): number {
    return Infinity;
  }

  /** Only a01 and a02: what a density iteration needs. */
  slope(delta: number): void {
    if (this.critical.length > 0) return this.evaluate(delta);
    const { d, l, c0, powers } = this;
    this.fillPowers(delta);
    let a01 = 0;
    let a02 = 0;
    let last = -1;
    let e = 1;
    let k = 0;
    for (let i = 0; i < d.length; i++) {
      const li = l[i]!;
      if (li !== last) {
        last = li;
        k = li === 0 ? 0 : li * powers[li]!;
        e = li === 0 ? 1 : Math.exp(-powers[li]!);
      }
      const f = c0[i]! * powers[d[i]!]! * e;
      const g = d[i]! - k;
      a01 += f * g;
      a02 += f * (g * g - g - li * k);
    }
    for (let i = 0, j = d.length; i < this.gd.length; i++, j++) {
      const y = delta - this.geps[i]!;
      const w = 2 * this.geta[i]! * delta;
      const f = c0[j]! * powers[this.gd[i]!]! * Math.exp(-this.geta[i]! * y * y);
      const g = this.gd[i]! - w * y;
      a01 += f * g;
      a02 += f * (g * g - g - w * (delta + y));
    }
    this.a01 = a01;
    this.a02 = a02;
  }

  /** All reduced derivatives at δ, at the temperature last set. */
  evaluate(delta: number): void {
    const { d, l, c0, c1, c2, powers } = this;
    this.fillPowers(delta);
    let a00 = 0,
      a01 = 0,
      a02 = 0,
      a10 = 0,
      a20 = 0,
      a11 = 0;
    let last = -1;
    let e = 1;
    let k = 0;
    for (let i = 0; i < d.length; i++) {
      const li = l[i]!;
      if (li !== last) {
        last = li;
        k = li === 0 ? 0 : li * powers[li]!;
        e = li === 0 ? 1 : Math.exp(-powers[li]!);
      }
      const s = powers[d[i]!]! * e;
      const g = d[i]! - k;
      const f = c0[i]! * s;
      const f1 = c1[i]! * s;
      a00 += f;
      a01 += f * g;
      a02 += f * (g * g - g - li * k);
      a10 += f1;
      a11 += f1 * g;
      a20 += c2[i]! * s;
    }
    for (let i = 0, j = d.length; i < this.gd.length; i++, j++) {
      const y = delta - this.geps[i]!;
      const w = 2 * this.geta[i]! * delta;
      const s = powers[this.gd[i]!]! * Math.exp(-this.geta[i]! * y * y);
      const g = this.gd[i]! - w * y;
      const f = c0[j]! * s;
      const f1 = c1[j]! * s;
      a00 += f;
      a01 += f * g;
      a02 += f * (g * g - g - w * (delta + y));
      a10 += f1;
      a11 += f1 * g;
      a20 += c2[j]! * s;
    }
    this.a00 = a00;
    this.a01 = a01;
    this.a02 = a02;
    this.a10 = a10;
    this.a20 = a20;
    this.a11 = a11;
    for (const term of this.critical) addNonAnalytic(term, this.tau, delta, this);
  }

  private fillPowers(delta: number): void {
    const { powers } = this;
    powers[0] = 1;
    for (let i = 1; i < powers.length; i++) powers[i] = powers[i - 1]! * delta;
  }
}

/** Terms that share d and the density exponential, ordered by the latter so that each is computed once. */
function groupBy(terms: readonly (readonly number[])[], shapeAt: number, centreAt: number): Group[] {
  const groups = new Map<string, Group>();
  for (const term of terms) {
    const d = term[2]!;
    const shape = term[shapeAt]!;
    const centre = centreAt < 0 ? 0 : term[centreAt]!;
    const key = `${d} ${shape} ${centre}`;
    const group = groups.get(key) ?? { d, shape, centre, terms: [] };
    group.terms.push([...term]);
    groups.set(key, group);
  }
  return [...groups.values()].sort((a, b) => a.shape - b.shape || a.d - b.d);
}
