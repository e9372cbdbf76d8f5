export * from './types';
export { readMap, superheatFactor, tenCoefficients } from './ten-coefficient';
export type { CompressorMap, MapUnits, TenCoefficients } from './ten-coefficient';
