import {
  cleanPrior,
  compareBeforeAfter,
  lineFigures,
  questionReading,
  type BeforeAfter,
  type Doubt,
  type Estimate,
  type LineFigures,
} from '../condenser/api';
import { baselineOf, condenserUnitOf, conditionsOf, readingOf } from '../condenser/from-record';
import type { SeenAtReading } from '../findings/seen';
import { estimateReading } from '../evidence/estimate-record';
import type { ReadingValues } from '../entries/entries';
import type { KitchenOnFile, UnitOnFile } from './state';

export type ReadingSoFar = {
  phase: 'before' | 'after';
  /** Epoch milliseconds. */
  at: number;
  values: ReadingValues;
  gaugeGrade: string | null;
  gaugeSpanPa: number | null;
};

const recordOf = (r: ReadingSoFar) => ({ at: r.at, phase: r.phase, gaugeGrade: r.gaugeGrade, gaugeSpanPa: r.gaugeSpanPa, ...r.values });

/** The office's own estimate, from what the tablet holds of the unit: same baseline, same history, same numbers. */
export function estimateFor(
  unit: UnitOnFile,
  kitchen: KitchenOnFile,
  currency: string,
  reading: ReadingSoFar,
  seen: SeenAtReading,
): Estimate {
  const condenserUnit = condenserUnitOf(unit, kitchen);
  const baseline = baselineOf(unit.baseline) ?? cleanPrior(condenserUnit);
  // What was lost before this visit's cleaning says nothing of the coil after it.
  const history = reading.phase === 'after' ? [] : unit.pastLosses;
  return estimateReading(
    condenserUnit,
    readingOf(recordOf(reading), seen),
    baseline,
    conditionsOf(condenserUnit, kitchen, currency),
    history,
  );
}

export function doubtsOf(unit: UnitOnFile, kitchen: KitchenOnFile, reading: ReadingSoFar): Doubt[] {
  return questionReading(condenserUnitOf(unit, kitchen), readingOf(recordOf(reading)));
}

export function compareFor(unit: UnitOnFile, kitchen: KitchenOnFile, before: ReadingSoFar, after: ReadingSoFar): BeforeAfter {
  return compareBeforeAfter(condenserUnitOf(unit, kitchen), readingOf(recordOf(before)), readingOf(recordOf(after)));
}

/** Superheat and subcooling, where the reading holds both ends of one. */
export const linesFor = (unit: UnitOnFile, kitchen: KitchenOnFile, reading: ReadingSoFar): LineFigures =>
  lineFigures(condenserUnitOf(unit, kitchen), readingOf(recordOf(reading)));
