import { sat, wetDensity, type Fluid } from './fluid';

/**
 * Air-cooled coil by moving boundaries: gas, condensing and liquid zones share the face; in each, a slice of air meets
 * the local refrigerant temperature with the effectiveness of its own overall coefficient.
 */
export type Coil = {
  /** W/K of air at nominal flow. */
  airNominal: number;
  /** Resistances at nominal, K/W for the whole face: air side with fins, and refrigerant side while condensing. */
  airR: number;
  refrigerantR: number;
  /** Refrigerant-side resistance of gas and of liquid as a multiple of condensing. */
  gasTimes: number;
  liquidTimes: number;
  /** Air side coefficient as a power of velocity; fin parameter mL and share of finned surface. */
  airPower: number;
  fin: number;
  finShare: number;
  refrigerantPower: number;
  nominalFlow: number;
  volume: number;
  /** Part of the air that passes by without touching a fin. */
  bypass: number;
};

export type Air = { inK: number; flow: number; /** part of the face left open */ open: number; /** K/W deposited film */ filmR: number };

export type Condensed = {
  h3: number;
  mass: number;
  heatW: number;
  /** shares of the face */ gas: number;
  wet: number;
  liquid: number;
  /** face left over after all is condensed; negative: face lacking */ spare: number;
};

const fins = (mL: number, share: number) => 1 - share * (1 - Math.tanh(mL) / mL);

/** Effectiveness of a zone per W/K of its air. */
function effectiveness(c: Coil, air: Air, flowRatio: number, times: number): number {
  const h = (air.flow / air.open) ** c.airPower;
  const clean = fins(c.fin, c.finShare);
  const airR = (c.airR * clean) / (h * fins(c.fin * Math.sqrt(h), c.finShare)) / air.open;
  const r = airR + air.filmR / air.open + (c.refrigerantR * times) / Math.max(0.05, flowRatio) ** c.refrigerantPower / air.open;
  const capacity = c.airNominal * air.flow * (1 - c.bypass);
  return 1 - Math.exp(-1 / (r * capacity));
}

/** UA that the condensing zone would have over the whole face, in W/K of effective air: for sizing a deposit. */
export function condensingConductance(c: Coil, air: Air): number {
  return effectiveness(c, air, 1, 1) * c.airNominal * air.flow * (1 - c.bypass);
}

/** `gasPart`: mole fraction of non-condensable gas, which blankets the condensing surface. */
export function condense(f: Fluid, c: Coil, air: Air, x: number, flow: number, h2: number, T2: number, gasPart: number): Condensed {
  const dew = sat(f, f.dewK, x);
  const bubble = sat(f, f.bubbleK, x);
  const hg = sat(f, f.hg, x);
  const hf = sat(f, f.hf, x);
  const ratio = flow / c.nominalFlow;
  const capacity = c.airNominal * air.flow * (1 - c.bypass);
  const blanket = 1 + 8 * gasPart;
  const eGas = effectiveness(c, air, ratio, c.gasTimes) * capacity;
  const eWet = effectiveness(c, air, ratio, blanket) * capacity;
  const eLiquid = effectiveness(c, air, ratio, c.liquidTimes) * capacity;
  const over = Math.max(0.02, bubble - air.inK);
  const overDew = Math.max(0.02 + dew - bubble, dew - air.inK);
  const sensible = Math.max(0, h2 - hg);
  const cpGas = T2 > dew + 0.1 ? sensible / (T2 - dew) : sat(f, f.cpG, x);
  const wantGas = sensible > 0 ? ((flow * cpGas) / eGas) * Math.log((T2 - air.inK) / overDew) : 0;
  const slope = dew - bubble > 0.02 ? Math.log(overDew / over) / (overDew - over) : 1 / overDew;
  const entering = Math.min(hg, h2);
  const wantWet = (flow * (entering - hf) * slope) / eWet;
  const gas = Math.min(0.98, wantGas);
  const left = 1 - gas;
  const rhoG = sat(f, f.rhoG, x);
  if (wantWet >= left) {
    const done = left / wantWet;
    const h3 = entering - done * (entering - hf);
    const exit = (h3 - hf) / (hg - hf);
    const mass = c.volume * (gas * rhoG * 0.9 + left * wetDensity(f, x, 1, exit));
    return { h3, mass, heatW: flow * (h2 - h3), gas, wet: left, liquid: 0, spare: left - wantWet };
  }
  const liquid = left - wantWet;
  const cp = sat(f, f.cpF, x);
  const h3 = hf - cp * over * (1 - Math.exp((-eLiquid * liquid) / (flow * cp)));
  const mass = c.volume * (gas * rhoG * 0.9 + wantWet * wetDensity(f, x, 1, 0) + liquid * sat(f, f.rhoF, x) * 1.02);
  return { h3, mass, heatW: flow * (h2 - h3), gas, wet: wantWet, liquid, spare: liquid };
}
