/**
 * What a fouled coil costs: from what a technician could measure to conductance and cooling lost, energy, trip
 * temperature and the likely causes, each with its band. SI throughout.
 */
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
