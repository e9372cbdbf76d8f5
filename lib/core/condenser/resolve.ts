import {
  AIR_PLACEMENT_SD_K,
  assumedGauge,
  BEND_SHORTFALL_K,
  BEND_SHORTFALL_SD_K,
  CONTACT_SD_K,
  gaugeSdPa,
  ROOM_TO_COIL_K,
  ROOM_TO_COIL_SD_K,
  THERMOMETER_SD_K,
} from './instruments';
import type { UnitModel } from './model';
import type { CondenserUnit, Reading } from './types';

/** A measured or assumed input with one standard deviation. */
export type Known = { value: number; sd: number; measured: boolean };

/** A reading brought to absolute pressures, with what was not measured filled in by what is usual. */
export type Resolved = {
  /** Condensing side: absolute pressure from a gauge (Pa), or mean condensing temperature from a clamp (K). */
  head: ({ by: 'gauge' } | { by: 'clamp' }) & Known;
  airK: Known;
  /** Absolute suction pressure; without it the evaporator's balance with the box stands in. */
  suctionPa?: Known;
  boxK: Known;
  /** Superheat and subcooling in kelvin where no line temperature was measured. */
  superheatK: Known;
  subcoolingK: Known;
  suctionLineK?: Known;
  liquidLineK?: Known;
  dischargeLineK?: Known;
};

const SUPERHEAT_SD_K = 4;
const SUBCOOLING_SD_K = 2.5;
/** A box that was not measured is somewhere in its differential. */
const BOX_SD_K = 2;

/** Fills a reading in; null where neither condensing side nor air was measured. */
export function resolve(unit: CondenserUnit, model: UnitModel, reading: Reading): Resolved | null {
  const gauge = reading.gauge ?? assumedGauge(unit.refrigerant);
  const thermometer = reading.thermometerSdK ?? THERMOMETER_SD_K;
  const onPipe = Math.hypot(thermometer, CONTACT_SD_K);
  const measured = (value: number, sd: number): Known => ({ value, sd, measured: true });
  const usual = (value: number, sd: number): Known => ({ value, sd, measured: false });
  const lowSide = reading.suctionGauge ?? { grade: gauge.grade, spanPa: gauge.spanPa / 2 };
  const absolute = (pa: number, by = gauge) => measured(pa + model.atmospherePa, gaugeSdPa(by, pa));
  const line = (T: number | undefined) => (T === undefined ? undefined : measured(T, onPipe));

  const head =
    reading.headPaGauge !== undefined
      ? { by: 'gauge' as const, ...absolute(reading.headPaGauge) }
      : reading.condensingClampK !== undefined
        ? {
            by: 'clamp' as const,
            ...measured(reading.condensingClampK + BEND_SHORTFALL_K, Math.hypot(onPipe, BEND_SHORTFALL_SD_K)),
          }
        : null;
  const airK =
    reading.airInK !== undefined
      ? measured(reading.airInK, Math.hypot(thermometer, AIR_PLACEMENT_SD_K))
      : reading.roomAirK !== undefined
        ? usual(reading.roomAirK + ROOM_TO_COIL_K, Math.hypot(thermometer, ROOM_TO_COIL_SD_K))
        : null;
  if (!head || !airK) return null;
  return {
    head,
    airK,
    suctionPa: reading.suctionPaGauge === undefined ? undefined : absolute(reading.suctionPaGauge, lowSide),
    boxK: reading.boxK === undefined ? usual(unit.boxSetPointK, BOX_SD_K) : measured(reading.boxK, thermometer),
    superheatK: usual(model.superheatK, SUPERHEAT_SD_K),
    subcoolingK: usual(model.subcoolingK, SUBCOOLING_SD_K),
    suctionLineK: line(reading.suctionLineK),
    liquidLineK: line(reading.liquidLineK),
    dischargeLineK: line(reading.dischargeLineK),
  };
}
