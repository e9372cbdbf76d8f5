/** n, t, d, l: n·δ^d·τ^t·exp(−δ^l), no exponential where l = 0. */
export type PowerTerm = readonly number[];
/** n, t, d, η, ε, β, γ: n·δ^d·τ^t·exp(−η(δ−ε)² − β(τ−γ)²). */
export type GaussianTerm = readonly number[];
/** n, t, d, l, m: as a power term, times exp(−τ^m) where m > 0 (Lemmon & Jacobsen 2005). */
export type LemmonTerm = readonly number[];
/** n, a, b, β, A, B, C, D: critical term of Span & Wagner 1996. */
export type NonAnalyticTerm = readonly number[];

export type ResidualTerms = {
  power?: readonly PowerTerm[];
  gaussian?: readonly GaussianTerm[];
  lemmon?: readonly LemmonTerm[];
  nonAnalytic?: readonly NonAnalyticTerm[];
};

export type IdealTerms = {
  /** a·ln τ */
  logTau: number;
  /** n, t: n·τ^t */
  power?: readonly (readonly number[])[];
  /** n, t: n·ln(1 − exp(−t·τ)) */
  einstein?: readonly (readonly number[])[];
  /** c, t: adds c·T^t (T in K) to cp0/R */
  cpPolynomial?: readonly (readonly number[])[];
};

/** Starting values for solvers; for pseudo-pure blends bubbleP and dewP are the definition of the curves. */
export type Ancillary = {
  /** value = scale·exp(s) or scale·(1 + s), s = Σ n·(1 − T/Tr)^t, times Tr/T where overT. */
  exponential: boolean;
  overT: boolean;
  Tr: number;
  scale: number;
  n: readonly number[];
  t: readonly number[];
};

/** A published Helmholtz-energy equation of state, α(τ, δ), τ = T_reducing/T, δ = ρ/ρ_reducing. */
export type FluidEquation = ResidualTerms & {
  id: string;
  name: string;
  source: string;
  /** kg/mol */
  molarMass: number;
  /** J/(mol·K), as the paper has it */
  gasConstant: number;
  /** K, mol/m³ */
  reducing: { T: number; rho: number };
  /** K, Pa, mol/m³ as published */
  critical: { T: number; p: number; rho: number };
  /** K, Pa: where the authors vouch for it */
  range: { minT: number; maxT: number; maxP: number };
  pseudoPure?: true;
  ideal: IdealTerms;
  ancillaries: { p?: Ancillary; bubbleP?: Ancillary; dewP?: Ancillary; rhoL: Ancillary; rhoV: Ancillary };
};
