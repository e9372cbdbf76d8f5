import type { Ancillary } from './equation';

/** Value of an ancillary equation at T (K); NaN above its reducing temperature. */
export function ancillaryValue(a: Ancillary, T: number): number {
  const theta = 1 - T / a.Tr;
  if (!(theta >= 0)) return NaN;
  let sum = 0;
  for (let i = 0; i < a.n.length; i++) sum += a.n[i]! * Math.pow(theta, a.t[i]!);
  if (a.overT) sum *= a.Tr / T;
  return a.scale * (a.exponential ? Math.exp(sum) : 1 + sum);
}
