import { engineOf, type Engine } from './engine';
import { densityFrom, gasStart } from './solvers/density';
import { temperatureAtEntropy } from './solvers/entropy';
import { failure, type PropertyFailure, type Result, type State } from './types';

/** How far past the saturation line a state may lie and still count as on it: rounding, not physics. */
const ON_THE_LINE = 1e-6;

function unknown(id: string): PropertyFailure {
  return failure('unknown_refrigerant', `No property data for ${id}`);
}

function saturationRange(engine: Engine, T: number): PropertyFailure | undefined {
  const { minT, maxSaturationT, criticalT } = engine.limits;
  if (T >= minT && T <= maxSaturationT) return undefined;
  if (T > maxSaturationT)
    return failure('above_critical', `${engine.id} has no saturation at ${T} K (critical ${criticalT} K)`);
  return failure('out_of_range', `${T} K is below ${minT} K, the lowest for ${engine.id}`);
}

function curve(id: string, T: number, read: (engine: Engine) => number): Result<number> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return saturationRange(engine, T) ?? settled(id, read(engine));
}

function settled(id: string, x: number): Result<number> {
  return Number.isFinite(x) ? x : failure('not_converged', `${id}: no solution found`);
}

/** Pressure (Pa) at which liquid at T (K) begins to boil. */
export function bubblePressure(id: string, T: number): Result<number> {
  return curve(id, T, (engine) => engine.curves.bubblePressure(T));
}

/** Pressure (Pa) at which vapour at T (K) begins to condense. */
export function dewPressure(id: string, T: number): Result<number> {
  return curve(id, T, (engine) => engine.curves.dewPressure(T));
}

function inverse(id: string, p: number, branch: 'bubble' | 'dew'): Result<number> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const { minT, maxSaturationT } = engine.limits;
  const { curves } = engine;
  const pressure = branch === 'bubble' ? curves.bubblePressure : curves.dewPressure;
  if (!(p >= pressure(minT) * (1 - 1e-12)))
    return failure('out_of_range', `${p} Pa is below the lowest ${branch} pressure served for ${id}`);
  if (p > pressure(maxSaturationT)) return failure('above_critical', `${id} does not condense at ${p} Pa`);
  return settled(id, branch === 'bubble' ? curves.bubbleTemperature(p) : curves.dewTemperature(p));
}

/** Temperature (K) at which liquid at p (Pa) begins to boil. */
export function bubbleTemperature(id: string, p: number): Result<number> {
  return inverse(id, p, 'bubble');
}

/** Temperature (K) at which vapour at p (Pa) begins to condense. */
export function dewTemperature(id: string, p: number): Result<number> {
  return inverse(id, p, 'dew');
}

/** Liquid at its bubble point at T (K). */
export function saturatedLiquid(id: string, T: number): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return (
    saturationRange(engine, T) ?? stateAt(engine, T, engine.curves.liquidDensity(T), engine.curves.bubblePressure(T))
  );
}

/** Vapour at its dew point at T (K). */
export function saturatedVapour(id: string, T: number): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return saturationRange(engine, T) ?? stateAt(engine, T, engine.curves.vapourDensity(T), engine.curves.dewPressure(T));
}

function stateAt(engine: Engine, T: number, rho: number, p: number): Result<State> {
  if (!(rho > 0) || !(p > 0)) return failure('not_converged', `${engine.id}: no density found at ${T} K`);
  const state = engine.model.state(T, rho);
  state.p = p;
  return state;
}

/** Superheated or saturated vapour at T (K) and p (Pa). */
export function vapour(id: string, at: { T: number; p: number }): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const { T, p } = at;
  const { minT, maxT, criticalP, maxSaturationT } = engine.limits;
  if (!(T >= minT && T <= maxT && p > 0))
    return failure('out_of_range', `${id} vapour is served from ${minT} to ${maxT} K`);
  if (p >= criticalP) return failure('above_critical', `${p} Pa is above the critical pressure of ${id}`);
  if (T <= maxSaturationT && p > engine.curves.dewPressure(T) * (1 + ON_THE_LINE))
    return failure('wrong_phase', `${id} is not vapour at ${T} K and ${p} Pa`);
  return stateAt(engine, T, densityFrom(engine.model, T, p, gasStart(engine.model, T, p)), p);
}

/** Subcooled or saturated liquid at T (K) and p (Pa). */
export function liquid(id: string, at: { T: number; p: number }): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const { T, p } = at;
  const outside = saturationRange(engine, T);
  if (outside) return outside;
  if (!(p > 0 && p <= engine.limits.maxP)) return failure('out_of_range', `${p} Pa is outside the range for ${id}`);
  if (p < engine.curves.bubblePressure(T) * (1 - ON_THE_LINE))
    return failure('wrong_phase', `${id} is not liquid at ${T} K and ${p} Pa`);
  return stateAt(engine, T, densityFrom(engine.model, T, p, engine.curves.liquidDensity(T)), p);
}

/** Vapour at p (Pa) with the entropy s (J/(kg·K)): the end of an isentropic compression. */
export function vapourAtEntropy(id: string, at: { p: number; s: number }): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const dew = dewTemperature(id, at.p);
  if (typeof dew !== 'number') return dew;
  const rho = engine.curves.vapourDensity(dew);
  const start = stateAt(engine, dew, rho, at.p);
  if (!('s' in start)) return start;
  const over = at.s - start.s;
  if (!(over >= -ON_THE_LINE * 1000))
    return failure('wrong_phase', `${id} is not dry vapour at ${at.p} Pa and this entropy`);
  const end = temperatureAtEntropy(engine.model, at.p, at.s, start);
  if (!end) return failure('not_converged', `${id}: no vapour with this entropy found at ${at.p} Pa`);
  if (end.T > engine.limits.maxT)
    return failure(
      'out_of_range',
      `${id} would reach ${Math.round(end.T)} K, beyond its range of ${engine.limits.maxT} K`,
    );
  return stateAt(engine, end.T, end.rho, at.p);
}

/** Mean of bubble and dew temperature (K) at p (Pa). Neither phase boundary: only for glide blends' mid-coil estimates. */
export function midpointTemperature(id: string, p: number): Result<number> {
  const bubble = bubbleTemperature(id, p);
  const dew = dewTemperature(id, p);
  if (typeof bubble !== 'number') return bubble;
  return typeof dew === 'number' ? (bubble + dew) / 2 : dew;
}

/** Dew minus bubble temperature (K) at p (Pa). */
export function glide(id: string, p: number): Result<number> {
  const bubble = bubbleTemperature(id, p);
  const dew = dewTemperature(id, p);
  if (typeof bubble !== 'number') return bubble;
  return typeof dew === 'number' ? dew - bubble : dew;
}
