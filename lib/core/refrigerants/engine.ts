import type { Helmholtz } from './models/helmholtz';

/** The saturation curves of one refrigerant. Temperatures K, pressures Pa, densities kg/m³; NaN where there is none. */
export type Curves = {
  bubblePressure(T: number): number;
  dewPressure(T: number): number;
  bubbleTemperature(p: number): number;
  dewTemperature(p: number): number;
  /** Saturated liquid at the bubble point, saturated vapour at the dew point, both at the overall composition. */
  liquidDensity(T: number): number;
  vapourDensity(T: number): number;
};

export type Limits = {
  /** K: lowest temperature, highest saturation temperature served, highest vapour temperature. */
  minT: number;
  maxSaturationT: number;
  maxT: number;
  /** K and Pa */
  criticalT: number;
  criticalP: number;
  /** Pa */
  maxP: number;
};

/** All that the public functions need of one refrigerant. */
export type Engine = { id: string; limits: Limits; curves: Curves; model: Helmholtz };

const builders = new Map<string, () => Engine>();
const engines = new Map<string, Engine>();

/** Makes a refrigerant available. Nothing is computed until it is first asked for. */
export function register(id: string, build: () => Engine): void {
  if (!builders.has(id)) builders.set(id, build);
}

export function isRegistered(id: string): boolean {
  return builders.has(id);
}

export function engineOf(id: string): Engine | undefined {
  const ready = engines.get(id);
  if (ready) return ready;
  const build = builders.get(id);
  if (!build) return undefined;
  const engine = build();
  engines.set(id, engine);
  return engine;
}
