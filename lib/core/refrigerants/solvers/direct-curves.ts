import type { Curves } from '../engine';
import { ancillaryValue } from '../models/ancillary';
import type { FluidEquation } from '../models/equation';
import type { Helmholtz } from '../models/helmholtz';
import { densityFrom } from './density';
import { pureSaturation } from './pure-saturation';

/** Saturation curves straight from the equation of state, iterating at every call. */
export function directCurves(eq: FluidEquation, model: Helmholtz): Curves {
  const startL = (T: number) => ancillaryValue(eq.ancillaries.rhoL, T) * eq.molarMass;
  const startV = (T: number) => ancillaryValue(eq.ancillaries.rhoV, T) * eq.molarMass;
  const { bubbleP, dewP } = eq.ancillaries;
  if (bubbleP && dewP) {
    const bubble = (T: number) => ancillaryValue(bubbleP, T);
    const dew = (T: number) => ancillaryValue(dewP, T);
    return {
      bubblePressure: bubble,
      dewPressure: dew,
      bubbleTemperature: (p) => invert(bubble, p, eq),
      dewTemperature: (p) => invert(dew, p, eq),
      liquidDensity: (T) => densityFrom(model, T, bubble(T), startL(T)),
      vapourDensity: (T) => densityFrom(model, T, dew(T), startV(T)),
    };
  }
  const point = (T: number) => pureSaturation(model, T, startL(T), startV(T));
  const pressure = (T: number) => numberOf(point(T), 'p');
  return {
    bubblePressure: pressure,
    dewPressure: pressure,
    bubbleTemperature: (p) => invert(pressure, p, eq),
    dewTemperature: (p) => invert(pressure, p, eq),
    liquidDensity: (T) => numberOf(point(T), 'rhoL'),
    vapourDensity: (T) => numberOf(point(T), 'rhoV'),
  };
}

function numberOf(point: ReturnType<typeof pureSaturation>, key: 'p' | 'rhoL' | 'rhoV'): number {
  return point.status === 'converged' ? point[key] : NaN;
}

/** T where pressure(T) = p: secant steps in ln p against 1/T, where the curve is nearly straight. */
function invert(pressure: (T: number) => number, p: number, eq: FluidEquation): number {
  const { critical, range } = eq;
  const target = Math.log(p);
  const clamp = (T: number) => Math.min(critical.T * (1 - 1e-9), Math.max(range.minT, T));
  let a = critical.T * 0.98;
  let b = clamp(critical.T / (1 - (target - Math.log(critical.p)) / 7));
  if (Math.abs(a - b) < 1e-3) b = critical.T * 0.95;
  let fa = Math.log(pressure(a)) - target;
  for (let i = 0; i < 60; i++) {
    const fb = Math.log(pressure(b)) - target;
    if (Math.abs(fb) < 1e-13) return b;
    const next = clamp(1 / (1 / b - (fb * (1 / b - 1 / a)) / (fb - fa)));
    if (Number.isNaN(next)) return NaN;
    if (Math.abs(next - b) < 1e-12 * b) return next;
    a = b;
    fa = fb;
    b = next;
  }
  return NaN;
}
