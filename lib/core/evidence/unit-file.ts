import type { CleanBaseline, CondenserUnit, Conditions } from '../condenser';
import type { LocalDate } from '../calendar';
import { ASPECT_INFO, gradeLabel, isFailureAspect, isStopped, type Aspect, type CoilGrade, type FanGrade } from '../findings/grades';
import type { TripCause } from '../findings/trip-causes';
import type { Inspection, SaidChange, UnitEvent, UnitHistory } from '../fouling';
import { baselineFrom, depositOf, setAsideWhy, type ReadingFact } from './reading-fact';

/** One finding as it stands, on the kitchen's date. `left`: after the work of that day. */
export type FindingFact = {
  on: LocalDate;
  aspect: Aspect;
  grade: string;
  phase: 'found' | 'left';
  /** Whose eye it was, where that is known. */ by?: string;
};

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
  /** `cause`: what was behind it, where somebody found out. */
  trips: readonly { on: LocalDate; cause: TripCause | null }[];
  /** Days on which the coil was washed right through, and from which it breathes more or less. */
  washed: readonly LocalDate[];
  changes: readonly { on: LocalDate; said: SaidChange }[];
};

export type UnitEvidence = {
  baseline: CleanBaseline;
  history: UnitHistory;
  looks: Inspection[];
  /** Parts of the low side found not to work. */
  broken: { on: LocalDate; what: string }[];
};

/** What keeps an evaporator from doing its work besides ice: its fan, its dirt, a door that lets damp air in. */
const LOW_SIDE_PARTS: readonly Aspect[] = ['evaporator_fan', 'evaporator_coil', 'gasket'];

/** The file in the words of the fouling room. Readings are brought to the baseline of today. */
export function evidenceOf(file: UnitFile): UnitEvidence {
  const baseline = baselineFrom(file.unit, file.readings);
  const events: UnitEvent[] = [
    ...[...new Set([...file.cleanings, ...file.washed])].map((on): UnitEvent => ({
      kind: 'cleaning',
      on,
      ...(file.washed.includes(on) ? { deep: true } : {}),
    })),
    ...file.trips.map(({ on, cause }): UnitEvent => ({ kind: 'trip', on, ...(cause ? { cause } : {}) })),
    ...file.changes.map(({ on, said }): UnitEvent => ({ kind: 'change', on, said })),
  ];
  const looks: Inspection[] = [];
  for (const f of file.findings) {
    if (f.aspect === 'coil')
      events.push({
        kind: 'coil',
        on: f.on,
        grade: f.grade as CoilGrade,
        phase: f.phase === 'found' ? 'before' : 'after',
        ...(f.by ? { by: f.by } : {}),
      });
    else if (f.aspect === 'condenser_fan') events.push({ kind: 'fan', on: f.on, grade: f.grade as FanGrade });
    else if (isFailureAspect(f.aspect) && f.phase === 'found') looks.push({ on: f.on, aspect: f.aspect, grade: f.grade });
  }
  const broken = file.findings
    .filter((f) => f.phase === 'found' && LOW_SIDE_PARTS.includes(f.aspect) && isStopped(f.aspect, f.grade))
    .map((f) => ({ on: f.on, what: `${ASPECT_INFO[f.aspect].subject} ${gradeLabel(f.aspect, f.grade).toLowerCase()}` }));
  for (const r of file.readings) {
    const seen = depositOf(r, baseline);
    if (!seen) continue;
    const aside = setAsideWhy(r);
    const after = r.phase === 'after';
    events.push({
      kind: 'reading',
      on: r.on,
      ...seen,
      phase: after ? 'after' : 'before',
      ...(aside ? { setAside: aside } : {}),
      // Held against the baseline that it taught it would tell of a clean coil, whatever the cleaning left.
      ...(after && !aside ? { teaches: true } : {}),
    });
  }
  // The record reaches back to its oldest event, should one have been entered with an earlier date.
  const startedOn = [...events, ...looks].reduce((a, e) => (e.on < a ? e.on : a), file.startedOn);
  return { baseline, history: { startedOn, startedClean: false, events }, looks, broken };
}
