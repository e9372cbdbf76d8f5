import { sat, wetDensity, type Fluid } from './fluid';

/** Coil in the box: a boiling zone and a gas zone share the face. Air is dried too: its capacity counts `moist` times. */
export type Evaporator = {
  airNominal: number;
  airR: number;
  refrigerantR: number;
  gasTimes: number;
  airPower: number;
  refrigerantPower: number;
  nominalFlow: number;
  volume: number;
  moist: number;
};

export type BoxAir = { inK: number; flow: number; open: number; filmR: number };

export type Boiled = {
  h: number;
  superheatK: number;
  mass: number;
  heatW: number;
  /** face left dry; negative: face lacking */ spare: number;
};

export function boil(f: Fluid, e: Evaporator, air: BoxAir, x: number, flow: number, h4: number): Boiled {
  const dew = sat(f, f.dewK, x);
  const hg = sat(f, f.hg, x);
  const hf = sat(f, f.hf, x);
  const glide = dew - sat(f, f.bubbleK, x);
  const quality = Math.min(0.95, Math.max(0, (h4 - hf) / (hg - hf)));
  const start = dew - glide * (1 - quality);
  const ratio = Math.max(0.05, flow / e.nominalFlow);
  const capacity = e.airNominal * e.moist * air.flow;
  const airR = e.airR / (air.flow / air.open) ** e.airPower / air.open + air.filmR / air.open;
  const of = (times: number) =>
    capacity * (1 - Math.exp(-1 / (capacity * (airR + (e.refrigerantR * times) / ratio ** e.refrigerantPower / air.open))));
  const wet = of(1);
  const dry = of(e.gasTimes);
  const d0 = Math.max(0.02, air.inK - start);
  const d1 = Math.max(0.02, air.inK - dew);
  const mean = Math.abs(d0 - d1) < 0.02 ? d1 : (d0 - d1) / Math.log(d0 / d1);
  const want = (flow * (hg - h4)) / (wet * mean);
  if (want >= 1) {
    const h = h4 + (hg - h4) / want;
    const exit = (h - hf) / (hg - hf);
    return { h, superheatK: 0, mass: e.volume * wetDensity(f, x, quality, exit), heatW: flow * (h - h4), spare: 1 - want };
  }
  const cp = sat(f, f.cpG, x);
  const superheatK = (air.inK - dew) * (1 - Math.exp((-dry * (1 - want)) / (flow * cp)));
  const h = hg + cp * superheatK;
  const mass = e.volume * (want * wetDensity(f, x, quality, 1) + (1 - want) * sat(f, f.rhoG, x));
  return { h, superheatK, mass, heatW: flow * (h - h4), spare: 1 - want };
}
