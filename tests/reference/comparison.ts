/** One comparison against an outside source, or a regression. The gate test and the printed report read the same ones. */
export type Comparison = {
  id: string;
  /** Judged by the product's own equations or simulator: it tells that something changed, not that it is right. */
  regression?: true;
  /** The published source, or "from memory" / "common practice" where that is so. */
  source: string;
  quantity: string;
  unit: string;
  tolerance: number;
  /** Largest absolute difference met, in `unit`. */
  worst: number;
  samples: number;
  /** Dropping a sample is a failure: this many must have been compared. */
  expectedSamples: number;
};
