import { REFRIGERANTS } from '../../lib/core/refrigerants/catalogue';
import { EQUATIONS } from '../../lib/core/refrigerants/data/equations';
import { componentsOf, exactSaturation } from '../../lib/core/refrigerants/exact';
import { Mixture } from '../../lib/core/refrigerants/models/mixture';
import type { ExactSaturation } from '../../lib/core/refrigerants/solvers/exact';
import { buildSaturation } from './build';
import { buildLiquidSurface, buildVapourSurface } from './build-surface';
import type { BlendTables, RefrigerantTables } from '../../lib/core/refrigerants/tables/format';

/** Nothing in a kitchen evaporates below this, K. */
const LOWEST_PURE = 173.15;
const LOWEST_BLEND = 200;
/** Highest liquid pressure of a blend, Pa, and the error allowed in αʳ. */
const BLEND_MAX_P = 8e6;
const SURFACE_TOLERANCE = 1e-10;
/** Where patches meet, in K from the end of the saturation tables: narrow where the critical point is near. */
const VAPOUR_CUTS = [2, -8, -30, -75];
const LIQUID_CUTS = [-8, -30, -75];
/** As for pure fluids: gas is served a little past the components' published limit. */
const GAS_EXTRAPOLATION = 1.05;

/** K below the critical temperature where the tables end; wider where a curve turns back or an equation has no root. */
function marginOf(id: string): number {
  if (id === 'R455A') return 1;
  if (id === 'R410A') return 0.8;
  if (id === 'R744') return 0.1;
  return REFRIGERANTS[id]!.kind === 'pure' ? 0.05 : 0.3;
}

/** All expansions of a refrigerant, solved anew from the published equations. */
export function buildTables(id: string): RefrigerantTables {
  const exact = exactSaturation(id);
  const pure = REFRIGERANTS[id]!.kind === 'pure';
  const equation = EQUATIONS[id];
  if (equation) {
    const minT = Math.max(equation.range.minT, pure ? LOWEST_PURE : LOWEST_BLEND);
    const saturation = buildSaturation(exact, { minT, margin: marginOf(id), pure });
    const { T, p } = equation.critical;
    return { id, saturation: { ...saturation, critical: { T, p } } };
  }
  const { components } = componentsOf(id);
  const minT = Math.max(LOWEST_BLEND, ...components.map((c) => c.range.minT));
  const saturation = buildSaturation(exact, { minT, margin: marginOf(id), pure: false });
  return { id, saturation, blend: blendTables(id, exact, minT, saturation.maxT) };
}

function blendTables(id: string, exact: ExactSaturation, minT: number, maxSaturationT: number): BlendTables {
  const { components, z } = componentsOf(id);
  const { molarMass, reducing, ideal } = new Mixture(components).atComposition(z);
  const maxT = Math.min(...components.map((c) => c.range.maxT)) * GAS_EXTRAPOLATION;
  const range = { minT, maxSaturationT, maxT, maxP: BLEND_MAX_P, tolerance: SURFACE_TOLERANCE };
  const cuts = (list: readonly number[]) => list.map((dT) => maxSaturationT + dT);
  return {
    molarMass,
    reducing,
    ideal,
    vapour: buildVapourSurface(exact, range, cuts(VAPOUR_CUTS)),
    liquid: buildLiquidSurface(exact, range, cuts(LIQUID_CUTS)),
    maxT,
    maxP: BLEND_MAX_P,
  };
}
