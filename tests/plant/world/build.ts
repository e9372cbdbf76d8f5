import { tubeTable, throughTube } from './capillary';
import type { Chance } from './chance';
import { condense, type Coil } from './condenser';
import { compress, type Compressor } from './compressor';
import { boil, type Evaporator } from './evaporator';
import { fluidOf, gasAt, lnPressureAt, sat, type Fluid } from './fluid';
import type { Fan } from './fan';
import { caughtBy, SPARE_AT_HALF, SPARE_SPREAD } from './solve';
import type { Expansion, Machine } from './machine';
import { MAKES, type Make } from './makes';
import type { Template } from './templates';

export const DESIGN_AIR_K = 305.37;

const K = 5 / 9;
/** Part of the charge that a capillary machine's accumulator holds. */
const ACCUMULATOR = 0.3;
/** Box less evaporating, and clean rise over the air, in °F: common practice, from memory, as in domain notes 2 and 7. */
const USUAL: Record<Template['kind'], { td: number; rise: number; riseSd: number }> = {
  reach_in: { td: 18, rise: 25, riseSd: 4.5 },
  undercounter: { td: 18, rise: 26, riseSd: 4.5 },
  drawer_base: { td: 18, rise: 26, riseSd: 4.5 },
  prep_table: { td: 18, rise: 26, riseSd: 4.5 },
  display: { td: 16, rise: 24, riseSd: 4.5 },
  walk_in_cooler: { td: 11, rise: 22, riseSd: 3.5 },
  walk_in_freezer: { td: 10, rise: 19, riseSd: 3.5 },
  ice_machine: { td: 20, rise: 24, riseSd: 4.5 },
  remote_condensing_unit: { td: 10, rise: 17, riseSd: 3 },
};

export type Design = { coolingW: number; cleanRiseK: number; evaporatingK: number; powerW: number };

/** One machine out of a template; sized so that it stands at its design point with the drawn rise, lift and superheat. */
export function build(t: Template, c: Chance): { machine: Machine; design: Design } {
  const f = fluidOf(t.refrigerant);
  const make = MAKES[t.part];
  const usual = USUAL[t.kind];
  const low = t.application === 'low';
  const coolingW = c.between(...t.watts);
  const wider = low && t.kind !== 'walk_in_freezer' ? 0.85 : 1;
  const rise = Math.max(10 * K, c.normal(usual.rise, usual.riseSd) * wider * K);
  const td = Math.max(6 * K, usual.td * K * c.about(0.15));
  const tube = t.expansion === 'capillary';
  const xe = lnPressureAt(f, f.dewK, t.boxK - td);
  const xc = lnPressureAt(f, f.dewK, DESIGN_AIR_K + rise + glideAt(f, DESIGN_AIR_K + rise) / 2);
  const suctionDrop = c.between(0.005, 0.03);
  const superheat = Math.min(0.75 * td, tube ? c.between(2, 5) : c.between(3.5, 6));
  const subcooling = tube ? c.between(make.subcooling[0], Math.min(make.subcooling[1], rise * 0.5)) : 0.15;
  const exchanger = tube ? c.between(...make.exchanger) : c.between(0, 0.2);
  const liquidLine = tube ? 0 : c.between(0.05, 0.4);
  const leavingK = sat(f, f.dewK, xe) + superheat;
  const leaving = sat(f, f.hg, xe) + sat(f, f.cpG, xe) * superheat;
  const bubble = sat(f, f.bubbleK, xc);
  const cpF = sat(f, f.cpF, xc);
  const atCoil = sat(f, f.hf, xc) - cpF * subcooling;
  const h3 = atCoil - liquidLine * Math.max(0, bubble - subcooling - DESIGN_AIR_K) * cpF;
  const liquid = bubble - (sat(f, f.hf, xc) - h3) / cpF;
  const exchanged = exchanger * sat(f, f.cpG, xe) * Math.max(0, liquid - leavingK);
  const h4 = h3 - exchanged;
  const flow = coolingW / (leaving - h4);
  const suctionGain = c.between(0.03, tube ? 0.12 : 0.25);
  const h1 = leaving + exchanged + suctionGain * sat(f, f.cpG, xe) * Math.max(0, DESIGN_AIR_K - leavingK);
  const compressor = sized(f, pump(t, make, c), xe + Math.log(1 - suctionDrop), h1, xc, flow);
  const pumped = compress(f, compressor, xe + Math.log(1 - suctionDrop), h1, xc, DESIGN_AIR_K);
  const heat = flow * (pumped.h2 - atCoil);
  const coil = coilFor(f, t, make, c, { xc, flow, heat, rise, atCoil, h2: pumped.h2, T2: pumped.T2 });
  const evaporator = evaporatorFor(f, t, make, c, { xe, flow, coolingW, td, superheat, h4 });
  const expansion = expansionFor(f, t, make, c, { xc, xe, h4, flow, superheat });
  const condensing = condense(f, coil, { inK: DESIGN_AIR_K, flow: 1, open: 1, filmR: 0 }, xc, flow, pumped.h2, pumped.T2, 0);
  const boiling = boil(f, evaporator, { inK: t.boxK, flow: 1, open: 1, filmR: 0 }, xe, flow, h4);
  const lineVolume = (tube ? 1.2e-5 : 6e-5) * (coolingW / 1000) * c.about(0.3);
  const rhoL = sat(f, f.rhoF, xc);
  const held = condensing.mass + boiling.mass + lineVolume * rhoL;
  const receiver = tube ? 0 : (c.between(...make.receiver) * held) / rhoL;
  // Level by the same law as in the running machine, so that the design point stands.
  const level = tube ? 0 : 1 / (1 + Math.exp(-(condensing.spare - SPARE_AT_HALF) / SPARE_SPREAD));
  const rhoG = sat(f, f.rhoG, xc);
  const machine: Machine = {
    fluid: f, compressor, coil, evaporator, expansion, exchanger, suctionGain, liquidLine, lineVolume, receiver, suctionDrop, accumulatorKg: tube ? ACCUMULATOR * held : 0,
    fan: fan(make, c, pumped.powerW * c.between(0.05, 0.11)),
    boxFan: fan(make, c, pumped.powerW * c.between(0.03, 0.08)),
    chargeKg: held * (1 + (tube ? ACCUMULATOR * caughtBy(boiling.spare) : 0)) + receiver * (rhoG + level * (rhoL - rhoG)),
    holdK: t.headControl ? c.between(300, 306) : undefined,
    home: { roomK: DESIGN_AIR_K, boxK: t.boxK, xe, xc, h1 },
  }; // prettier-ignore
  return { machine, design: { coolingW, cleanRiseK: rise, evaporatingK: t.boxK - td, powerW: pumped.powerW } };
}

