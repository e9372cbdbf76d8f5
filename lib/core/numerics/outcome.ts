/** What a numerical method hands back: not converged is a value that the caller must look at. */
export type Outcome = {
  status: 'converged' | 'not_converged' | 'no_bracket';
  value: number;
  /** How far from solved, in the unit of the function (roots) or of the argument (minima). */
  residual: number;
  iterations: number;
};
