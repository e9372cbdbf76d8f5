import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { Folds } from '../touch';
import { Checklist } from './checklist';
import { Past } from './past';
import { Plate } from './plate';
import { Reached } from './reached';
import { Readings } from './readings';
import type { BeforeLeaving } from './unit-page';

/** While it still runs as it was met. */
export function ReadStep({ visit, unit, leavingRef }: { visit: VisitOnFile; unit: UnitOnFile; leavingRef: BeforeLeaving }) {
  return (
    <>
      <Readings visit={visit} unit={unit} phase="before" leavingRef={leavingRef} />
      <Reached visit={visit} unit={unit} />
      <Folds>
        <Past unit={unit} timeZone={visit.kitchen.timeZone} />
        <Plate unit={unit} />
        <Checklist kind={unit.kind} />
      </Folds>
    </>
  );
}
