import { throughTube } from './capillary';
import { compress, type Compressed } from './compressor';
import { condense, type Condensed } from './condenser';
import { boil, type Boiled } from './evaporator';
import { flowOf } from './fan';
import { below, gasAt, lnPressureAt, sat } from './fluid';
import { SOUND, type Around, type Faults, type Machine } from './machine';

/** A machine at rest in its numbers. SI; `x` is ln p absolute. */
export type Running = {
  xe: number;
  /** Of the refrigerant itself; the gauge also sees the gas that does not condense. */
  xc: number;
  headPa: number;
  suctionPa: number;
  h1: number;
  suctionK: number;
  superheatK: number;
  dischargeK: number;
  flow: number;
  powerW: number;
  fanW: number;
  shellW: number;
  coil: Condensed;
  coilAirK: number;
  box: Boiled;
  coolingW: number;
  liquidK: number;
  subcoolingK: number;
  chargeKg: number;
  /** Condensing temperature, mean of bubble and dew, K. */
  middleK: number;
  dewK: number;
  evaporatingK: number;
  /** Heat rejected over mean rise above the air at the face, W/K. */
  conductance: number;
  /** Of energy: what goes in less what comes out, over what goes in. */
  imbalance: number;
};

/** The last equation: how much refrigerant is in it, how much the liquid is cooled (to size a charge), or a head held by its control. */
type Closing = { charge: number } | { subcoolingK: number } | { holdK: number };

type Trial = Running & { residual: [number, number, number] };

/** A receiver goes from empty to full while the coil goes from just short of face to a little liquid of its own. */
/** An accumulator catches what the evaporator does not boil: from dry to a twelfth of the coil lacking. */
const CAUGHT_AT_HALF = 0.04;
const CAUGHT_SPREAD = 0.012;
export const caughtBy = (spare: number) => 1 / (1 + Math.exp((spare + CAUGHT_AT_HALF) / CAUGHT_SPREAD));
export const SPARE_AT_HALF = 0.01;
export const SPARE_SPREAD = 0.008;

