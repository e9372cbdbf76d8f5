/** One rectangle of a residual surface in τ and δ. */
export type SurfacePatch = {
  tau: readonly [number, number];
  delta: readonly [number, number];
  /** Row j holds the coefficients of T_i(τ), i = 0…, for T_j(δ); rows end where the tolerance lets them. */
  rows: readonly (readonly number[])[];
};

/** αʳ of a blend at its own composition as Chebyshev expansions in τ and δ, patch by patch, τ rising. */
export type SurfaceTable = {
  /** Whether the patches hold αʳ/δ, which keeps the ideal gas exact at δ = 0 (vapour), or αʳ itself (liquid). */
  overDelta: boolean;
  patches: readonly SurfacePatch[];
};
