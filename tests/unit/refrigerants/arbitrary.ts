import fc from 'fast-check';
import { engineOf } from '@/lib/core/refrigerants/engine';
import '@/lib/core/refrigerants';

export type Point = { id: string; T: number };

/** A refrigerant and a temperature (K) between its coldest and `below` K under the end of its saturation curve. */
export function saturationPoint(ids: readonly string[], below: number): fc.Arbitrary<Point> {
  return fc.constantFrom(...ids).chain((id) => {
    const { minT, maxSaturationT } = engineOf(id)!.limits;
    return fc.double({ min: minT, max: maxSaturationT - below, noNaN: true }).map((T) => ({ id, T }));
  });
}

/** The same runs every time: a failure is a finding, not luck. */
export const RUNS = { numRuns: 300, seed: 20251125 } as const;
