import { dischargeTemperature, type Cycle } from './cycle';
import { meanT } from '../fluid/fluid';
import { dewCycle, type UnitModel } from './model';

/** What a unit does at one condensing temperature once its evaporator has settled on the box. */
export type CurvePoint = {
  condensingDewK: number;
  condensingK: number;
  evaporatingK: number;
  cooling: number;
  power: number;
  heatRejected: number;
  dischargeK: number;
};

/**
 * For one box temperature, evaporator and compressor together are functions of condensing temperature alone;
 * coil and air come in only where they meet it. Held as a polynomial through Chebyshev points, so that any number
 * of conductances and air temperatures cost next to nothing. Energy balance survives: interpolation is linear.
 */
export type BoxCurve = {
  lo: number;
  hi: number;
  at(tc: number): CurvePoint;
  /** Condensing dew temperatures of the points, and condensing mean and heat rejected there. */
  nodes: { tc: readonly number[]; condensingK: readonly number[]; heatRejected: readonly number[] };
};

const FIELDS = ['condensingK', 'evaporatingK', 'cooling', 'power', 'heatRejected', 'dischargeK'] as const;
const NODES = 8;
/** Evaporating temperature at a node is good to this, K. */
const SETTLED_K = 1e-6;

/** Null where some point of the range has no numbers. */
export function boxCurve(model: UnitModel, boxK: number, lo: number, hi: number): BoxCurve | null {
  const x: number[] = [];
  const y: number[][] = [];
  const follow = evaporatorFollower(model, boxK);
  for (let i = 0; i < NODES; i++) {
    const t = Math.cos((Math.PI * i) / (NODES - 1));
    const tc = (lo + hi) / 2 - (t * (hi - lo)) / 2;
    const point = follow(tc);
    if (!point) return null;
    x.push(tc);
    y.push(FIELDS.map((f) => point[f]));
  }
  const column = (field: (typeof FIELDS)[number]) => y.map((row) => row[FIELDS.indexOf(field)] as number);
  const nodes = { tc: x, condensingK: column('condensingK'), heatRejected: column('heatRejected') };
  return { lo, hi, at: (tc) => interpolated(x, y, tc), nodes };
}

/** Barycentric weights at Chebyshev points of the second kind (Berrut and Trefethen 2004). */
const weight = (i: number, n: number) => (i === 0 || i === n - 1 ? 0.5 : 1) * (i % 2 ? -1 : 1);

function interpolated(x: readonly number[], y: readonly number[][], tc: number): CurvePoint {
  const sums = new Array<number>(FIELDS.length).fill(0);
  let below = 0;
  for (let i = 0; i < x.length; i++) {
    const gap = tc - (x[i] as number);
    const row = y[i] as number[];
    if (gap === 0) return point(tc, row);
    const w = weight(i, x.length) / gap;
    below += w;
    for (let k = 0; k < sums.length; k++) sums[k] = (sums[k] as number) + w * (row[k] as number);
  }
  return point(
    tc,
    sums.map((s) => s / below),
  );
}

function interpolatedOne(x: readonly number[], y: readonly number[], tc: number): number {
  let above = 0;
  let below = 0;
  for (let i = 0; i < x.length; i++) {
    const gap = tc - (x[i] as number);
    if (gap === 0) return y[i] as number;
    const w = weight(i, x.length) / gap;
    below += w;
    above += w * (y[i] as number);
  }
  return above / below;
}

function point(tc: number, v: readonly number[]): CurvePoint {
  const [condensingK, evaporatingK, cooling, power, heatRejected, dischargeK] = v as [number, number, number, number, number, number];
  return { condensingDewK: tc, condensingK, evaporatingK, cooling, power, heatRejected, dischargeK };
}

/** Walks from one condensing temperature to the next, starting each search where the last two point. */
function evaporatorFollower(model: UnitModel, boxK: number) {
  let past: { tc: number; te: number }[] = [];
  let slope = NaN;
  return (tc: number): CurvePoint | null => {
    const imbalance = (t: number) => {
      const cycle = dewCycle(model, t, tc);
      return { t, cycle, miss: cycle.cooling - model.evaporatorUA * (boxK - t) };
    };
    let here = imbalance(extrapolated(past, tc) ?? boxK - model.profile.evaporatorDifferenceK);
    if (Number.isNaN(slope)) slope = (imbalance(here.t + 0.05).miss - here.miss) / 0.05;
    for (let i = 0; i < 40; i++) {
      const step = -here.miss / slope;
      if (!(slope > 0) || Number.isNaN(step)) return null;
      if (Math.abs(step) < SETTLED_K) {
        past = [...past.slice(-1), { tc, te: here.t }];
        return described(model, tc, here.t, here.cycle);
      }
      const next = imbalance(here.t + Math.max(-8, Math.min(8, step)));
      slope = (next.miss - here.miss) / (next.t - here.t);
      here = next;
    }
    return null;
  };
}

function described(model: UnitModel, tc: number, te: number, cycle: Cycle): CurvePoint {
  const { cooling, power, heatRejected } = cycle;
  const dischargeK = dischargeTemperature(model.fluid, cycle);
  const condensingK = meanT(model.fluid, cycle.condensingPa);
  return { condensingDewK: tc, condensingK, evaporatingK: te, cooling, power, heatRejected, dischargeK };
}

function extrapolated(past: readonly { tc: number; te: number }[], tc: number): number | undefined {
  const [a, b] = past;
  if (!a) return undefined;
  if (!b) return a.te;
  return b.te + ((b.te - a.te) / (b.tc - a.tc)) * (tc - b.tc);
}

/** Where a coil of conductance K (W/K) meets the curve in air at airK; null where it would leave the range. */
export function meet(curve: BoxCurve, conductanceWK: number, airK: number): CurvePoint | null {
  const { tc: x, condensingK, heatRejected } = curve.nodes;
  // What the coil sheds less what it is brought: linear in both, so it interpolates as one polynomial.
  const surplus = x.map((_, i) => conductanceWK * ((condensingK[i] as number) - airK) - (heatRejected[i] as number));
  const scale = Math.max(...heatRejected);
  let lo = curve.lo;
  let hi = curve.hi;
  let a = surplus[0] as number;
  let b = surplus[surplus.length - 1] as number;
  if (!(a <= 0 && b >= 0)) return null;
  let kept = 0;
  for (let i = 0; i < 80; i++) {
    // False position, halving the end that stays twice (Illinois): keeps the bracket, no slow tail.
    const tc = (lo * b - hi * a) / (b - a);
    const m = interpolatedOne(x, surplus, tc);
    if (Math.abs(m) <= 1e-11 * scale || hi - lo < 1e-11) return curve.at(tc);
    if (m > 0) {
      hi = tc;
      b = m;
      if (kept === 1) a /= 2;
      kept = 1;
    } else {
      lo = tc;
      a = m;
      if (kept === -1) b /= 2;
      kept = -1;
    }
  }
  return null;
}
