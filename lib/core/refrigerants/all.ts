import { register } from './engine';
import type { FluidEquation } from './models/equation';
import { Helmholtz } from './models/helmholtz';
import { applyIirReference } from './reference-state';
import { directCurves } from './solvers/direct-curves';
import { R12 } from './data/equations/R12';
import { R1234yf } from './data/equations/R1234yf';
import { R1234zeE } from './data/equations/R1234zeE';
import { R125 } from './data/equations/R125';
import { R134a } from './data/equations/R134a';
import { R143a } from './data/equations/R143a';
import { R152a } from './data/equations/R152a';
import { R22 } from './data/equations/R22';
import { R290 } from './data/equations/R290';
import { R32 } from './data/equations/R32';
import { R404A } from './data/equations/R404A';
import { R407C } from './data/equations/R407C';
import { R410A } from './data/equations/R410A';
import { R507A } from './data/equations/R507A';
import { R600a } from './data/equations/R600a';
import { R744 } from './data/equations/R744';

/** No kitchen refrigerant is met below this, K. */
const LOWEST_T = 173.15;

function registerEquation(eq: FluidEquation): void {
  register(eq.id, () => {
    const model = new Helmholtz(eq);
    const curves = directCurves(eq, model);
    applyIirReference(model, curves.liquidDensity(273.15));
    return {
      id: eq.id,
      model,
      curves,
      limits: {
        minT: Math.max(eq.range.minT, LOWEST_T),
        maxSaturationT: eq.critical.T - 0.2,
        maxT: eq.range.maxT,
        criticalT: eq.critical.T,
        criticalP: eq.critical.p,
        maxP: eq.range.maxP,
      },
    };
  });
}

for (const eq of [
  R12, R1234yf, R1234zeE, R125, R134a, R143a, R152a, R22, R290, R32, R404A, R407C, R410A, R507A, R600a, R744,
]) {
  registerEquation(eq);
} // prettier-ignore
