import type { LocalDate } from '../calendar';
import { gradeIndex, type CoilGrade } from '../findings/grades';
import { daysSinceClean, type FoulingPosterior, type UnitHistory } from '../fouling';

/** A finding on the coil as it was met, worst look of a day. */
export type CoilFinding = { on: LocalDate; grade: CoilGrade; daysSinceClean: number | null };

export type CoilEvidence = {
  findings: CoilFinding[];
  trips: LocalDate[];
  cleanRunning: number;
  riskDays: number | null;
  riskLimit: string;
  /** Cheapest whole weeks; null = no finite optimum. */
  cheapestWeeks: number | null;
  /** Days in which coils of this exposure usually pack. */
  usualPackedDays: number;
  rate: FoulingPosterior['rate'];
  lnK: FoulingPosterior['lnK'];
};

/** Coils as met, newest first; what was seen only after a cleaning does not count as met. */
export function coilFindings(history: UnitHistory): CoilFinding[] {
  const worst = new Map<LocalDate, CoilGrade>();
  for (const e of history.events) {
    if (e.kind !== 'coil' || e.phase !== 'before') continue;
    const seen = worst.get(e.on);
    if (seen === undefined || gradeIndex('coil', e.grade) > gradeIndex('coil', seen)) worst.set(e.on, e.grade);
  }
  return [...worst].sort(([a], [b]) => (a < b ? 1 : -1)).map(([on, grade]) => ({ on, grade, daysSinceClean: daysSinceClean(history, on) }));
}

/** Clean findings running. A look sooner than half an interval after a cleaning proves nothing when it is clean. */
export function countClean(findings: readonly CoilFinding[], trips: readonly LocalDate[], cleanGrade: CoilGrade, soon: number): number {
  let n = 0;
  let later: LocalDate | null = null;
  for (const f of findings) {
    if (gradeIndex('coil', f.grade) > gradeIndex('coil', cleanGrade)) break;
    // A trip on the day of this finding, or between it and the next, spoils the run from here back.
    if (trips.some((t) => t >= f.on && (later === null || t < later))) break;
    later = f.on;
    if (f.daysSinceClean === null || f.daysSinceClean >= soon) n++;
  }
  return n;
}
