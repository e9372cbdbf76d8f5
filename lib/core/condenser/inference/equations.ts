import { capillaryCurve, flashLoss, subcoolingGain } from '../expansion/capillary';
import { DESIGN_OPENING, VALVE_SUPERHEAT_K, valveSuperheat } from '../expansion/valve';
import { efficiencyAt } from '../compressor/published';
import { BLANKET, floodedFor, subcooling } from '../condenser/zones';
import { dryFor, outletSuperheat } from '../evaporator/dry-zone';
import type { CompressorConstants } from '../compressor/kinds';
import type { Curve } from '../fluid/chebyshev';
import { quickFluid, WORK_SUPERHEAT_K, type QuickFluid } from '../fluid/quick-fluid';
import type { Profile } from '../machine/profiles';
import type { CondenserUnit } from '../types';
import { AIR, BOX, CHARGE, DRY, FLOODED, GAIN, GAS, LN_EVAP, LN_K, LN_PUMP, LN_VALVE, OVER, TC, TE, UNKNOWNS } from './state';

/** What the equations give at one state. Heat and power per m³/s of displacement; the four imbalances come to nought. */
export type Outcome = {
  /** Imbalances: ln heat of condenser, ln heat of evaporator, expansion (ln flow, or K of superheat), charge. */
  condenser: number;
  evaporator: number;
  expansion: number;
  charge: number;
  headPa: number;
  suctionPa: number;
  condensingK: number;
  bendK: number;
  liquidK: number;
  suctionK: number;
  superheatK: number;
  dischargeK: number;
  massFlow: number;
  cooling: number;
  power: number;
  heatRejected: number;
  riseK: number;
};

export type Machine = {
  fluid: QuickFluid;
  profile: Profile;
  capillary: boolean;
  /** What the compressor lacks in pumping leaks back through worn valves, instead of its being smaller. */
  leaking?: boolean;
  cap: Curve;
  /** d ln p/dT near the design point. */
  beta: number;
  /** ln references that the design point sets. */
  lnKRef: number;
  lnEvapRef: number;
  lnExpansionRef: number;
  floodedRef: number;
  dryRef: number;
  gainRef: number;
  exchanged: number;
  /** Part of the liquid's warmth over the air that its line gives off. */
  line: number;
  design: Float64Array;
  /** What its shell gives off at the design point, and its discharge gas over the air there, K; while that point is worked out a part of the power. */
  shell?: { heat: number; overK: number };
  /** Heat rejected at the design point and what turns per-displacement figures into watts. */
  designHeat: number;
  scale: number;
};

/**
 * Warming of the suction gas on its way to the compressor, as a part of how much warmer the liquid is: a capillary
 * soldered to the suction line, or a bare line through a warm kitchen (judgement, agrees with the outside plant, part A).
 */
const GAIN_PART = { capillary: 0.42, valve: 0.22 };
/** Part of that warming which comes out of the liquid (judgement). */
const EXCHANGED = { capillary: 0.75, valve: 0.1 };
/** Liquid of the evaporator against that of the flooded condenser, as far as dryness shifts charge (judgement). */
const SHIFT = { capillary: 0.19, valve: 0.02 };
/**
 * A capillary's unit carries an accumulator before its compressor: liquid that leaves the evaporator stays in it, and the
 * condenser is short of it. Share of the condenser per wetness, and how sharply it sets in (judgement, agrees with the outside plant,
 * part A).
 */
const ACCUMULATOR = 5;
const ACCUMULATOR_KNEE = 0.02;
const OUTLET_SUPERHEAT_K = 5;
/**
 * A valve's unit has a receiver: its condenser holds little liquid back, and most of its subcooling comes from the line through
 * the kitchen, which gives off a part of how much warmer than the air it is (judgement, agrees with the outside plant, part A).
 */
const LINE = { capillary: 0, valve: 0.2 };

/** Superheat never falls below nothing, but a solver must feel which way is out. */
const softened = (x: number) => (x > 12 ? x : x > -25 ? 1.2 * Math.log1p(Math.exp(x / 1.2)) : 1e-9);
const floored = (x: number, floor: number) => (x > floor ? x : floor * Math.exp((x - floor) / floor));

