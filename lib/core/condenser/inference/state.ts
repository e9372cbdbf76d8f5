import type { OwnPart, Reading } from '../types';

/**
 * The machine's unknowns, in the order of the vectors: condensing and evaporating dew temperature (K), share of the
 * condenser flooded with liquid (below zero: quality at its outlet), share of the evaporator run dry (below zero:
 * wetness of the suction gas), air entering the coil (K), ln of condenser conductance over its reference, partial
 * pressure of non-condensable gas over the refrigerant's, ln of evaporator conductance over its reference, box air
 * (K), ln of the compressor's pumping over its reference, warming of the suction line as a part of how much warmer the
 * liquid is, charge over the usual as a
 * share of the condenser, ln of the expansion device's capacity, discharge gas over what the compressor law gives (K).
 */
export const TC = 0;
export const TE = 1;
export const FLOODED = 2;
export const DRY = 3;
export const AIR = 4;
export const LN_K = 5;
export const GAS = 6;
export const LN_EVAP = 7;
export const BOX = 8;
export const LN_PUMP = 9;
export const GAIN = 10;
export const CHARGE = 11;
export const LN_VALVE = 12;
export const OVER = 13;
export const UNKNOWNS = 14;

/** Those that stay with a machine, by the names of `OwnMachine`, and what must be read to tell of each. */
export const OWN = {
  lnEvaporator: [LN_EVAP, 'suctionPaGauge'],
  lnPumping: [LN_PUMP, 'suctionPaGauge'],
  lnExpansion: [LN_VALVE, 'suctionPaGauge'],
  gain: [GAIN, 'suctionLineK'],
  charge: [CHARGE, 'liquidLineK'],
  overK: [OVER, 'dischargeLineK'],
} as const satisfies Record<OwnPart, readonly [number, keyof Reading]>;

/** Step of the numerical derivative for each. */
export const STEP = Float64Array.of(0.05, 0.05, 2e-3, 2e-3, 0.05, 2e-3, 1e-3, 2e-3, 0.05, 2e-3, 2e-3, 2e-3, 2e-3, 0.2);

export type Prior = { mean: Float64Array; sd: Float64Array };
