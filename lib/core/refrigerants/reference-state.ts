import type { Helmholtz } from './models/helmholtz';

/** Sets the offsets so that saturated liquid at 0 °C has h = 200 kJ/kg and s = 1 kJ/(kg·K) (IIR). */
export function applyIirReference(model: Helmholtz, liquidDensityAt0C: number): void {
  const state = model.state(273.15, liquidDensityAt0C);
  model.enthalpyOffset += 200e3 - state.h;
  model.entropyOffset += 1e3 - state.s;
}