/** A unit's machine at the design point of its kind, or null where its refrigerant has no numbers there. */
export function machineOf(unit: CondenserUnit, profile: Profile): Machine | null {
  const fluid = quickFluid(unit.refrigerant);
  if (!fluid) return null;
  const capillary = unit.expansion === 'capillary';
  const by = capillary ? 'capillary' : 'valve';
  const x = new Float64Array(UNKNOWNS);
  const mean = profile.designAirK + profile.cleanRiseK;
  const tc = mean + fluid.glide(mean + fluid.glide(mean) / 2) / 2;
  if (!(tc + 6 < fluid.hiK)) return null;
  const te = Math.min(288, Math.max(fluid.loK + 2, unit.boxSetPointK - profile.evaporatorDifferenceK));
  x[TC] = tc;
  x[TE] = te;
  x[AIR] = profile.designAirK;
  x[BOX] = te + profile.evaporatorDifferenceK;
  const superheat = Math.min(capillary ? OUTLET_SUPERHEAT_K : VALVE_SUPERHEAT_K, 0.7 * profile.evaporatorDifferenceK);
  const machine: Machine = {
    fluid,
    profile,
    capillary,
    cap: capillaryCurve(fluid),
    beta: (fluid.lnDewP(tc) - fluid.lnDewP(tc - 4)) / 4,
    lnKRef: 0,
    lnEvapRef: 0,
    lnExpansionRef: 0,
    floodedRef: 0,
    dryRef: 0,
    gainRef: GAIN_PART[by],
    exchanged: EXCHANGED[by],
    line: LINE[by],
    design: x,
    designHeat: 0,
    scale: 1,
  };
  x[GAIN] = machine.gainRef;
  const total = capillary ? profile.subcoolingK : (profile.receivedSubcoolingK ?? profile.subcoolingK);
  const o = newOutcome();
  // Shares at the design point need heats per kilogram that hardly depend on them: twice round settles it.
  for (let i = 0; i < 3; i++) {
    run(machine, x, o);
    const cpl = fluid.hLiquid(tc - fluid.glide(tc)) - fluid.hLiquid(tc - fluid.glide(tc) - 1);
    const liquidRise = tc - fluid.glide(tc) - profile.designAirK;
    // What the line takes is not the coil's: s = a − (a − s_coil)·(1 − line), solved for the coil's own.
    const subcooled = Math.max(0.3, liquidRise - (liquidRise - total) / (1 - machine.line));
    const perKg = o.heatRejected / o.massFlow - cpl * subcooled;
    x[FLOODED] = machine.floodedRef = floodedFor(subcooled, perKg, cpl, profile.cleanRiseK, liquidRise);
    const cpv = fluid.cpVapour(te);
    const boiling = o.cooling / o.massFlow - cpv * superheat;
    x[DRY] = machine.dryRef = dryFor(superheat, boiling, cpv, profile.evaporatorDifferenceK + 0.4 * fluid.glide(te));
  }
  run(machine, x, o);
  machine.shell = { heat: profile.compressor.shellLoss * o.power, overK: o.dischargeK - x[AIR] };
  machine.lnKRef = o.condenser;
  machine.lnEvapRef = o.evaporator;
  machine.lnExpansionRef = capillary ? o.expansion : 0;
  if (!capillary) machine.lnExpansionRef = lnOpening(machine, x) - Math.log(DESIGN_OPENING);
  run(machine, x, o);
  machine.designHeat = o.heatRejected;
  machine.scale = (unit.nominalCoolingW ?? profile.nominalCoolingW) / o.cooling;
  return Number.isFinite(o.heatRejected + o.condenser + o.expansion + machine.scale) ? machine : null;
}

export function newOutcome(): Outcome {
  return {
    condenser: 0, evaporator: 0, expansion: 0, charge: 0, headPa: 0, suctionPa: 0, condensingK: 0, bendK: 0, liquidK: 0, suctionK: 0,
    superheatK: 0, dischargeK: 0, massFlow: 0, cooling: 0, power: 0, heatRejected: 0, riseK: 0,
  }; // prettier-ignore
}

/**
 * Heat that the shell gives to the room, J/kg: free convection goes with the 1.25th power of how much warmer it is than the air (textbook),
 * here straight about the design point, and its warmth with that of the gas it lets out. `overK`: that gas over the air if nothing were lost.
 */