function glideAt(f: Fluid, T: number): number {
  const x = lnPressureAt(f, f.dewK, T);
  return sat(f, f.dewK, x) - sat(f, f.bubbleK, x);
}

function fan({ fan: of }: Make, c: Chance, watts: number): Fan {
  return { free: c.between(...of.free), power: c.between(...of.power), still: c.between(...of.still), watts };
}

/**
 * A compressor of unit sweep; `shellUA` is here the part of its power that leaves by the shell: a third to a half in small
 * sealed machines, an eighth to a quarter in larger ones with gas-cooled motors (from memory).
 */
function pump(t: Template, { filling, slope, motor: motors, motorFall, shell }: Make, c: Chance): Compressor {
  const small = t.kind !== 'walk_in_cooler' && t.kind !== 'walk_in_freezer' && t.kind !== 'remote_condensing_unit';
  const low = t.application === 'low';
  // Low-temperature models are built with less clearance.
  const k2 = (low ? filling.low : filling.medium) * c.about(filling.spread);
  const motor = (small ? motors.small : motors.large) * c.about(0.04);
  return {
    swept: 1,
    k1: 0.98 * c.about(0.03),
    k2,
    a: slope.mean * c.about(slope.spread),
    b: 0,
    motor,
    motorFall: c.between(...motorFall),
    motorNominalW: 1,
    shellUA: t.sealed ? c.between(...shell.sealed) : c.between(...shell.ports),
    leakArea: 0,
  };
}

/** Swept volume, motor size and shell for the wanted flow; b so that the ratio of efficiencies is usual at this lift. */
function sized(f: Fluid, c: Compressor, xe: number, h1: number, xc: number, flow: number): Compressor {
  const temperatures = sat(f, f.dewK, xc) / sat(f, f.dewK, xe);
  // Pierre: 2.88 with −2.4; another slope turns about the same point.
  const b = 2.88 - (c.a + 2.4) * temperatures;
  const unit = compress(f, { ...c, b, motorFall: 0, shellUA: 0 }, xe, h1, xc, 300);
  const swept = flow / unit.flow;
  const powerW = unit.powerW * swept;
  const hot = gasAt(f, xc, h1 + ((1 - c.shellUA) * powerW) / flow).T;
  return { ...c, b, swept, motorNominalW: powerW / 1.05, shellUA: (c.shellUA * powerW) / (hot - 305) };
}

