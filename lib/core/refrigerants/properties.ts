import { engineOf, type Engine, type Limits } from './engine';
import { densityFrom, gasDensity } from './solvers/density';
import { temperatureAtEntropy } from './solvers/entropy';
import type { Helmholtz } from './models/helmholtz';
import { failure, type PropertyFailure, type Result, type State } from './types';

/** How far past the saturation line a state may lie and still count as on it: rounding, not physics. */
const ON_THE_LINE = 1e-6;
/** Below this mass fraction of vapour a state is no vapour to speak of. */
const LEAST_QUALITY = 0.8;

function unknown(id: string): PropertyFailure {
  return failure('unknown_refrigerant', `No property data for ${id}`);
}

function saturationFault(engine: Engine, T: number): PropertyFailure {
  const { minT, maxSaturationT, criticalT } = engine.limits;
  if (T > maxSaturationT) return failure('above_critical', `${engine.id} has no saturation at ${T} K (critical ${criticalT.toFixed(2)} K)`);
  return failure('out_of_range', `${T} K is below ${minT} K, the lowest for ${engine.id}`);
}

function hasSaturation({ limits }: Engine, T: number): boolean {
  return T >= limits.minT && T <= limits.maxSaturationT;
}

/** Pressure (Pa) at which liquid at T (K) begins to boil. */
export function bubblePressure(id: string, T: number): Result<number> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return hasSaturation(engine, T) ? engine.curves.bubblePressure(T) : saturationFault(engine, T);
}

/** Pressure (Pa) at which vapour at T (K) begins to condense. */
export function dewPressure(id: string, T: number): Result<number> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return hasSaturation(engine, T) ? engine.curves.dewPressure(T) : saturationFault(engine, T);
}

function pressureFault(id: string, p: number, ends: readonly [number, number]): PropertyFailure | undefined {
  if (p >= ends[0] * (1 - 1e-9) && p <= ends[1] * (1 + 1e-9)) return undefined;
  if (p > ends[1]) return failure('above_critical', `${id} does not condense at ${p} Pa`);
  return failure('out_of_range', `${p} Pa is below ${Math.ceil(ends[0])} Pa, the lowest for ${id}`);
}

/** Temperature (K) at which liquid at p (Pa) begins to boil. */
export function bubbleTemperature(id: string, p: number): Result<number> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return pressureFault(id, p, engine.limits.bubbleP) ?? engine.curves.bubbleTemperature(p);
}

/** Temperature (K) at which vapour at p (Pa) begins to condense. */
export function dewTemperature(id: string, p: number): Result<number> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return pressureFault(id, p, engine.limits.dewP) ?? engine.curves.dewTemperature(p);
}

/** Liquid at its bubble point at T (K). */
export function saturatedLiquid(id: string, T: number): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return hasSaturation(engine, T) ? engine.curves.saturatedLiquid(T) : saturationFault(engine, T);
}

/** Vapour at its dew point at T (K). */
export function saturatedVapour(id: string, T: number): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  return hasSaturation(engine, T) ? engine.curves.saturatedVapour(T) : saturationFault(engine, T);
}

function stateAt(engine: Engine, model: Helmholtz, T: number, rho: number, p: number): Result<State> {
  if (!(rho > 0)) return failure('not_converged', `${engine.id}: no density found at ${T} K and ${p} Pa`);
  const state = model.state(T, rho);
  state.p = p;
  return state;
}

/** Superheated or saturated vapour at T (K) and p (Pa). Above the critical pressure there is none: a status. */
export function vapour(id: string, at: { T: number; p: number }): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const { T, p } = at;
  const { minT, maxT, dewP, maxSaturationT } = engine.limits;
  if (!(T >= minT && T <= maxT && p > 0)) return failure('out_of_range', `${id} vapour is served from ${minT} to ${maxT.toFixed(1)} K`);
  if (p > dewP[1] * (1 + ON_THE_LINE)) return failure('above_critical', `${p} Pa is above the highest dew pressure of ${id}`);
  if (T <= maxSaturationT && p > engine.curves.dewPressure(T) * (1 + ON_THE_LINE))
    return failure('wrong_phase', `${id} is not vapour at ${T} K and ${p} Pa`);
  return stateAt(engine, engine.vapour, T, gasDensity(engine.vapour, T, p), p);
}

