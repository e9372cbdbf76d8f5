import {
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  unwrap,
  rangeOf,
  saturatedLiquid,
  saturatedVapour,
  vapour,
} from '../../../lib/core/refrigerants';

/**
 * A refrigerant as tables over ln p, fast enough for many thousands of solved machines. The numbers come from the
 * project's own property room, which is held to 1e-8 by independent tables in tests/reference; a second set of
 * equations of state would add nothing to what the plant is for. Interpolation errs by about 1e-4.
 */
export type Fluid = {
  id: string;
  /** ln p at the first row, step and number of rows. */
  x0: number;
  dx: number;
  rows: number;
  dewK: Float64Array;
  bubbleK: Float64Array;
  hf: Float64Array;
  hg: Float64Array;
  sg: Float64Array;
  rhoF: Float64Array;
  rhoG: Float64Array;
  cpF: Float64Array;
  cpG: Float64Array;
  /** Gas beyond the dew line: `cols` even steps of enthalpy (entropy) in each row up to that row's end. */
  cols: number;
  endH: Float64Array;
  endS: Float64Array;
  tOverH: Float64Array;
  lnRhoOverH: Float64Array;
  sOverH: Float64Array;
  hOverS: Float64Array;
};

const ROWS = 72;
const COLS = 40;
const COLDEST_K = 213;
const BELOW_CRITICAL_K = 3.5;
const HOTTEST_GAS_K = 120;

const made = new Map<string, Fluid>();

export function fluidOf(id: string): Fluid {
  const found = made.get(id) ?? build(id);
  made.set(id, found);
  return found;
}

function build(id: string): Fluid {
  const limits = unwrap(rangeOf(id));
  const low = unwrap(dewPressure(id, Math.max(COLDEST_K, limits.minT + 1)));
  const high = unwrap(dewPressure(id, limits.maxSaturationT - BELOW_CRITICAL_K));
  const x0 = Math.log(low);
  const dx = (Math.log(high) - x0) / (ROWS - 1);
  const column = () => new Float64Array(ROWS);
  const sheet = () => new Float64Array(ROWS * COLS);
  const f: Fluid = {
    id, x0, dx, rows: ROWS, cols: COLS,
    dewK: column(), bubbleK: column(), hf: column(), hg: column(), sg: column(), rhoF: column(), rhoG: column(), cpF: column(), cpG: column(),
    endH: column(), endS: column(), tOverH: sheet(), lnRhoOverH: sheet(), sOverH: sheet(), hOverS: sheet(),
  }; // prettier-ignore
  for (let i = 0; i < ROWS; i++) fillRow(f, i, Math.exp(x0 + i * dx), limits.maxT);
  return f;
}

function fillRow(f: Fluid, i: number, p: number, maxT: number): void {
  const dew = unwrap(dewTemperature(f.id, p));
  const bubble = unwrap(bubbleTemperature(f.id, p));
  const liquid = unwrap(saturatedLiquid(f.id, bubble));
  const gas = unwrap(saturatedVapour(f.id, dew));
  f.dewK[i] = dew;
  f.bubbleK[i] = bubble;
  f.hf[i] = liquid.h;
  f.hg[i] = gas.h;
  f.sg[i] = gas.s;
  f.rhoF[i] = liquid.rho;
  f.rhoG[i] = gas.rho;
  f.cpF[i] = liquid.cp;
  f.cpG[i] = gas.cp;
  const reach = Math.min(HOTTEST_GAS_K, maxT - dew - 0.5);
  const n = 32;
  const states = Array.from({ length: n }, (_, j) => {
    const over = reach * (j / (n - 1)) ** 1.5;
    const at = j === 0 ? gas : unwrap(vapour(f.id, { T: dew + over, p }));
    return { over, lnRho: Math.log(at.rho / gas.rho), h: at.h - gas.h, s: at.s - gas.s };
  });
  const last = states[n - 1] ?? { h: 1, s: 1 };
  f.endH[i] = last.h;
  f.endS[i] = last.s;
  const at = i * COLS;
  let j = 0;
  let k = 0;
  for (let c = 0; c < COLS; c++) {
    const h = (last.h * c) / (COLS - 1);
    while (j < n - 2 && (states[j + 1]?.h ?? Infinity) < h) j++;
    const [a, b] = [states[j], states[j + 1]];
    const s = (last.s * c) / (COLS - 1);
    while (k < n - 2 && (states[k + 1]?.s ?? Infinity) < s) k++;
    const [u, v] = [states[k], states[k + 1]];
    if (!a || !b || !u || !v) continue;
    const w = (h - a.h) / (b.h - a.h);
    f.tOverH[at + c] = a.over + w * (b.over - a.over);
    f.lnRhoOverH[at + c] = a.lnRho + w * (b.lnRho - a.lnRho);
    f.sOverH[at + c] = a.s + w * (b.s - a.s);
    f.hOverS[at + c] = u.h + ((s - u.s) / (v.s - u.s)) * (v.h - u.h);
  }
}

