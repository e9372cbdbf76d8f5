import type { Piecewise } from '../../numerics/chebyshev';
import type { IdealTerms } from '../models/equation';
import type { SurfaceTable } from './surface-format';

/** One branch of the saturation curve, in u = √(anchor − T): smooth up to the critical point, where T itself is not. */
export type BranchTables = {
  /** kg/m³ for liquid, its logarithm for vapour. */
  rho: Piecewise;
  /** J/kg */
  h: Piecewise;
  /** J/(kg·K) */
  s: Piecewise;
  /** kg·K/J: cp grows without bound towards the critical point, its inverse goes to nought. */
  inverseCp: Piecewise;
};

/** ln p (p in Pa) against u, and T (K) against ln p. */
export type PressureTables = { lnP: Piecewise; T: Piecewise };

/** Chebyshev expansions of a refrigerant's saturation curves. */
export type SaturationTables = {
  anchor: number;
  /** K, where the expansions hold. */
  minT: number;
  maxT: number;
  /** K, Pa: as published for pure and pseudo-pure fluids; for blends where bubble and dew curve meet. */
  critical: { T: number; p: number };
  /** Added to h and s of the equation so that the IIR reference state holds, J/kg and J/(kg·K). */
  offsets: { h: number; s: number };
  bubble: PressureTables;
  /** Absent for pure fluids: the same curve. */
  dew?: PressureTables;
  liquid: BranchTables;
  vapour: BranchTables;
};

/** A blend's single-phase states: its own equation at its own composition, expanded for vapour and for liquid. */
export type BlendTables = {
  /** kg/mol */
  molarMass: number;
  /** K, mol/m³ */
  reducing: { T: number; rho: number };
  ideal: IdealTerms;
  vapour: SurfaceTable;
  liquid: SurfaceTable;
  /** K, Pa: highest temperature of the vapour, highest pressure of the liquid. */
  maxT: number;
  maxP: number;
};

/** All expansions of one refrigerant, made by scripts/build-refrigerant-tables.ts from the published equations. */
export type RefrigerantTables = { id: string; saturation: SaturationTables; blend?: BlendTables };
