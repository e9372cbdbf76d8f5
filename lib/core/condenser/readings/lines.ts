import { atmosphereAt } from '../../measures/pressure';
import { figure, Z80 } from '../bands';
import { fluidOf, type Fluid } from '../fluid/fluid';
import { isKnownRefrigerant } from '../fluid/limits';
import type { CondenserUnit, Figure, Reading } from '../types';
import {
  BEND_SHORTFALL_K,
  BEND_SHORTFALL_SD_K,
  CONTACT_SD_K,
  headSdPa,
  suctionSdPa,
  THERMOMETER_SD_K,
  withThermometer,
} from './instruments';

/** `overWaterK`: condensing over the water leaving, where water cools the unit. */
export type LineFigures = { superheatK: Figure | null; subcoolingK: Figure | null; overWaterK: Figure | null };

const STEP_PA = 1000;
/** Outside this neither is a reading of a running machine: a wrong clamp, or the wrong refrigerant. */
const SENSIBLE_K = 60;

/**
 * Superheat at the compressor (suction line over dew), subcooling at the condenser's outlet (bubble over liquid line), and how
 * far condensing (the mean of bubble and dew) stands over the water leaving, in kelvin with the error of gauge and clamp. Null where one of the two numbers is missing or lies outside the
 * refrigerant's range. Saturation as in the refrigerants room.
 */
export function lineFigures(unit: CondenserUnit, entered: Reading): LineFigures {
  const reading = withThermometer(entered, unit.thermometerClass);
  if (!isKnownRefrigerant(unit.refrigerant)) return { superheatK: null, subcoolingK: null, overWaterK: null };
  const fluid = fluidOf(unit.refrigerant);
  const pipe = Math.hypot(reading.thermometerSdK ?? THERMOMETER_SD_K, CONTACT_SD_K);
  const { suctionLineK, liquidLineK } = reading;
  const dew = suctionDew(fluid, unit, reading);
  const bubble = headBubble(fluid, unit, reading);
  return {
    superheatK: suctionLineK === undefined || !dew ? null : sensibleFigure(suctionLineK - dew.value, Math.hypot(pipe, dew.sd)),
    subcoolingK: liquidLineK === undefined || !bubble ? null : sensibleFigure(bubble.value - liquidLineK, Math.hypot(pipe, bubble.sd)),
    overWaterK: overWater(fluid, unit, reading, bubble, pipe),
  };
}

function overWater(fluid: Fluid, unit: CondenserUnit, { waterOutK }: Reading, bubble: ValueWithSd, pipeSdK: number): Figure | null {
  if (unit.condenserKind !== 'water_cooled' || waterOutK === undefined || !bubble) return null;
  const mean = (bubble.value + fluid.dewT(fluid.bubbleP(bubble.value))) / 2;
  return sensibleFigure(mean - waterOutK, Math.hypot(pipeSdK, bubble.sd));
}

function sensibleFigure(value: number, sd: number): Figure | null {
  return Number.isFinite(value) && Number.isFinite(sd) && Math.abs(value) < SENSIBLE_K
    ? figure(value, value - Z80 * sd, value + Z80 * sd)
    : null;
}

type ValueWithSd = { value: number; sd: number } | null;

function suctionDew(fluid: Fluid, unit: CondenserUnit, reading: Reading): ValueWithSd {
  if (reading.suctionPaGauge === undefined) return null;
  const sd = suctionSdPa(reading, unit.refrigerant, reading.suctionPaGauge);
  return saturated(fluid.dewT, reading.suctionPaGauge + atmosphereAt(unit.altitudeM), sd);
}

function headBubble(fluid: Fluid, unit: CondenserUnit, reading: Reading): ValueWithSd {
  if (reading.headPaGauge !== undefined) {
    const sd = headSdPa(reading, unit.refrigerant, reading.headPaGauge);
    return saturated(fluid.bubbleT, reading.headPaGauge + atmosphereAt(unit.altitudeM), sd);
  }
  if (reading.condensingClampK === undefined) return null;
  // The bend shows the mean of bubble and dew; half the glide lies below it.
  const mean = reading.condensingClampK + BEND_SHORTFALL_K;
  const glide = fluid.dewT(fluid.bubbleP(mean)) - mean;
  const sd = Math.hypot(reading.thermometerSdK ?? THERMOMETER_SD_K, CONTACT_SD_K, BEND_SHORTFALL_SD_K);
  return { value: mean - glide / 2, sd };
}

function saturated(of: (pa: number) => number, pa: number, sdPa: number): ValueWithSd {
  const slope = (of(pa + STEP_PA) - of(pa - STEP_PA)) / (2 * STEP_PA);
  return { value: of(pa), sd: slope * sdPa };
}
