import { enthalpyAtEntropy, gasAt, sat, type Fluid } from './fluid';

/**
 * Reciprocating compressor after Pierre's correlations (B. Pierre 1982, Kylteknik; as in Granryd et al., Refrigerating
 * Engineering, KTH; coefficients from memory): filling falls exponentially with the pressure ratio, and the ratio of
 * filling to total efficiency follows the ratio of absolute temperatures. Nothing of it is in lib/core/condenser.
 */
export type Compressor = {
  /** Swept volume, m³/s. */
  swept: number;
  k1: number;
  k2: number;
  a: number;
  b: number;
  /** Motor efficiency at nominal power, how it falls off to both sides, and that power, W. */
  motor: number;
  motorFall: number;
  motorNominalW: number;
  /** Shell to surroundings, W/K, on the temperature of the gas that leaves. */
  shellUA: number;
  /** Backward flow through worn valves, m² of a nozzle. */
  leakArea: number;
};

export type Compressed = { flow: number; powerW: number; h2: number; T2: number; shellW: number };

export function compress(f: Fluid, c: Compressor, xe: number, h1: number, xHead: number, airK: number): Compressed {
  const suction = gasAt(f, xe, h1);
  const ratio = Math.exp(xHead - xe);
  const warm = 1 + (0.15 * (suction.T - 291.15)) / 100;
  const filled = c.k1 * warm * Math.exp(c.k2 * ratio);
  const gross = c.swept * suction.rho * Math.max(0.02, filled);
  const ideal = enthalpyAtEntropy(f, xHead, suction.s) - h1;
  const temperatures = sat(f, f.dewK, xHead) / sat(f, f.dewK, xe);
  const mechanical = Math.min(0.9, Math.max(0.1, filled / ((1 - (0.1 * (suction.T - 291.15)) / 100) * Math.exp(c.a * temperatures + c.b))));
  const shaft = (gross * ideal) / mechanical;
  const motor = c.motor * (1 - c.motorFall * Math.min(1.5, Math.abs(shaft / (c.motor * c.motorNominalW) - 1)) ** 2);
  const powerW = shaft / Math.max(0.3, motor);
  const rise = Math.exp(xHead) - Math.exp(xe);
  const back = c.leakArea > 0 ? c.leakArea * Math.sqrt(2 * Math.max(0, rise) * sat(f, f.rhoG, xHead)) : 0;
  const flow = Math.max(0.05 * gross, gross - back);
  let h2 = h1 + (0.8 * powerW) / flow;
  let T2 = gasAt(f, xHead, h2).T;
  let shellW = 0;
  for (let i = 0; i < 8; i++) {
    const wanted = Math.min(0.75 * powerW, Math.max(0, c.shellUA * (T2 - airK)));
    shellW += 0.7 * (wanted - shellW);
    h2 = h1 + (powerW - shellW) / flow;
    T2 = gasAt(f, xHead, h2).T;
  }
  return { flow, powerW, h2, T2, shellW };
}
