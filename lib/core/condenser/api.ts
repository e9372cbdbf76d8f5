/** Everything of this room except refrigerant data: for a tablet, which loads its own few through refrigerants/fleet. */
export * from './types';
export { estimate, type EstimateOptions } from './estimate';
export { cleanPrior, updateBaseline } from './baseline';
export { compareBeforeAfter, type BeforeAfter } from './compare';
export { questionReading } from './readings/doubts';
export { lineFigures, type LineFigures } from './readings/lines';
export { steadyState, type NoSteadyState, type SteadyState, type Surroundings } from './machine/balance';
export { conductanceOf, cyclePoints, headAgainstAir, type CyclePoint, type HeadAtAir } from './machine/curves';
export { CAUSE_LABEL, likelyWords } from './words/causes';
export { readMap, superheatFactor, tenCoefficients } from './compressor/ten-coefficient';
export type { CompressorMap, MapUnits, TenCoefficients } from './compressor/ten-coefficient';
