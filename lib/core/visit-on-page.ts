import type { OperationReport, PhotoReport, UnitReport, VisitReport } from './round/visit-report';

type PartUsed = VisitReport['parts'][number] & { unitId: string | null };
type FoodWarning = VisitReport['foodWarnings'][number] & { note: string };

/** A unit of a visit with all that was written down about it, planned or not. */
export type UnitOnPage = UnitReport & { parts: PartUsed[]; foodWarnings: FoodWarning[] };

/** A visit as the office's page shows it. */
export type VisitOnPage = Omit<VisitReport, 'units' | 'parts' | 'foodWarnings' | 'operations'> & {
  units: UnitOnPage[];
  parts: PartUsed[];
  foodWarnings: FoodWarning[];
  /** Of no unit in particular. */
  photos: PhotoReport[];
  operations: Omit<OperationReport, 'payload'>[];
};