/** Value of a saturation column at ln p; held at the ends. */
export function sat(f: Fluid, column: Float64Array, x: number): number {
  const u = Math.min(f.rows - 1.000001, Math.max(0, (x - f.x0) / f.dx));
  const i = Math.floor(u);
  const w = u - i;
  // A parabola through three rows: the columns bend.
  const k = Math.min(Math.max(i, 1), f.rows - 2);
  const t = i - k + w;
  const [a, b, c] = [column[k - 1] ?? NaN, column[k] ?? NaN, column[k + 1] ?? NaN];
  return b + (t * (c - a)) / 2 + (t * t * (c - 2 * b + a)) / 2;
}

/** Saturation pressure, as ln p, at which a temperature column has the value T. */
export function lnPressureAt(f: Fluid, column: Float64Array, T: number): number {
  let lo = f.x0;
  let hi = f.x0 + f.dx * (f.rows - 1);
  for (let i = 0; i < 40; i++) {
    const x = (lo + hi) / 2;
    if (sat(f, column, x) < T) lo = x;
    else hi = x;
  }
  return (lo + hi) / 2;
}

function sheetAt(f: Fluid, table: Float64Array, end: Float64Array, x: number, beyond: number): number {
  const u = Math.min(f.rows - 1.000001, Math.max(0, (x - f.x0) / f.dx));
  const i = Math.floor(u);
  const w = u - i;
  const inRow = (r: number) => {
    const c = (beyond / (end[r] ?? NaN)) * (f.cols - 1);
    const k = Math.min(f.cols - 2, Math.max(0, Math.floor(c)));
    const a = table[r * f.cols + k] ?? NaN;
    const b = table[r * f.cols + k + 1] ?? NaN;
    return a + (c - k) * (b - a);
  };
  return (1 - w) * inRow(i) + w * inRow(i + 1);
}

export type Gas = { T: number; rho: number; s: number; quality: number };

/** Suction or discharge gas at ln p and enthalpy, wet too. */
export function gasAt(f: Fluid, x: number, h: number): Gas {
  const hg = sat(f, f.hg, x);
  const dew = sat(f, f.dewK, x);
  const sg = sat(f, f.sg, x);
  const rhoG = sat(f, f.rhoG, x);
  if (h >= hg) {
    const beyond = h - hg;
    return {
      T: dew + sheetAt(f, f.tOverH, f.endH, x, beyond),
      rho: rhoG * Math.exp(sheetAt(f, f.lnRhoOverH, f.endH, x, beyond)),
      s: sg + sheetAt(f, f.sOverH, f.endH, x, beyond),
      quality: 1 + beyond / (hg - sat(f, f.hf, x)),
    };
  }
  const hf = sat(f, f.hf, x);
  const bubble = sat(f, f.bubbleK, x);
  const quality = (h - hf) / (hg - hf);
  const T = dew - (1 - quality) * (dew - bubble);
  return { T, rho: 1 / (quality / rhoG + (1 - quality) / sat(f, f.rhoF, x)), s: sg - (hg - h) / ((dew + T) / 2), quality };
}

/** Enthalpy of gas at ln p with entropy s. */
export function enthalpyAtEntropy(f: Fluid, x: number, s: number): number {
  const beyond = s - sat(f, f.sg, x);
  const hg = sat(f, f.hg, x);
  if (beyond < 0) return hg + beyond * sat(f, f.dewK, x);
  return hg + sheetAt(f, f.hOverS, f.endS, x, beyond);
}

/** Degrees below the bubble point (negative: how far enthalpy lies into the dome, in the same measure). */
export function below(f: Fluid, x: number, h: number): number {
  return (sat(f, f.hf, x) - h) / sat(f, f.cpF, x);
}

/** Mean density of a boiling or condensing stretch between two qualities, with Zivi's slip. */
export function wetDensity(f: Fluid, x: number, from: number, to: number): number {
  const rhoG = sat(f, f.rhoG, x);
  const rhoF = sat(f, f.rhoF, x);
  const c = (rhoG / rhoF) ** (2 / 3);
  const a = Math.max(0, Math.min(from, to));
  const b = Math.min(1, Math.max(from, to));
  const k = 1 - c;
  const primitive = (q: number) => q / k - (c / (k * k)) * Math.log(q * k + c);
  const void_ = b - a < 1e-6 ? b / (b * k + c) : (primitive(b) - primitive(a)) / (b - a);
  return rhoG * void_ + rhoF * (1 - void_);
}
