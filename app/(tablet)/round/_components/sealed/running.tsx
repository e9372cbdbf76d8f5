import { useMemo, useRef } from 'react';
import type { SealedStepEntry, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { Readings } from '../unit/readings';
import { RunClock } from '../unit/run-clock';

/** Read after the circuit was charged; what was read before is of another machine. */
export function readingAfter(visit: VisitOnFile, unit: UnitOnFile, charged: SealedStepEntry | undefined) {
  return visit.entries.readings.find((r) => r.unitId === unit.id && r.phase === 'after' && r.at >= (charged?.at ?? '')) ?? null;
}

/** After an hour of steady running: the same readings as any visit, against the whole machine as it is now. */
export function Running({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const leavingRef = useRef<(() => Promise<boolean>) | null>(null);
  // Its clean rise is learned anew from this day.
  const asNew = useMemo(() => ({ ...unit, baseline: null, pastLosses: [] }), [unit]);
  return (
    <>
      <RunClock visitId={visit.id} unitId={unit.id} />
      <Readings visit={visit} unit={asNew} phase="after" leavingRef={leavingRef} />
    </>
  );
}
