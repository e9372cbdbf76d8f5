import type { Coil } from './condenser';
import type { Compressor } from './compressor';
import type { Evaporator } from './evaporator';
import type { Fan } from './fan';
import type { Fluid } from './fluid';
import type { TubeTable } from './capillary';

export type Expansion =
  | { by: 'tube'; table: TubeTable; times: number }
  | {
      by: 'valve';
      /** m² of a full-open orifice. */
      area: number;
      /** Superheat at which it begins to open, and over which it opens fully, K. */
      staticK: number;
      spanK: number;
    };

/** One machine as built: everything that stays while faults come and go. SI. */
export type Machine = {
  fluid: Fluid;
  compressor: Compressor;
  coil: Coil;
  fan: Fan;
  evaporator: Evaporator;
  boxFan: Fan;
  expansion: Expansion;
  /** Liquid to suction heat exchange, effectiveness on the suction gas. */
  exchanger: number;
  /** Suction line to room, effectiveness on the suction gas. */
  suctionGain: number;
  /** Liquid line to room, effectiveness. */
  liquidLine: number;
  lineVolume: number;
  /** m³; none on capillary machines. */
  receiver: number;
  /** kg that an accumulator before the compressor can hold; capillary machines have one. */
  accumulatorKg: number;
  chargeKg: number;
  /** Suction line pressure drop as a part of suction pressure at nominal flow. */
  suctionDrop: number;
  /** Condensing dew temperature that a head-pressure control keeps, K. */
  holdK?: number;
  /** Where it was designed to stand. */
  home: Around & { xe: number; xc: number; h1: number };
};

/** What is wrong with it, 1 and 0 where nothing is. */
export type Faults = {
  /** Face left open, added resistance of the path, film on the fins as a part of the clean air-side resistance. */
  open: number;
  resistance: number;
  film: number;
  fanSpeed: number;
  /** Part of the leaving air's warmth that comes back to the inlet. */
  recirculation: number;
  /** Inlet warmer than the room by an appliance beside it, K. */
  inletK: number;
  /** Pa of gas that does not condense. */
  gasPa: number;
  charge: number;
  /** Pressure drop of the drier, Pa, at nominal flow; and what is left of the tube's or valve's opening. */
  drierPa: number;
  opening: number;
  leakArea: number;
  boxOpen: number;
  boxResistance: number;
  boxFilm: number;
  boxFanSpeed: number;
};

export const SOUND: Faults = {
  open: 1, resistance: 1, film: 0, fanSpeed: 1, recirculation: 0, inletK: 0, gasPa: 0, charge: 1, drierPa: 0, opening: 1, leakArea: 0,
  boxOpen: 1, boxResistance: 1, boxFilm: 0, boxFanSpeed: 1,
}; // prettier-ignore

/** Air of the room, and air (or freezing water) that the evaporator sees, K. */
export type Around = { roomK: number; boxK: number };