function shellHeat({ profile, shell }: Machine, shaft: number, flow: number, overK: number, cpGas: number): number {
  if (!shell) return profile.compressor.shellLoss * shaft;
  const perKg = shell.heat / flow;
  const slope = (CONVECTION * perKg) / shell.overK;
  const heat = ((1 - CONVECTION) * perKg + slope * overK) / (1 + slope / cpGas);
  return Math.min(MOST_BY_SHELL * shaft, Math.max(0, heat));
}
const CONVECTION = 1.25;
/** Of the power, whatever the shell's warmth (judgement). */
const MOST_BY_SHELL = 0.7;

let opening = 0;
function lnOpening(machine: Machine, x: Float64Array): number {
  run(machine, x, newOutcome());
  return opening;
}

// Properties of the state asked for last: a derivative moves one unknown at a time, and few of them move these.
type Of<T> = T & { fluid: QuickFluid | null };
type Hot = Record<'tc' | 'glide' | 'bubble' | 'pC' | 'hLiquidC' | 'latentC' | 'cpl' | 'cpd', number>;
type Cold = Record<'te' | 'glide' | 'pE' | 'hv' | 'cpv' | 'latentE' | 'rho', number>;
type Lift = Record<'te' | 'tc' | 'work' | 'idealEndK', number>;
const hot: Of<Hot> = { fluid: null, tc: NaN, glide: 0, bubble: 0, pC: 0, hLiquidC: 0, latentC: 0, cpl: 0, cpd: 0 };
const cold: Of<Cold> = { fluid: null, te: NaN, glide: 0, pE: 0, hv: 0, cpv: 0, latentE: 0, rho: 0 };
const lift: Of<Lift> = { fluid: null, te: NaN, tc: NaN, work: 0, idealEndK: 0 };

function condensingAt(f: QuickFluid, tc: number): void {
  if (f === hot.fluid && tc === hot.tc) return;
  hot.fluid = f;
  hot.tc = tc;
  hot.glide = f.glide(tc);
  hot.bubble = tc - hot.glide;
  hot.pC = Math.exp(f.lnDewP(tc));
  hot.hLiquidC = f.hLiquid(hot.bubble);
  hot.latentC = f.hVapour(tc) - hot.hLiquidC;
  hot.cpl = hot.hLiquidC - f.hLiquid(hot.bubble - 1);
  hot.cpd = f.cpDischarge(tc);
}

function evaporatingAt(f: QuickFluid, te: number): void {
  if (f === cold.fluid && te === cold.te) return;
  cold.fluid = f;
  cold.te = te;
  cold.glide = f.glide(te);
  cold.pE = Math.exp(f.lnDewP(te));
  cold.hv = f.hVapour(te);
  cold.cpv = f.cpVapour(te);
  cold.latentE = cold.hv - f.hLiquid(te - cold.glide);
  cold.rho = Math.exp(f.lnRhoVapour(te));
}

function liftOf(f: QuickFluid, te: number, tc: number): void {
  if (f === lift.fluid && te === lift.te && tc === lift.tc) return;
  lift.fluid = f;
  lift.te = te;
  lift.tc = tc;
  lift.work = f.work(te, tc);
  lift.idealEndK = f.idealEndK(te, tc);
}

