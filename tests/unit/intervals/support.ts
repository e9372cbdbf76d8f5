import fc from 'fast-check';
import { addDays, localDate, weeksRule, type LocalDate } from '@/lib/core/calendar';
import { PLACEMENTS, type Placement } from '@/lib/core/equipment/build';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import { DEFAULT_HYPER, posterior, type UnitEvent, type UnitHistory } from '@/lib/core/fouling';
import { DEFAULT_POLICY, reviseCoilRule, type CoilRevision, type CoilRevisionInput } from '@/lib/core/intervals';

export const START = localDate('2025-01-06');
export const COIL = GRADES.coil.map((g) => g.grade);

/** A visit that cleans: how the coil was met, what was read, and how it looked afterwards. */
export type Visit = {
  gap: number;
  before: CoilGrade | null;
  lnK: number | null;
  after: CoilGrade | null;
  trip: boolean;
};

export const visit = (gap: number, before: CoilGrade | null, more: Partial<Visit> = {}): Visit => ({
  gap,
  before,
  lnK: null,
  after: null,
  trip: false,
  ...more,
});

export const anyVisit: fc.Arbitrary<Visit> = fc.record({
  gap: fc.integer({ min: 10, max: 120 }),
  before: fc.option(fc.constantFrom(...COIL), { freq: 8 }),
  lnK: fc.option(fc.double({ min: -1, max: 0.1, noNaN: true })),
  after: fc.option(fc.constantFrom<CoilGrade>('bare', 'filmed')),
  trip: fc.boolean().map((b) => b && false),
});
export const anyPlacement = fc.constantFrom<Placement>(...PLACEMENTS);
export const anyWeeks = fc.integer({ min: 2, max: 40 });

export function eventsOf(v: Visit, on: LocalDate): UnitEvent[] {
  return [
    ...(v.trip ? [{ kind: 'trip', on } as const] : []),
    ...(v.before ? [{ kind: 'coil', on, grade: v.before, phase: 'before' } as const] : []),
    ...(v.lnK === null ? [] : [{ kind: 'reading', on, lnK: v.lnK, sd: 0.1, phase: 'before' } as const]),
    { kind: 'cleaning', on },
    ...(v.after ? [{ kind: 'coil', on, grade: v.after, phase: 'after' } as const] : []),
  ];
}

export function historyOf(visits: readonly Visit[]): UnitHistory & { last: LocalDate } {
  let on = START;
  const events = visits.flatMap((v) => eventsOf(v, (on = addDays(on, v.gap))));
  return { startedOn: START, startedClean: true, events, last: on };
}

/** The revision after the last of some visits, everything else at its default. */
export function revised(
  visits: readonly Visit[],
  weeks: number,
  more: Partial<CoilRevisionInput> & { placement?: Placement } = {},
): CoilRevision {
  const { last, ...history } = historyOf(visits);
  const { placement = 'fryer', ...rest } = more;
  return reviseCoilRule({
    currency: 'USD',
    history,
    posterior: posterior(history, { placement, kitchenId: 'k' }, DEFAULT_HYPER),
    hyper: DEFAULT_HYPER,
    settings: DEFAULT_POLICY,
    currentRule: weeksRule(weeks),
    anchor: 'last_completed',
    lastDoneOn: last,
    ...rest,
  });
}
