import { combine, Z80 } from '../bands';
import type { Conductances } from './consequences';
import { evaporatingFor } from '../machine/evaporator';
import { meanT } from '../fluid/fluid';
import { dewCycle, type UnitModel } from '../machine/model';
import type { NowAndClean } from '../types';

/** A pressure switch opens within a few percent of its mark (common practice, from memory). */
const SWITCH_SD = 0.02;
/** Heat rejected at the cut-out, one standard deviation of its logarithm. */
const DUTY_SD = 0.07;

/**
 * Air at the coil inlet at which head reaches the cut-out: at that head the box settles the evaporator, which gives
 * the heat to shed, and air = condensing − heat/K. Null where the cut-out lies outside the computable range.
 */
export function cutoutAir(model: UnitModel, k: Conductances, boxK: number, cutoutPaGauge: number): NowAndClean | null {
  const at = (pGauge: number) => {
    const p = pGauge + model.atmospherePa;
    const tc = model.fluid.dewT(p);
    if (!(tc < model.ceilingK + 3)) return null;
    const heat = dewCycle(model, evaporatingFor(model, boxK, tc, undefined, 1e-5), tc).heatRejected;
    return Number.isFinite(heat) ? { condensingK: meanT(model.fluid, p), heat } : null;
  };
  const mark = at(cutoutPaGauge);
  if (!mark) return null;
  const shift = meanT(model.fluid, cutoutPaGauge * (1 + SWITCH_SD) + model.atmospherePa) - mark.condensingK;
  const air = (lnK: number) => mark.condensingK - mark.heat / Math.exp(lnK);
  const one = (s: { value: number; down: number; up: number }) => {
    const value = air(s.value);
    const duty = Z80 * DUTY_SD * (mark.heat / Math.exp(s.value));
    return combine(value, [
      [air(s.value + s.up), air(s.value - s.down)],
      [value + duty, value - duty],
      [value + Z80 * shift, value - Z80 * shift],
    ]);
  };
  return { now: one(k.nowByRise), clean: one(k.clean) };
}
