/** Everything of this room except refrigerant data: for a tablet, which loads its own few through refrigerants/fleet. */
export * from './types';
export { estimate, type EstimateOptions } from './estimate';
export { cleanPrior, updateBaseline } from './baseline';
export { compareBeforeAfter, type BeforeAfter } from './compare';
export { questionReading } from './doubts';
export { steadyState, type NoSteadyState, type SteadyState, type Surroundings } from './balance';
export { conductanceOf, cyclePoints, headAgainstAir, type CyclePoint, type HeadAtAir } from './curves';
export { gaugeSdPa, assumedGauge } from './instruments';
export { CAUSE_LABEL } from './sentence';
export { readMap, superheatFactor, tenCoefficients } from './ten-coefficient';
export type { CompressorMap, MapUnits, TenCoefficients } from './ten-coefficient';