/** All of the equations at one state, into `o`; no iteration in here. */
export function run(m: Machine, x: Float64Array, o: Outcome): void {
  const f = m.fluid;
  const c: CompressorConstants = m.profile.compressor;
  const tc = x[TC]!;
  const te = x[TE]!;
  const gas = Math.max(-0.5, x[GAS]!);
  const dry = Math.max(-0.6, Math.min(0.97, x[DRY]!));
  const flooded = Math.min(0.9, x[FLOODED]!);
  condensingAt(f, tc);
  evaporatingAt(f, te);
  const { glide, bubble, pC, hLiquidC, latentC, cpl, cpd } = hot;
  const { pE, hv, cpv, latentE } = cold;
  const condensing = tc - glide / 2;
  const rise = floored(condensing - x[AIR]!, 0.5);
  const difference = floored(x[BOX]! - te + 0.4 * cold.glide, 0.4);
  const head = pC * (1 + gas);
  const lnGas = Math.log1p(gas);

  const boiling = hv - hLiquidC;
  const outlet = outletSuperheat(dry, boiling, cpv, difference);
  const wet = dry < 0 ? -dry : 0;
  const gain = x[GAIN]! * Math.max(0, bubble - te - outlet);
  const warmed = outlet + gain - (wet * latentE) / cpv;
  const superheat = softened(warmed);
  const suction = te + superheat;

  const ratio = head / pE;
  const filled = Math.max(0.02, 1 + c.clearance - c.clearance * Math.pow(ratio, 1 / c.exponent));
  const rho = cold.rho * Math.pow(te / suction, 1.08);
  const flow = rho * filled * Math.exp(x[LN_PUMP]!);
  const tcHead = tc + lnGas / m.beta;
  const warm = (superheat - WORK_SUPERHEAT_K) / (te + WORK_SUPERHEAT_K);
  liftOf(f, te, tcHead);
  const work = lift.work * (1 + warm);
  // Gas that leaks back is pumped again: what arrives carries the work of all of it.
  const shaft = (work / efficiencyAt(c, ratio)) * (m.leaking ? Math.exp(-Math.min(0, x[LN_PUMP]!)) : 1);
  const hSuction = hv + cpv * superheat;
  const idealEnd = lift.idealEndK * (1 + 0.95 * warm);
  const kept = shaft - shellHeat(m, shaft, flow, idealEnd - x[AIR]! + (shaft - work) / cpd, cpd) + cpd * x[OVER]!;

  const beforeLiquid = hSuction + kept - hLiquidC;
  const sub = subcooling(flooded, beforeLiquid, cpl, rise, bubble - x[AIR]!);
  const quality = flooded < 0 ? -flooded : 0;
  const inLine = m.line * Math.max(0, bubble - sub - x[AIR]!);
  const hLiquid = flooded > 0 ? hLiquidC - cpl * sub : hLiquidC + quality * latentC;
  const hLine = hLiquid - cpl * inLine;
  // Gas that the coil let through is liquid again before the line cools any: until then it stands at saturation.
  const left = Math.max(0, hLine - hLiquidC) / latentC;
  const liquidK = left > 0 ? bubble + glide * left : bubble - (hLiquidC - hLine) / cpl;
  const hIn = hLine - m.exchanged * cpv * gain;

  o.headPa = head;
  o.suctionPa = pE;
  o.condensingK = condensing;
  o.riseK = condensing - x[AIR]!;
  o.bendK = condensing;
  o.liquidK = liquidK;
  o.suctionK = suction;
  o.superheatK = superheat;
  o.dischargeK = idealEnd + (kept - work) / cpd;
  o.massFlow = flow;
  o.power = flow * shaft;
  o.cooling = flow * (hv + cpv * outlet - wet * latentE - hIn);
  o.heatRejected = flow * (hSuction + kept - hLiquid);

  const condensed = beforeLiquid - quality * latentC;
  const free = flooded > 0 ? 1 - flooded : 1;
  o.condenser = Math.log(Math.max(1e-9, flow * condensed)) - Math.log(free * rise) - x[LN_K]! + BLANKET * gas - m.lnKRef;
  const boiled = hv - wet * latentE - hIn;
  const wetted = dry > 0 ? 1 - dry : 1;
  o.evaporator = Math.log(Math.max(1e-9, flow * boiled)) - Math.log(wetted * difference) - x[LN_EVAP]! - m.lnEvapRef;
  const caught = m.capillary && dry < 0.3 ? ACCUMULATOR * ACCUMULATOR_KNEE * Math.log1p(Math.exp(-dry / ACCUMULATOR_KNEE)) : 0;
  o.charge = flooded - m.floodedRef - x[CHARGE]! - (m.capillary ? SHIFT.capillary : SHIFT.valve) * (dry - m.dryRef) + caught;
  if (m.capillary) {
    // What the suction line takes out of the liquid is gone before most of the tube: gas that the coil let through may be liquid again.
    const below = hLiquidC - hIn;
    const lnTube = m.cap(tc) + 0.5 * lnGas + subcoolingGain(Math.max(0, below / cpl), m.beta) + flashLoss(Math.max(0, -below / latentC));
    o.expansion = Math.log(flow) - lnTube - x[LN_VALVE]! - m.lnExpansionRef;
  } else {
    const lnFull = 0.5 * (Math.log(Math.max(1e3, head - pE)) + f.lnRhoLiquid(liquidK)) + flashLoss(left);
    opening = Math.log(flow) - lnFull - x[LN_VALVE]!;
    o.expansion = outlet - (wet * latentE) / cpv - valveSuperheat(opening - m.lnExpansionRef);
  }
}
