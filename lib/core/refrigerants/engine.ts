import type { FluidEquation } from './models/equation';
import { Helmholtz } from './models/helmholtz';
import { Surface } from './models/surface';
import { MIXTURE_R } from './models/gas-constant';
import { TableCurves } from './tables/curves';
import type { BlendTables, RefrigerantTables } from './tables/format';
import type { State } from './types';

/** The saturation curves of one refrigerant. Temperatures K, pressures Pa, densities kg/m³; NaN where there is none. */
export type Curves = {
  bubblePressure(T: number): number;
  dewPressure(T: number): number;
  bubbleTemperature(p: number): number;
  dewTemperature(p: number): number;
  liquidDensity(T: number): number;
  /** Liquid at the bubble point, vapour at the dew point, both at the overall composition. */
  saturatedLiquid(T: number): State;
  saturatedVapour(T: number): State;
};

export type Limits = {
  /** K: lowest temperature, highest saturation temperature, highest vapour temperature served. */
  minT: number;
  maxSaturationT: number;
  maxT: number;
  /** Pa: ends of the bubble and of the dew curve. */
  bubbleP: readonly [number, number];
  dewP: readonly [number, number];
  /** Pa: highest liquid pressure. */
  maxP: number;
  /** K */
  criticalT: number;
};

/** All that the public functions need of one refrigerant. */
export type Engine = { id: string; limits: Limits; curves: Curves; vapour: Helmholtz; liquid: Helmholtz };

/**
 * What is loaded for a refrigerant: its tables as JSON text, parsed when first needed, and for pure and pseudo-pure
 * fluids the published equation.
 */
export type RefrigerantData = { id: string; tables: string; equation?: FluidEquation };

/**
 * Gas is served a little past the temperature that the authors tested to: there the ideal-gas part governs, and the
 * discharge of R-32 at a high lift comes within a few kelvin of its published limit.
 */
const GAS_EXTRAPOLATION = 1.05;

const loaded = new Map<string, RefrigerantData>();
const engines = new Map<string, Engine>();

/** Makes a refrigerant available. Nothing is prepared until it is first asked for. */
export function register(data: RefrigerantData): void {
  loaded.set(data.id, data);
}

export function isRegistered(id: string): boolean {
  return loaded.has(id);
}

export function engineOf(id: string): Engine | undefined {
  return engines.get(id) ?? prepare(id);
}

function prepare(id: string): Engine | undefined {
  const data = loaded.get(id);
  if (!data) return undefined;
  const engine = buildEngine(JSON.parse(data.tables) as RefrigerantTables, data.equation);
  engines.set(id, engine);
  return engine;
}

export function buildEngine(tables: RefrigerantTables, equation?: FluidEquation): Engine {
  const { saturation, blend } = tables;
  const curves = new TableCurves(saturation);
  const { minT, maxT } = saturation;
  const models = equation ? oneModel(equation) : blend ? blendModels(blend) : undefined;
  if (!models) throw new Error(`${tables.id} has neither an equation nor blend tables`);
  for (const model of [models.vapour, models.liquid]) {
    model.enthalpyOffset = saturation.offsets.h;
    model.entropyOffset = saturation.offsets.s;
  }
  return {
    id: tables.id,
    curves,
    ...models,
    limits: {
      minT,
      maxSaturationT: maxT,
      maxT: equation ? equation.range.maxT * GAS_EXTRAPOLATION : blend!.maxT,
      bubbleP: [curves.bubblePressure(minT), curves.bubblePressure(maxT)],
      dewP: [curves.dewPressure(minT), curves.dewPressure(maxT)],
      maxP: equation ? equation.range.maxP : blend!.maxP,
      criticalT: saturation.critical.T,
    },
  };
}

function oneModel(equation: FluidEquation) {
  const model = new Helmholtz(equation);
  return { vapour: model, liquid: model };
}

function blendModels(blend: BlendTables) {
  const parts = { ...blend, gasConstant: MIXTURE_R };
  return {
    vapour: new Helmholtz(parts, new Surface(blend.vapour)),
    liquid: new Helmholtz(parts, new Surface(blend.liquid)),
  };
}
