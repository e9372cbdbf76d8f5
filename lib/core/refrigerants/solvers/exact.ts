import { ancillaryValue } from '../models/ancillary';
import type { FluidEquation } from '../models/equation';
import { Helmholtz } from '../models/helmholtz';
import { Mixture } from '../models/mixture';
import { boundaryPoint, firstGuess, type Branch } from './bubble-dew';
import { densityFrom } from './density';
import { pureSaturation } from './pure-saturation';
import { Tracer } from './tracer';

/** One end of the tie line at T: pressure (Pa) and density (kg/m³) of the phase with the overall composition. */
export type Boundary = { p: number; rho: number };

/** Saturation solved from the equations themselves at every call: the truth that the tables are made from. */
export type ExactSaturation = {
  model: Helmholtz;
  bubble(T: number): Boundary | undefined;
  dew(T: number): Boundary | undefined;
  /** Critical point (K, Pa) and the temperature (K) where the two-phase region ends. */
  critical: { T: number; p: number };
  anchor: number;
};

const START_T = 273.15;

export function exactPure(eq: FluidEquation): ExactSaturation {
  const model = new Helmholtz(eq);
  const guess = (T: number) =>
    Float64Array.of(ancillaryValue(eq.ancillaries.rhoL, T) * eq.molarMass, ancillaryValue(eq.ancillaries.rhoV, T) * eq.molarMass);
  const tracer = new Tracer(
    (T, start) => {
      const point = pureSaturation(model, T, start[0]!, start[1]!);
      return point.status === 'converged' ? Float64Array.of(point.rhoL, point.rhoV) : undefined;
    },
    { T: START_T, values: guess(START_T) },
  );
  const anchor = pureCritical(tracer);
  const at = (phase: 0 | 1) => (T: number) => {
    const values = tracer.at(T);
    return values && { p: model.pressure(T, values[1]!), rho: values[phase]! };
  };
  const dew = at(1);
  // The last millikelvin of the pressure is extrapolated along its own slope.
  const [a, b] = [dew(anchor - 0.04)!.p, dew(anchor - 0.02)!.p];
  return { model, bubble: at(0), dew, anchor, critical: { T: anchor, p: b + (b - a) } };
}

/** Where the densities meet: near it (ρ_L − ρ_V)² falls linearly with T. */
function pureCritical(tracer: Tracer): number {
  const gap = (T: number) => {
    const values = tracer.at(T)!;
    return (values[0]! - values[1]!) ** 2;
  };
  const top = tracer.highest(1e-3).T;
  const [f, n] = [gap(top - 0.02), gap(top - 0.01)];
  return top - 0.01 + (n * 0.01) / (f - n);
}

export function exactPseudoPure(eq: FluidEquation): ExactSaturation {
  const model = new Helmholtz(eq);
  const { bubbleP, dewP, rhoL, rhoV } = eq.ancillaries;
  if (!bubbleP || !dewP) throw new Error(`${eq.id} has no published bubble and dew pressures`);
  const branch = (pressure: typeof bubbleP, start: typeof rhoL) => (T: number) => {
    const p = ancillaryValue(pressure, T);
    const rho = densityFrom(model, T, p, ancillaryValue(start, T) * eq.molarMass);
    return rho > 0 ? { p, rho } : undefined;
  };
  return {
    model,
    bubble: branch(bubbleP, rhoL),
    dew: branch(dewP, rhoV),
    anchor: eq.critical.T,
    critical: { T: eq.critical.T, p: eq.critical.p },
  };
}

export function exactBlend(components: readonly FluidEquation[], z: Float64Array): ExactSaturation {
  const mixture = new Mixture(components);
  const model = new Helmholtz(mixture.atComposition(z));
  const M = mixture.molarMass(z);
  const trace = (branch: Branch) => {
    const pack = (p: { rhoL: number; rhoV: number; other: Float64Array }) => Float64Array.of(p.rhoL, p.rhoV, ...p.other);
    return new Tracer(
      (T, v) => {
        const start = { rhoL: v[0]!, rhoV: v[1]!, other: v.slice(2) };
        const point = boundaryPoint(mixture, z, branch, T, start);
        return point.status === 'converged' ? pack(point) : undefined;
      },
      { T: START_T, values: pack(firstGuess(mixture, z, branch, START_T)) },
    );
  };
  const [bubbles, dews] = [trace('bubble'), trace('dew')];
  const read = (tracer: Tracer, index: 0 | 1) => (T: number) => {
    const values = tracer.at(T);
    if (!values) return undefined;
    const rho = values[index]! * M;
    return { p: model.pressure(T, rho), rho };
  };
  // The bubble curve is followed to where both phases become one, the dew curve to the highest two-phase temperature.
  const top = bubbles.highest(1e-4);
  const hottest = dews.highest(1e-4);
  const critical = { T: top.T, p: model.pressure(top.T, top.values[0]! * M) };
  return { model, bubble: read(bubbles, 0), dew: read(dews, 1), critical, anchor: Math.max(top.T, hottest.T) };
}
