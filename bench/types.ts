/** One line of the speed table: a measured value, and where possible a named reference measured in the same run. */
export type BenchRow = {
  name: string;
  unit: string;
  /** The target in words, for instance "< 2 ms". */
  target?: string;
  /** `detail`: what the value is made of, in words. */
  run: () => Promise<{ value: number; reference?: { name: string; value: number }; detail?: string }>;
};
