import { rangeOf, saturatedLiquid, saturatedVapour } from './properties';
import { isFailure, unwrap, type Result, type State } from './types';

/**
 * The saturation dome for a pressure–enthalpy picture: liquid states rising from `fromT` (K) to near the critical
 * point, vapour states falling back. Points crowd towards the top, where the dome bends.
 */
export function saturationDome(id: string, fromT: number, points = 40): Result<{ liquid: State[]; vapour: State[] }> {
  const range = rangeOf(id);
  if (isFailure(range)) return range;
  const first = saturatedLiquid(id, fromT);
  if (isFailure(first)) return first;
  const temperatures = Array.from({ length: points }, (_, i) => {
    const share = 1 - i / (points - 1);
    return range.maxSaturationT - (range.maxSaturationT - fromT) * share * share;
  });
  return {
    liquid: temperatures.map((T) => unwrap(saturatedLiquid(id, T))),
    vapour: temperatures.map((T) => unwrap(saturatedVapour(id, T))).reverse(),
  };
}