function tryAt(m: Machine, faults: Faults, around: Around, closing: Closing, u: readonly number[]): Trial {
  const { fluid: f } = m;
  const [xe, second, h1] = [u[0] ?? 0, u[1] ?? 0, (u[2] ?? 0) * 1e5];
  const held = 'holdK' in closing;
  const xc = held ? lnPressureAt(f, f.dewK, closing.holdK) : second;
  const refrigerantPa = Math.exp(xc);
  const headPa = refrigerantPa + faults.gasPa;
  const xHead = Math.log(headPa);
  const boxFlow = flowOf(m.boxFan, faults.boxFanSpeed, faults.boxResistance);
  const worn = faults.leakArea > 0 ? { ...m.compressor, leakArea: faults.leakArea } : m.compressor;
  const drop = m.suctionDrop;
  const pumped: Compressed = compress(f, worn, xe + Math.log(1 - drop), h1, xHead, around.roomK);
  const flow = pumped.flow;
  const airFlow = flowOf(m.fan, faults.fanSpeed, faults.resistance) * (held ? Math.exp(second) : 1);
  const gasPart = faults.gasPa / headPa;
  const through = (inK: number) =>
    condense(
      f,
      m.coil,
      { inK, flow: airFlow, open: faults.open, filmR: faults.film * m.coil.airR },
      xc,
      flow,
      pumped.h2,
      pumped.T2,
      gasPart,
    );
  let coilAirK = around.roomK + faults.inletK;
  let coil = through(coilAirK);
  const back = faults.recirculation / (1 - faults.recirculation) / (m.coil.airNominal * airFlow);
  for (let i = 0; back > 0 && i < 6; i++) {
    coilAirK += 0.6 * (around.roomK + faults.inletK + back * coil.heatW - coilAirK);
    coil = through(coilAirK);
  }
  const liquidAtCoil = coil.h3;
  const toRoom = m.liquidLine * Math.max(0, liquidK(m, xc, liquidAtCoil) - around.roomK) * sat(f, f.cpF, xc);
  const h3 = liquidAtCoil - toRoom;
  const cpG = sat(f, f.cpG, xe);
  const tLiquid = liquidK(m, xc, h3);
  // What left the evaporator, so that the tube's warmth and the room's bring it to h1 at the compressor.
  const dewE = sat(f, f.dewK, xe);
  const hgE = sat(f, f.hg, xe);
  const fromTube = Math.max(0, tLiquid - dewE);
  const fromRoom = Math.max(0, around.roomK - dewE);
  const taken = cpG * (m.exchanger * fromTube + m.suctionGain * fromRoom);
  const superheatK = Math.max(0, (h1 - hgE - taken) / cpG / (1 - m.exchanger - m.suctionGain));
  const exchanged = m.exchanger * cpG * (fromTube - superheatK);
  const gained = m.suctionGain * cpG * (fromRoom - superheatK);
  const leaving = h1 - exchanged - gained;
  const beforeValve =
    faults.drierPa > 0 ? Math.max(0.25 * refrigerantPa, refrigerantPa - faults.drierPa * (flow / m.coil.nominalFlow) ** 2) : refrigerantPa;
  const xv = Math.log(beforeValve);
  // Heat that the tube gives to the suction gas on its way: it enters cooler by that.
  const h4 = h3 - exchanged;
  const box: Boiled = boil(f, m.evaporator, boxAir(m, faults, around, boxFlow), xe, flow, h4);
  const passed = expand(m, faults, xv, h4, xe, box.superheatK);
  const under = below(f, xc, liquidAtCoil);
  const level = 1 / (1 + Math.exp(-(coil.spare - SPARE_AT_HALF) / SPARE_SPREAD));
  const caught = caughtBy(box.spare);
  const rhoL = sat(f, f.rhoF, xc);
  const rhoG = sat(f, f.rhoG, xc);
  const lineRho = below(f, xc, h3) > 0 ? rhoL : 1 / ((1 - wet(f, xc, h3)) / rhoL + wet(f, xc, h3) / rhoG);
  const chargeKg = coil.mass + box.mass + m.lineVolume * lineRho + m.receiver * (rhoG + level * (rhoL - rhoG)) + m.accumulatorKg * caught;
  const middleK = (sat(f, f.dewK, xc) + sat(f, f.bubbleK, xc)) / 2;
  const third =
    'charge' in closing ? (2 * (chargeKg - closing.charge)) / closing.charge
    : 'subcoolingK' in closing ? (under - closing.subcoolingK) / 10
    : coil.spare - SPARE_AT_HALF; // prettier-ignore
  const suction = gasAt(f, xe, h1);
  const gainW = flow * gained;
  const put = pumped.powerW + box.heatW + gainW;
  const out = coil.heatW + pumped.shellW + flow * toRoom;
  return {
    xe, xc, headPa, suctionPa: Math.exp(xe) * (1 - drop), h1, suctionK: suction.T,
    superheatK: suction.quality >= 1 ? suction.T - sat(f, f.dewK, xe) : 0,
    dischargeK: pumped.T2, flow, powerW: pumped.powerW, fanW: m.fan.watts * Math.min(1, faults.fanSpeed), shellW: pumped.shellW,
    coil, coilAirK, box, coolingW: box.heatW, liquidK: tLiquid, subcoolingK: below(f, xc, h3), chargeKg, middleK,
    dewK: sat(f, f.dewK, xc), evaporatingK: dewE, conductance: coil.heatW / (middleK - coilAirK), imbalance: (put - out) / put,
    residual: [Math.log(passed / flow), (box.h - leaving) / 3e4, third],
  }; // prettier-ignore
}

const wet = (f: Machine['fluid'], x: number, h: number) =>
  Math.min(1, Math.max(0, (h - sat(f, f.hf, x)) / (sat(f, f.hg, x) - sat(f, f.hf, x))));

function liquidK(m: Machine, x: number, h: number): number {
  const { fluid: f } = m;
  const under = below(f, x, h);
  const bubble = sat(f, f.bubbleK, x);
  if (under >= 0) return bubble - under;
  return bubble + (sat(f, f.dewK, x) - bubble) * wet(f, x, h);
}

function boxAir(m: Machine, faults: Faults, around: Around, flow: number) {
  return { inK: around.boxK, flow, open: faults.boxOpen, filmR: faults.boxFilm * m.evaporator.airR };
}

function expand(m: Machine, faults: Faults, x: number, h: number, xe: number, superheatK: number): number {
  const { fluid: f, expansion: e } = m;
  if (e.by === 'tube') return e.times * faults.opening * throughTube(e.table, x, h, xe);
  const opened = (superheatK - e.staticK) / e.spanK;
  // A soft stop at both ends; worn seats always let a little by.
  const open = 0.04 + 0.96 / (1 + Math.exp(-5 * (opened - 0.5)));
  const quality = wet(f, x, h);
  const rho = 1 / (quality / sat(f, f.rhoG, x) + (1 - quality) / sat(f, f.rhoF, x));
  return e.area * faults.opening * open * Math.sqrt(2 * rho * Math.max(1e3, Math.exp(x) - Math.exp(xe)));
}

