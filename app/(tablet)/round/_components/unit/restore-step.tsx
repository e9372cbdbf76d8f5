import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { BeforeAfter } from './before-after';
import { Readings } from './readings';
import { RunClock } from './run-clock';
import type { BeforeLeaving } from './unit-page';

/** Power back on, ten to fifteen minutes, then read again. */
export function RestoreStep({ visit, unit, leavingRef }: { visit: VisitOnFile; unit: UnitOnFile; leavingRef: BeforeLeaving }) {
  return (
    <>
      <RunClock visitId={visit.id} unitId={unit.id} />
      <Readings visit={visit} unit={unit} phase="after" leavingRef={leavingRef} />
      <BeforeAfter visit={visit} unit={unit} />
    </>
  );
}
