import type { LocalDate } from '../calendar';
import type { CleanBaseline, CondenserUnit, Conditions, Estimate, Figure, Reading } from '../condenser';
import type { DateForecast, FoulingPosterior } from '../fouling';
import type { CoursePoint } from './course';
import type { OwnLimits } from './own-limits';
import type { CyclePicture, HeadPicture } from './pictures';
import type { FindingFact } from './unit-file';

/** What the evidence of one unit is made of, as a screen or a report shows it. */

export type VisitShown = {
  id: string;
  on: LocalDate;
  technician: string;
  outcome: { outcome: string; reason: string } | null;
  /** Tasks done at this unit, in words. */
  done: string[];
  findings: { aspect: string; grade: string | null; phase: string; notLookedWhy: string; note: string }[];
  readings: { phase: string; estimate: Estimate | null }[];
};

export type UnitEvidenceShown = {
  today: LocalDate;
  unit: CondenserUnit;
  conditions: Conditions & { priceKnown: boolean };
  baseline: CleanBaseline;
  fouling: Pick<FoulingPosterior, 'rate' | 'lnK' | 'restore' | 'evidence' | 'lastCleanedOn' | 'asOf' | 'modelVersion'>;
  ownLimits: OwnLimits | null;
  /** As the coil is believed to stand today. */
  todayLost: Figure;
  todayKwh: Figure | null;
  todayMoney: Figure | null;
  course: CoursePoint[];
  fan: CoursePoint[];
  limitDates: DateForecast[];
  readings: { on: LocalDate; phase: string; lnK: number; sd: number; setAside: string | null }[];
  cleanings: readonly LocalDate[];
  grades: FindingFact[];
  /** The task of cleaning its coil, where it has one. */
  coil: { rule: string; dueOn: LocalDate } | null;
  /** Why the last find, a stopped-up coil, moved no date; null where it moved one or was another. */
  stays: string | null;
  /** What old deposit that plain cleaning leaves costs, where washing the coil right through pays; null while it does not. */
  washThrough: string | null;
  latest: { on: LocalDate; estimate: Estimate; reading: Reading } | null;
  head: HeadPicture | null;
  cycle: CyclePicture | null;
  /** Newest first. */
  visits: VisitShown[];
  /** There are earlier ones. */
  moreVisits: boolean;
};
