import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { useDrawn } from '../../_lib/use-after-paint';
import { Folds } from '../touch';
import { Checklist } from './checklist';
import { Past } from './past';
import { Plate } from './plate';
import { Reached } from './reached';
import { Readings } from './readings';
import type { BeforeLeaving } from './unit-page';

/** While it still runs as it was met. */
export function ReadStep({ visit, unit, leavingRef }: { visit: VisitOnFile; unit: UnitOnFile; leavingRef: BeforeLeaving }) {
  // What is read stands at once, the rest below it a moment later.
  const drawn = useDrawn();
  return (
    <>
      <Readings visit={visit} unit={unit} phase="before" leavingRef={leavingRef} />
      {drawn ? (
        <>
          <Reached visit={visit} unit={unit} />
          <Folds>
            <Past unit={unit} timeZone={visit.kitchen.timeZone} />
            <Plate unit={unit} />
            <Checklist kind={unit.kind} />
          </Folds>
        </>
      ) : null}
    </>
  );
}
