import {
  conductanceOf,
  cyclePoints,
  headAgainstAir,
  type CleanBaseline,
  type CondenserUnit,
  type CyclePoint,
  type Reading,
} from '../condenser';
import { isFailure, midpointTemperature, rangeOf, saturationDome } from '../refrigerants';
import { gaugeToAbsolute } from '../measures';
import type { UnitFile } from './unit-file';

/** One point of a line or one reading: coil air, head above the local atmosphere, mean condensing temperature. */
export type HeadPoint = { airK: number; headPaGauge: number | null; condensingK: number };
export type HeadReading = { at: number; phase: string; airK: number; headPaGauge: number | null; clampK: number | null };

export type HeadPicture = {
  /** What was measured on this unit: gauges, or a clamp on the bend. */
  by: 'head' | 'temperature';
  clean: HeadPoint[];
  /** At the belief about the coil that is given, and at the ends of its band. */
  now: HeadPoint[];
  nowBest: HeadPoint[];
  nowWorst: HeadPoint[];
  readings: (HeadPoint & { at: number; phase: string })[];
  cutout: { headPaGauge: number; condensingK: number } | null;
  hotDayAirK: number;
};

const STEPS = 14;

/** Head against coil air for the clean and the present coil; null where the refrigerant has no numbers. */
export function headPicture(
  file: UnitFile,
  baseline: CleanBaseline,
  lnK: { median: number; low: number; high: number },
  readings: readonly HeadReading[],
): HeadPicture | null {
  const { unit, conditions } = file;
  const clean = conductanceOf(unit, baseline.cleanRiseK);
  if (clean === null) return null;
  const seenAir = readings.map((r) => r.airK);
  const from = Math.min(conditions.hotDayAirK - 18, ...seenAir);
  // Far enough to see where the cut-out is met.
  const to = Math.max(conditions.hotDayAirK + (unit.cutoutPaGauge === undefined ? 8 : 18), ...seenAir);
  const airs = Array.from({ length: STEPS + 1 }, (_, i) => from + ((to - from) * i) / STEPS);
  const line = (k: number): HeadPoint[] => headAgainstAir(unit, k, airs, conditions.boxK);
  const lines = {
    clean: line(clean),
    now: line(clean * Math.exp(lnK.median)),
    nowBest: line(clean * Math.exp(lnK.high)),
    nowWorst: line(clean * Math.exp(lnK.low)),
  };
  if (lines.clean.length < 2) return null;
  const points = readings.flatMap((r) => {
    const condensingK = r.headPaGauge !== null ? condensingAt(unit, r.headPaGauge) : r.clampK;
    return condensingK === null ? [] : [{ at: r.at, phase: r.phase, airK: r.airK, headPaGauge: r.headPaGauge, condensingK }];
  });
  const cutout = unit.cutoutPaGauge === undefined ? null : condensingAt(unit, unit.cutoutPaGauge);
  return {
    by: readings.some((r) => r.headPaGauge !== null) || (readings.length === 0 && unit.circuitAccess === 'ports') ? 'head' : 'temperature',
    ...lines,
    readings: points,
    cutout: cutout === null ? null : { headPaGauge: unit.cutoutPaGauge as number, condensingK: cutout },
    hotDayAirK: conditions.hotDayAirK,
  };
}

/** Mean of bubble and dew temperature at a gauge pressure in this kitchen; null outside the curves. */
function condensingAt(unit: CondenserUnit, headPaGauge: number): number | null {
  const T = midpointTemperature(unit.refrigerant, gaugeToAbsolute(headPaGauge, unit.altitudeM));
  return isFailure(T) ? null : T;
}

export type CyclePicture = { dome: { branch: 'liquid' | 'vapour'; p: number; h: number }[]; cycle: CyclePoint[] };

/** The cycle of a reading over the saturation dome, pressures absolute; null where there are no numbers. */
export function cyclePicture(unit: CondenserUnit, reading: Reading): CyclePicture | null {
  const cycle = cyclePoints(unit, reading);
  const range = rangeOf(unit.refrigerant);
  if (!cycle || isFailure(range)) return null;
  const coldest = Math.max(range.minT, Math.min(...cycle.map((c) => c.T)) - 8);
  const dome = saturationDome(unit.refrigerant, coldest);
  if (isFailure(dome)) return null;
  const plain = ({ p, h }: { p: number; h: number }) => ({ p, h });
  return {
    cycle,
    dome: [
      ...dome.liquid.map((s) => ({ branch: 'liquid' as const, ...plain(s) })),
      ...dome.vapour.map((s) => ({ branch: 'vapour' as const, ...plain(s) })),
    ],
  };
}
