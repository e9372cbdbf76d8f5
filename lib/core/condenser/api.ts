/** Everything of this room except refrigerant data: for a tablet, which loads its own few through refrigerants/fleet. */
export * from './types';
export { estimate } from './estimate';
export { cleanPrior, updateBaseline } from './baseline';
export { compareBeforeAfter, type BeforeAfter } from './compare';
export { questionReading } from './readings/doubts';
export { lineFigures, type LineFigures } from './readings/lines';
export { steadyState, type SteadyState } from './machine/balance';
export { conductanceOf, cyclePoints, headAgainstAir, type CyclePoint } from './machine/curves';
export { CAUSE_LABEL, likelyWords } from './words/causes';
export { readMap, superheatFactor, tenCoefficients } from './compressor/ten-coefficient';
export type { CompressorMap, TenCoefficients } from './compressor/ten-coefficient';