/** Subcooled or saturated liquid at T (K) and p (Pa). */
export function liquid(id: string, at: { T: number; p: number }): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const { T, p } = at;
  if (!hasSaturation(engine, T)) return saturationFault(engine, T);
  if (!(p > 0 && p <= engine.limits.maxP)) return failure('out_of_range', `${id} liquid is served up to ${engine.limits.maxP} Pa`);
  if (p < engine.curves.bubblePressure(T) * (1 - ON_THE_LINE)) return failure('wrong_phase', `${id} is not liquid at ${T} K and ${p} Pa`);
  return stateAt(engine, engine.liquid, T, densityFrom(engine.liquid, T, p, engine.curves.liquidDensity(T)), p);
}

/**
 * Vapour at p (Pa) with the entropy s (J/(kg·K)): the end of an isentropic compression. Refrigerants whose dew line
 * leans over can end slightly wet; the state then carries its `quality`. Wetter than 0.8 is a status.
 */
export function vapourAtEntropy(id: string, at: { p: number; s: number }): Result<State> {
  const engine = engineOf(id);
  if (!engine) return unknown(id);
  const { p, s } = at;
  const fault = pressureFault(id, p, engine.limits.dewP);
  if (fault) return fault;
  const dew = engine.curves.saturatedVapour(engine.curves.dewTemperature(p));
  if (!(s >= dew.s)) return wetState(engine, dew, s);
  const end = temperatureAtEntropy(engine.vapour, p, s, dew);
  if (!end) return failure('not_converged', `${id}: no vapour with ${s} J/(kg·K) found at ${p} Pa`);
  const { maxT } = engine.limits;
  if (end.T > maxT) return failure('out_of_range', `${id} would be at ${Math.round(end.T)} K, beyond its ${Math.round(maxT)} K`);
  return stateAt(engine, engine.vapour, end.T, end.rho, p);
}

/**
 * Between dew and bubble point at the pressure of the dew state. Along an isobar dh = T·ds; T is constant for a pure
 * fluid and taken as linear in s across a blend's glide: at quality 0.9 that is 0.3 K and 0.02 kJ/kg off for R-455A,
 * whose glide is the widest here (against a full flash of the mixture model).
 */
function wetState(engine: Engine, dew: State, s: number): Result<State> {
  const { limits, curves } = engine;
  const { p } = dew;
  const dry = failure('wrong_phase', `${engine.id} is not dry vapour at ${Math.round(p)} Pa and ${s.toFixed(1)} J/(kg·K)`);
  if (p < limits.bubbleP[0] || p > limits.bubbleP[1]) return dry;
  const bubble = curves.saturatedLiquid(curves.bubbleTemperature(p));
  const quality = 1 - (dew.s - s) / (dew.s - bubble.s);
  if (!(quality >= LEAST_QUALITY)) return dry;
  const T = dew.T - (dew.T - bubble.T) * (1 - quality);
  const h = dew.h - ((dew.T + T) / 2) * (dew.s - s);
  const rho = 1 / (quality / dew.rho + (1 - quality) / bubble.rho);
  return { T, p, rho, h, s, cp: Infinity, quality };
}

/** Mean of bubble and dew temperature (K) at p (Pa): a mid-coil estimate for glide blends, no phase boundary. */
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

/** Where a refrigerant is served: temperatures K, pressures Pa. */
export function rangeOf(id: string): Result<Limits> {
  return engineOf(id)?.limits ?? unknown(id);
}