const size = (r: readonly number[]) => Math.max(...r.map(Math.abs));
const DONE = 1e-7;

/**
 * Newton with a halved step where that does not help; from near by, from the machine's design point, else by small
 * moves from there. Null where there is no standing state (a dead fan on a hot day trips before it stands).
 */
function solve(m: Machine, faults: Faults, around: Around, closing: Closing, near?: Running): Running | null {
  const held = 'holdK' in closing;
  const own = near && descend(m, faults, around, closing, [near.xe, held ? -0.5 : near.xc, near.h1 / 1e5]);
  if (own) return own;
  const { home } = m;
  const fromHome = descend(m, faults, around, closing, [home.xe, held ? -0.5 : home.xc, home.h1 / 1e5]);
  if (fromHome || held) return fromHome;
  return alongFromHome(m, faults, around, closing);
}

function alongFromHome(m: Machine, faults: Faults, around: Around, closing: Closing): Running | null {
  const { home } = m;
  let at: Running | null = null;
  let done = 0;
  let step = 0.25;
  while (done < 1 && step > 0.02) {
    const to = Math.min(1, done + step);
    const mix = (a: number, b: number) => a + to * (b - a);
    const part: Faults = { ...faults };
    for (const key of Object.keys(SOUND) as (keyof Faults)[]) part[key] = mix(SOUND[key], faults[key]);
    const there = { roomK: mix(home.roomK, around.roomK), boxK: mix(home.boxK, around.boxK) };
    const end = 'charge' in closing ? { charge: mix(m.chargeKg, closing.charge) } : closing;
    const found = descend(m, part, there, end, at ? [at.xe, at.xc, at.h1 / 1e5] : [home.xe, home.xc, home.h1 / 1e5]);
    if (found) [at, done, step] = [found, to, step * 1.5];
    else step /= 2;
  }
  return done >= 1 ? at : null;
}

function descend(m: Machine, faults: Faults, around: Around, closing: Closing, start: number[]): Running | null {
  let u = start;
  let here = tryAt(m, faults, around, closing, u);
  for (let i = 0; i < 40; i++) {
    const off = size(here.residual);
    if (!Number.isFinite(off)) return null;
    if (off < DONE) return here;
    const step = newton(m, faults, around, closing, u, here.residual);
    if (!step) return null;
    let part = Math.min(1, ...step.map((s, k) => (k === 2 ? 0.2 : 0.25) / Math.max(1e-9, Math.abs(s))));
    let better: Trial | null = null;
    for (let halves = 0; halves < 7 && !better; halves++, part /= 2) {
      const v = u.map((x, k) => x + part * (step[k] ?? 0));
      const there = tryAt(m, faults, around, closing, v);
      if (size(there.residual) < off * (1 - 0.05 * part) || (halves === 6 && size(there.residual) < 1.5 * off)) {
        better = there;
        u = v;
      }
    }
    if (!better) return null;
    here = better;
  }
  return null;
}

function newton(m: Machine, faults: Faults, around: Around, closing: Closing, u: number[], r: readonly number[]): number[] | null {
  const h = 2e-6;
  const columns = [0, 1, 2].map((k) => {
    const v = [...u];
    v[k] = (v[k] ?? 0) + h;
    return tryAt(m, faults, around, closing, v).residual.map((x, i) => (x - (r[i] ?? 0)) / h);
  });
  return cramer(columns, r);
}

function cramer(c: number[][], r: readonly number[]): number[] | null {
  const det = (a: readonly number[], b: readonly number[], d: readonly number[]) => {
    const [a0 = 0, a1 = 0, a2 = 0] = a;
    const [b0 = 0, b1 = 0, b2 = 0] = b;
    const [d0 = 0, d1 = 0, d2 = 0] = d;
    return a0 * (b1 * d2 - b2 * d1) - b0 * (a1 * d2 - a2 * d1) + d0 * (a1 * b2 - a2 * b1);
  };
  const [x = [], y = [], z = []] = c;
  const whole = det(x, y, z);
  if (!(Math.abs(whole) > 1e-12)) return null;
  const n = r.map((v) => -v);
  return [det(n, y, z) / whole, det(x, n, z) / whole, det(x, y, n) / whole];
}

/** As its control lets it run: where the head would fall below what is held, it stands there. */
export function run(m: Machine, faults: Faults, around: Around, near?: Running): Running | null {
  const free = solve(m, faults, around, { charge: m.chargeKg * faults.charge }, near);
  if (m.holdK === undefined || (free && free.dewK >= m.holdK)) return free;
  return solve(m, faults, around, { holdK: m.holdK }, near) ?? free;
}
