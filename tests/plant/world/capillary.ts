import { below, sat, type Fluid } from './fluid';

/**
 * Adiabatic capillary tube: homogeneous flow marched down in pressure (energy with kinetic part, momentum with
 * Churchill's friction factor and McAdams' viscosity) until a further drop would need a negative length: choked.
 * Viscosities at 40 °C, mPa·s, from memory; flow goes with about their −0.1 power.
 */
const VISCOSITY: Record<string, readonly [liquid: number, gas: number]> = {
  R134a: [0.161, 0.0124],
  R404A: [0.105, 0.0131],
  R290: [0.083, 0.0088],
  R448A: [0.115, 0.0133],
  R449A: [0.115, 0.0133],
  R600a: [0.13, 0.0079],
};
const ROUGHNESS = 5e-7;

export type Tube = { diameter: number; length: number };

function friction(reynolds: number, relative: number): number {
  const a = (2.457 * Math.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * relative))) ** 16;
  const b = (37530 / reynolds) ** 16;
  return 8 * ((8 / reynolds) ** 12 + 1 / (a + b) ** 1.5) ** (1 / 12);
}

/** Length (m) after which a mass flux (kg/s/m²) chokes, from inlet ln p and enthalpy; and ln p where it does. */
function chokedLength(f: Fluid, d: number, flux: number, x0: number, h0: number): { length: number; x: number } {
  const [muF, muG] = (VISCOSITY[f.id] ?? [0.12, 0.012]).map((mu) => mu * 1e-3);
  if (muF === undefined || muG === undefined) throw new Error(`No viscosity for ${f.id}`);
  let x = x0;
  let length = 0;
  const rough = ROUGHNESS / d;
  const g2 = flux * flux;
  if (h0 < sat(f, f.hf, x0)) {
    // Liquid: sharp-edged inlet, then friction down to the bubble pressure of its own enthalpy.
    let lo = f.x0;
    let hi = x0;
    for (let i = 0; i < 40; i++) {
      const mid = (lo + hi) / 2;
      if (sat(f, f.hf, mid) < h0) lo = mid;
      else hi = mid;
    }
    const rho = sat(f, f.rhoF, hi);
    const drop = Math.exp(x0) - Math.exp(hi) - (0.75 * g2) / rho;
    length = Math.max(0, (drop * 2 * d * rho) / (friction((flux * d) / muF, rough) * g2));
    x = hi;
  }
  const wet = (at: number) => {
    const vf = 1 / sat(f, f.rhoF, at);
    const vg = 1 / sat(f, f.rhoG, at);
    const hf = sat(f, f.hf, at);
    const dh = sat(f, f.hg, at) - hf;
    const dv = vg - vf;
    // h0 = hf + q dh + G²(vf + q dv)²/2
    const A = (g2 * dv * dv) / 2;
    const B = dh + g2 * vf * dv;
    const C = hf + (g2 * vf * vf) / 2 - h0;
    const q = Math.max(0, A < 1e-9 ? -C / B : (-B + Math.sqrt(Math.max(0, B * B - 4 * A * C))) / (2 * A));
    return { v: vf + q * dv, mu: 1 / (q / muG + (1 - q) / muF) };
  };
  let here = wet(x);
  const step = 0.015;
  while (x > f.x0 + step) {
    const next = wet(x - step);
    const drop = Math.exp(x) - Math.exp(x - step);
    const v = (here.v + next.v) / 2;
    const run = ((drop - g2 * (next.v - here.v)) * 2 * d) / (friction((flux * d) / here.mu, rough) * g2 * v);
    if (run <= 0) break;
    length += run;
    x -= step;
    here = next;
  }
  return { length, x };
}

/** Choked flow of a tube, kg/s, and ln p at its end. */
export function chokedFlow(f: Fluid, tube: Tube, x0: number, h0: number): { flow: number; x: number } {
  let lo = Math.log(100);
  let hi = Math.log(60000);
  for (let i = 0; i < 34; i++) {
    const mid = (lo + hi) / 2;
    if (chokedLength(f, tube.diameter, Math.exp(mid), x0, h0).length > tube.length) lo = mid;
    else hi = mid;
  }
  const flux = Math.exp((lo + hi) / 2);
  return { flow: flux * Math.PI * (tube.diameter / 2) ** 2, x: chokedLength(f, tube.diameter, flux, x0, h0).x };
}

/** Choked flow over inlet pressure and degrees below the bubble point, made once for a tube. */
export type TubeTable = { fluid: Fluid; x0: number; dx: number; flow: number[][]; end: number[][] };
/** Degrees below bubble at the columns; negative ones lie in the dome (hundredths of quality times hfg/cp). */
const INLETS = [-40, -25, -15, -8, -4, -2, -0.7, 0, 0.7, 2, 4, 7, 11, 16, 24, 34];
const PRESSURES = 12;
const made = new Map<string, TubeTable>();

export function tubeTable(f: Fluid, tube: Tube): TubeTable {
  const key = `${f.id}/${tube.diameter}/${tube.length}`;
  const found = made.get(key);
  if (found) return found;
  const top = f.x0 + f.dx * (f.rows - 1);
  const x0 = Math.max(f.x0 + 1, top - 2.2);
  const dx = (top - x0) / (PRESSURES - 1);
  const rows = Array.from({ length: PRESSURES }, (_, i) => {
    const x = x0 + i * dx;
    return INLETS.map((b) => chokedFlow(f, tube, x, sat(f, f.hf, x) - b * sat(f, f.cpF, x)));
  });
  const table = { fluid: f, x0, dx, flow: rows.map((r) => r.map((c) => Math.log(c.flow))), end: rows.map((r) => r.map((c) => c.x)) };
  made.set(key, table);
  return table;
}

/** Flow, kg/s, into a suction side at ln p `xe`: choked, or less where that stands above the choking pressure. */
export function throughTube(t: TubeTable, x: number, h: number, xe: number): number {
  const u = Math.min(PRESSURES - 1.000001, Math.max(0, (x - t.x0) / t.dx));
  const i = Math.floor(u);
  const b = Math.min(33.99, Math.max(-39.99, below(t.fluid, x, h)));
  let j = 0;
  while ((INLETS[j + 1] ?? Infinity) <= b) j++;
  const [b0, b1] = [INLETS[j] ?? 0, INLETS[j + 1] ?? 1];
  const w = (b - b0) / (b1 - b0);
  const read = (table: number[][]) => {
    const row = (r: number) => (1 - w) * (table[r]?.[j] ?? NaN) + w * (table[r]?.[j + 1] ?? NaN);
    return (1 - (u - i)) * row(i) + (u - i) * row(i + 1);
  };
  // Below the lowest row flow goes with about the 1.2 power of pressure.
  const flow = Math.exp(read(t.flow) + (x < t.x0 ? 1.2 * (x - t.x0) : 0));
  const choke = Math.exp(Math.min(read(t.end), x - 0.05));
  const suction = Math.exp(xe);
  if (suction <= choke) return flow;
  const part = Math.min(0.999, (suction - choke) / (Math.exp(x) - choke));
  return flow * Math.sqrt(Math.max(1e-4, 1 - part * part));
}
