import { REFRIGERANTS } from './catalogue';
import { EQUATIONS } from './data/equations';
import type { FluidEquation } from './models/equation';
import { exactBlend, exactPseudoPure, exactPure, type ExactSaturation } from './solvers/exact';

/** Equations and mole fractions of a blend, from its nominal composition by mass. */
export function componentsOf(id: string): { components: FluidEquation[]; z: Float64Array } {
  const shares = Object.entries(REFRIGERANTS[id]?.composition ?? {});
  const components = shares.map(([part]) => EQUATIONS[part]!);
  const moles = shares.map(([, share], i) => share / components[i]!.molarMass);
  const total = moles.reduce((sum, n) => sum + n, 0);
  return { components, z: Float64Array.from(moles, (n) => n / total) };
}

/** The full iterative solution for a refrigerant, without tables: for making and checking them, not for the app. */
export function exactSaturation(id: string): ExactSaturation {
  const info = REFRIGERANTS[id];
  if (!info) throw new Error(`Unknown refrigerant ${id}`);
  if (info.kind === 'blend') {
    const { components, z } = componentsOf(id);
    return exactBlend(components, z);
  }
  const equation = EQUATIONS[id]!;
  return info.kind === 'pure' ? exactPure(equation) : exactPseudoPure(equation);
}