type CoilPoint = { xc: number; flow: number; heat: number; rise: number; atCoil: number; h2: number; T2: number };

function coilFor(f: Fluid, t: Template, make: Make, c: Chance, d: CoilPoint): Coil {
  const airRise = d.rise * c.between(...make.airRise);
  const airShare = t.condenser === 'wire_and_tube' ? c.between(0.85, 0.95) : c.between(...make.airShare);
  const bypass = c.between(...make.bypass);
  const part: Omit<Coil, 'airR' | 'refrigerantR'> = {
    airNominal: d.heat / airRise,
    gasTimes: c.between(...make.gasTimes), liquidTimes: c.between(...make.liquidTimes),
    airPower: t.condenser === 'microchannel' ? c.between(0.35, 0.5) : c.between(...make.airPower),
    fin: c.between(0.4, 1), finShare: t.condenser === 'wire_and_tube' ? 0.6 : 0.9,
    refrigerantPower: c.between(...make.refrigerantPower), nominalFlow: d.flow, bypass,
    volume: (t.condenser === 'microchannel' ? 2.2e-4 : 5.5e-4) * (d.heat / 1000) * c.about(0.25),
  }; // prettier-ignore
  const made = (total: number): Coil => ({ ...part, airR: total * airShare, refrigerantR: total * (1 - airShare) });
  const air = { inK: DESIGN_AIR_K, flow: 1, open: 1, filmR: 0 };
  let lo = Math.log(0.02 / part.airNominal);
  let hi = Math.log(20 / part.airNominal);
  for (let i = 0; i < 50; i++) {
    const mid = (lo + hi) / 2;
    if (condense(f, made(Math.exp(mid)), air, d.xc, d.flow, d.h2, d.T2, 0).h3 < d.atCoil) lo = mid;
    else hi = mid;
  }
  return made(Math.exp((lo + hi) / 2));
}

type BoxPoint = { xe: number; flow: number; coolingW: number; td: number; superheat: number; h4: number };

function evaporatorFor(f: Fluid, t: Template, make: Make, c: Chance, d: BoxPoint): Evaporator {
  const water = t.kind === 'ice_machine';
  const airFall = d.td * c.between(...make.boxFall);
  const airShare = c.between(...make.boxShare);
  const part = {
    airNominal: water ? d.coolingW * 10 : d.coolingW / airFall,
    gasTimes: c.between(...make.boxGasTimes), airPower: c.between(0.4, 0.65), refrigerantPower: c.between(0.3, 0.7), nominalFlow: d.flow,
    volume: 9e-4 * (d.coolingW / 1000) * c.about(0.25), moist: water ? 1 : c.between(1, 1.25),
  }; // prettier-ignore
  const made = (total: number): Evaporator => ({ ...part, airR: total * airShare, refrigerantR: total * (1 - airShare) });
  let lo = Math.log(0.005 * (d.td / d.coolingW));
  let hi = Math.log(20 * (d.td / d.coolingW));
  for (let i = 0; i < 50; i++) {
    const mid = (lo + hi) / 2;
    if (boil(f, made(Math.exp(mid)), { inK: t.boxK, flow: 1, open: 1, filmR: 0 }, d.xe, d.flow, d.h4).superheatK > d.superheat) lo = mid;
    else hi = mid;
  }
  return made(Math.exp((lo + hi) / 2));
}

type ValvePoint = { xc: number; xe: number; h4: number; flow: number; superheat: number };

function expansionFor(f: Fluid, t: Template, make: Make, c: Chance, d: ValvePoint): Expansion {
  if (t.expansion === 'capillary') {
    const table = tubeTable(f, make.tube);
    return { by: 'tube', table, times: d.flow / throughTube(table, d.xc, d.h4, d.xe) };
  }
  const electronic = c.yes(0.15);
  const spanK = electronic ? 1.5 : c.between(...make.valve.spanK);
  const opened = c.between(...make.valve.opened);
  const staticK = Math.max(0.5, d.superheat - opened * spanK);
  const open = 0.04 + 0.96 / (1 + Math.exp(-5 * ((d.superheat - staticK) / spanK - 0.5)));
  const rho = sat(f, f.rhoF, d.xc);
  return { by: 'valve', staticK, spanK, area: d.flow / open / Math.sqrt(2 * rho * (Math.exp(d.xc) - Math.exp(d.xe))) };
}
