import { condenserUnitOf, conditionsOf } from '@/lib/core/condenser/from-record';
import type { LocalDate } from '@/lib/core/calendar';
import type { UnitFile } from '@/lib/core/evidence';

const unit = condenserUnitOf(
  { kind: 'reach_in', refrigerant: 'R134a', placement: 'fryer', cutoutPaGauge: 1.724e6, boxSetK: 276.15 },
  { altitudeM: 1609 },
);

export const on = (d: string) => d as LocalDate;

/** A reach-in beside a fryer with nothing on file yet. */
export const emptyFile = (over: Partial<UnitFile> = {}): UnitFile => ({
  unitId: 'u1',
  kitchenId: 'k1',
  unit,
  conditions: conditionsOf(unit, { hotDayAirK: 311, energyPricePerKwh: 0.14 }, 'USD'),
  startedOn: on('2026-01-01'),
  cleanings: [],
  findings: [],
  readings: [],
  trips: [],
  washed: [],
  changes: [],
  ...over,
});
