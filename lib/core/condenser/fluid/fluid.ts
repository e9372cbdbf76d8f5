import {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  isFailure,
  liquid,
  saturatedLiquid,
  saturatedVapour,
  vapour,
  vapourAtEntropy,
  type Result,
  type State,
} from '../../refrigerants/api';

/**
 * One refrigerant as plain functions, NaN where the properties room has no number: a solver can then walk into
 * forbidden ground and back. Nothing NaN leaves this room; every answer is checked before it is handed out.
 */
export type Fluid = {
  id: string;
  bubbleP(T: number): number;
  dewP(T: number): number;
  bubbleT(p: number): number;
  dewT(p: number): number;
  gas(T: number, p: number): State;
  compressed(p: number, s: number): State;
  /** Enthalpy of liquid at T and p; saturated where T is at or above the bubble temperature. */
  liquidH(T: number, p: number): number;
};

const NOTHING: State = { T: NaN, p: NaN, rho: NaN, h: NaN, s: NaN, cp: NaN };
const number = (x: Result<number>) => (isFailure(x) ? NaN : x);
const state = (x: Result<State>) => (isFailure(x) ? NOTHING : x);

/** Superheat below this is taken as saturated vapour: rounding must not turn it into a wet state. */
const NEARLY_DRY_K = 0.02;

export function fluidOf(id: string): Fluid {
  return {
    id,
    bubbleP: (T) => number(bubblePressure(id, T)),
    dewP: (T) => number(dewPressure(id, T)),
    bubbleT: (p) => number(bubbleTemperature(id, p)),
    dewT: (p) => number(dewTemperature(id, p)),
    gas(T, p) {
      const dew = number(dewTemperature(id, p));
      return T < dew + NEARLY_DRY_K ? state(saturatedVapour(id, dew)) : state(vapour(id, { T, p }));
    },
    compressed: (p, s) => state(vapourAtEntropy(id, { p, s })),
    liquidH(T, p) {
      const bubble = number(bubbleTemperature(id, p));
      return T < bubble - NEARLY_DRY_K ? state(liquid(id, { T, p })).h : state(saturatedLiquid(id, bubble)).h;
    },
  };
}

/** Mean of bubble and dew temperature at a pressure: what the air side sees. */
export function meanT(fluid: Fluid, p: number): number {
  return (fluid.bubbleT(p) + fluid.dewT(p)) / 2;
}

/** Dew temperature of the pressure at which bubble and dew average to T. Glide changes slowly, so few steps do. */
export function dewFromMean(fluid: Fluid, T: number): number {
  let dew = T;
  for (let i = 0; i < 30; i++) {
    const miss = T - meanT(fluid, fluid.dewP(dew));
    dew += miss;
    if (!(Math.abs(miss) > 1e-10)) break;
  }
  return dew;
}
