import {
  AIR_PLACEMENT_SD_K,
  BEND_SHORTFALL_K,
  BEND_SHORTFALL_SD_K,
  CONTACT_SD_K,
  headSdPa,
  ROOM_TO_COIL_K,
  ROOM_TO_COIL_SD_K,
  suctionSdPa,
  THERMOMETER_SD_K,
} from './instruments';
import type { UnitModel } from '../machine/model';
import type { CondenserUnit, Reading } from '../types';

/**
 * A measured or assumed input with one standard deviation. `ownShare` is the part of its variance that belongs to
 * the unit and not to the day: the same at every reading of it, so it cancels against a baseline read the same way.
 */
export type InputWithSd = { value: number; sd: number; measured: boolean; ownShare: number };

/** A reading brought to absolute pressures, with what was not measured filled in by what is usual. */
export type Resolved = {
  /** Condensing side: absolute pressure from a gauge (Pa), or mean condensing temperature from a clamp (K). */
  head: ({ by: 'gauge' } | { by: 'clamp' }) & InputWithSd;
  airK: InputWithSd;
  /** Absolute suction pressure; without it the evaporator's balance with the box stands in. */
  suctionPa?: InputWithSd;
  boxK: InputWithSd;
  /** Superheat and subcooling in kelvin where no line temperature was measured. */
  superheatK: InputWithSd;
  subcoolingK: InputWithSd;
  suctionLineK?: InputWithSd;
  liquidLineK?: InputWithSd;
  dischargeLineK?: InputWithSd;
};

const SUPERHEAT_SD_K = 4;
const SUBCOOLING_SD_K = 2.5;
/** A box that was not measured is somewhere in its differential. */
const BOX_SD_K = 2;

/** Fills a reading in; null where neither condensing side nor air was measured. */
export function resolve(unit: CondenserUnit, model: UnitModel, reading: Reading): Resolved | null {
  const thermometer = reading.thermometerSdK ?? THERMOMETER_SD_K;
  const onPipe = Math.hypot(thermometer, CONTACT_SD_K);
  const inputOf = (value: number, measured: boolean, daySd: number, ownSd: number): InputWithSd => {
    const sd = Math.hypot(daySd, ownSd);
    return { value, sd, measured, ownShare: (ownSd / sd) ** 2 };
  };
  const measured = (value: number, sd: number) => inputOf(value, true, sd, 0);
  const absolute = (pa: number, sdOf: typeof headSdPa) => measured(pa + model.atmospherePa, sdOf(reading, unit.refrigerant, pa));
  const line = (T: number | undefined) => (T === undefined ? undefined : measured(T, onPipe));

  const head =
    reading.headPaGauge !== undefined
      ? { by: 'gauge' as const, ...absolute(reading.headPaGauge, headSdPa) }
      : reading.condensingClampK !== undefined
        ? {
            by: 'clamp' as const,
            ...inputOf(reading.condensingClampK + BEND_SHORTFALL_K, true, onPipe, BEND_SHORTFALL_SD_K),
          }
        : null;
  const airK =
    reading.airInK !== undefined
      ? measured(reading.airInK, Math.hypot(thermometer, AIR_PLACEMENT_SD_K))
      : reading.roomAirK !== undefined
        ? inputOf(reading.roomAirK + ROOM_TO_COIL_K, false, thermometer, ROOM_TO_COIL_SD_K)
        : null;
  if (!head || !airK) return null;
  return {
    head,
    airK,
    suctionPa: reading.suctionPaGauge === undefined ? undefined : absolute(reading.suctionPaGauge, suctionSdPa),
    boxK: reading.boxK === undefined ? inputOf(unit.boxSetPointK, false, BOX_SD_K, 0) : measured(reading.boxK, thermometer),
    superheatK: inputOf(model.superheatK, false, 0, SUPERHEAT_SD_K),
    subcoolingK: inputOf(model.subcoolingK, false, 0, SUBCOOLING_SD_K),
    suctionLineK: line(reading.suctionLineK),
    liquidLineK: line(reading.liquidLineK),
    dischargeLineK: line(reading.dischargeLineK),
  };
}
