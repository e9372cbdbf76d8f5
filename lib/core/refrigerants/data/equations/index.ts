import type { FluidEquation } from '../../models/equation';
import { R12 } from './R12';
import { R1234yf } from './R1234yf';
import { R1234zeE } from './R1234zeE';
import { R125 } from './R125';
import { R134a } from './R134a';
import { R143a } from './R143a';
import { R152a } from './R152a';
import { R22 } from './R22';
import { R227ea } from './R227ea';
import { R290 } from './R290';
import { R32 } from './R32';
import { R404A } from './R404A';
import { R407C } from './R407C';
import { R410A } from './R410A';
import { R507A } from './R507A';
import { R600a } from './R600a';
import { R744 } from './R744';

const LIST = [
  R12, R1234yf, R1234zeE, R125, R134a, R143a, R152a, R22, R227ea, R290, R32, R404A, R407C, R410A, R507A, R600a, R744,
]; // prettier-ignore

/** Every published equation by refrigerant id, R-227ea among them as a component only. */
export const EQUATIONS: Readonly<Record<string, FluidEquation>> = Object.fromEntries(LIST.map((eq) => [eq.id, eq]));
