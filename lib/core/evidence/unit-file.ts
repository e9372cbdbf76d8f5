import type { CleanBaseline, CondenserUnit, Conditions } from '../condenser';
import type { LocalDate } from '../calendar';
import { isFailureAspect, type Aspect, type CoilGrade, type FanGrade } from '../findings/grades';
import type { Inspection, UnitEvent, UnitHistory } from '../fouling';
import { baselineFrom, lnKOf, setAsideWhy, type ReadingFact } from './reading-fact';

/** One finding as it stands, on the kitchen's date. `left`: after the work of that day. */
export type FindingFact = { on: LocalDate; aspect: Aspect; grade: string; phase: 'found' | 'left' };

/** Everything on file about one unit that its rules rest on. */
export type UnitFile = {
  unitId: string;
  kitchenId: string;
  unit: CondenserUnit;
  conditions: Conditions & { priceKnown: boolean };
  startedOn: LocalDate;
  cleanings: readonly LocalDate[];
  findings: readonly FindingFact[];
  readings: readonly ReadingFact[];
  trips: readonly LocalDate[];
};

export type UnitEvidence = { baseline: CleanBaseline; history: UnitHistory; looks: Inspection[] };

/** The file in the words of the fouling room. Readings are brought to the baseline of today. */
export function evidenceOf(file: UnitFile): UnitEvidence {
  const baseline = baselineFrom(file.unit, file.readings);
  const events: UnitEvent[] = [
    ...file.cleanings.map((on): UnitEvent => ({ kind: 'cleaning', on })),
    ...file.trips.map((on): UnitEvent => ({ kind: 'trip', on })),
  ];
  const looks: Inspection[] = [];
  for (const f of file.findings) {
    if (f.aspect === 'coil')
      events.push({ kind: 'coil', on: f.on, grade: f.grade as CoilGrade, phase: f.phase === 'found' ? 'before' : 'after' });
    else if (f.aspect === 'condenser_fan') events.push({ kind: 'fan', on: f.on, grade: f.grade as FanGrade });
    else if (isFailureAspect(f.aspect) && f.phase === 'found') looks.push({ on: f.on, aspect: f.aspect, grade: f.grade });
  }
  for (const r of file.readings) {
    const seen = lnKOf(r, baseline);
    if (!seen) continue;
    const aside = setAsideWhy(r);
    events.push({
      kind: 'reading',
      on: r.on,
      ...seen,
      phase: r.phase === 'after' ? 'after' : 'before',
      ...(aside ? { setAside: aside } : {}),
    });
  }
  // The record reaches back to its oldest event, should one have been entered with an earlier date.
  const startedOn = [...events, ...looks].reduce((a, e) => (e.on < a ? e.on : a), file.startedOn);
  return { baseline, history: { startedOn, startedClean: false, events }, looks };
}
