import type { Estimate } from '../condenser/api';
import { readingOf, type ReadingRecord } from '../condenser/from-record';
import { fanDead, type SeenAtReading } from '../findings/seen';
import type { LocalDate } from '../calendar';
import { estimateColumns, estimateReading, pastLosses } from './estimate-record';
import { baselineFrom, type ReadingFact } from './reading-fact';
import type { UnitFile } from './unit-file';

/** A reading on file with the grades that held when it was taken. */
export type ReadingToEstimate = {
  readingId: string;
  unitId: string;
  /** Epoch milliseconds. */
  at: number;
  phase: ReadingFact['phase'];
  record: ReadingRecord;
  seen: SeenAtReading;
};

export type EstimatedReading = Pick<ReadingToEstimate, 'readingId' | 'unitId' | 'at'> & {
  columns: ReturnType<typeof estimateColumns>['columns'];
  fact: ReadingFact;
  result: Estimate;
};

/** One reading's estimate from its unit's file, by what was known before it. `on`: the date of its visit. */
export function estimateOnFile(file: UnitFile, r: ReadingToEstimate, on: LocalDate): EstimatedReading {
  const earlier = file.readings.filter((f) => f.at < r.at);
  const baseline = baselineFrom(file.unit, earlier);
  // The cleaning of this very visit lies between its two readings: only the one after it starts afresh.
  const lastCleaning = r.phase === 'after' ? on : (file.cleanings.filter((c) => c < on).at(-1) ?? null);
  const history = pastLosses(earlier, baseline, lastCleaning, r.at);
  const result = estimateReading(file.unit, readingOf(r.record, r.seen), baseline, file.conditions, history);
  const { fact, columns } = estimateColumns(result, baseline, { at: r.at, on, phase: r.phase, fanFailed: fanDead(r.seen) });
  return { readingId: r.readingId, unitId: r.unitId, at: r.at, columns, fact, result };
}

/**
 * All readings of a visit in the order they were taken, before a cleaning first, each known to those after it.
 * `files` must not hold them yet; those returned do.
 */
export function estimateVisit(
  files: readonly UnitFile[],
  readings: readonly ReadingToEstimate[],
  on: LocalDate,
): { files: UnitFile[]; estimates: EstimatedReading[] } {
  const byUnit = new Map(files.map((f) => [f.unitId, f]));
  const estimates: EstimatedReading[] = [];
  for (const r of [...readings].sort((a, b) => a.at - b.at || (a.phase === 'before' ? -1 : 1))) {
    const file = byUnit.get(r.unitId);
    if (!file) continue;
    const made = estimateOnFile(file, r, on);
    estimates.push(made);
    byUnit.set(r.unitId, { ...file, readings: [...file.readings, made.fact].sort((a, b) => a.at - b.at) });
  }
  return { files: files.map((f) => byUnit.get(f.unitId) ?? f), estimates };
}
