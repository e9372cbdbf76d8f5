// Made by scripts/build-refrigerant-tables.ts from the catalogue: do not edit.
import { R134a } from './R134a';
import { R290 } from './R290';
import { R600a } from './R600a';
import { R22 } from './R22';
import { R12 } from './R12';
import { R1234yf } from './R1234yf';
import { R1234zeE } from './R1234zeE';
import { R32 } from './R32';
import { R125 } from './R125';
import { R143a } from './R143a';
import { R152a } from './R152a';
import { R744 } from './R744';
import { R404A } from './R404A';
import { R507A } from './R507A';
import { R407C } from './R407C';
import { R410A } from './R410A';
import { R448A } from './R448A';
import { R449A } from './R449A';
import { R450A } from './R450A';
import { R452A } from './R452A';
import { R454A } from './R454A';
import { R454C } from './R454C';
import { R455A } from './R455A';
import { R513A } from './R513A';
import { R515B } from './R515B';
import { R407A } from './R407A';
import { R407F } from './R407F';

/** Tables of every refrigerant by id, as JSON text. */
export const TABLES: Readonly<Record<string, string>> = {
  R134a,
  R290,
  R600a,
  R22,
  R12,
  R1234yf,
  'R1234ze(E)': R1234zeE,
  R32,
  R125,
  R143a,
  R152a,
  R744,
  R404A,
  R507A,
  R407C,
  R410A,
  R448A,
  R449A,
  R450A,
  R452A,
  R454A,
  R454C,
  R455A,
  R513A,
  R515B,
  R407A,
  R407F,
};
