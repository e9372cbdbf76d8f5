import 'server-only';
import { addDays, todayIn, type LocalDate } from '../../../core/calendar';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { groupBy } from '../../../core/numerics/group-by';
import { COIL_CLEANING } from '../../../core/tasks/kinds';
import { isOpen } from '../../../core/jobs';
import type { Quarter } from '../../../core/reports/quarter';
import type { QuarterKitchen } from '../../../core/reports/quarter-for-customer';
import type { CoilDay } from '../../../core/reports/coil-trend';
import type { Tx } from '../../../database/client';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';

/** Far enough back for the look before the last one, also of a coil that is cleaned twice a year. */
const BACK_DAYS = 550;

/** What stands on file of a customer's kitchens in a quarter, by the clock of each kitchen. */
export async function quarterOnFile(db: Tx, customerId: string, quarter: Quarter, now: Date): Promise<QuarterKitchen[]> {
  const kitchens = await db.kitchen.findMany({
    where: { customerId, archivedAt: null },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    include: {
      units: { where: { archivedAt: null }, orderBy: [{ name: 'asc' }, { id: 'asc' }], select: { id: true, name: true } },
      tasks: {
        where: { active: true },
        orderBy: [{ dueOn: 'asc' }, { id: 'asc' }],
        include: { kind: { select: { label: true } } },
      },
      jobs: { include: { units: { select: { unit: { select: { name: true } } } } }, orderBy: [{ urgency: 'asc' }, { createdAt: 'asc' }] },
      visits: {
        where: { status: 'booked', startsAt: { gt: now } },
        orderBy: { startsAt: 'asc' },
        take: 1,
        select: { startsAt: true },
      },
    },
  });
  const inQuarter = (on: LocalDate) => on >= quarter.startsOn && on < quarter.endsBefore;
  const out: QuarterKitchen[] = [];
  for (const k of kitchens) {
    const day = (at: Date) => todayIn(k.timeZone, at.getTime());
    const visits = (await visitsOf(db, k.id, quarter)).map((v) => ({ ...v, on: day(v.arrivedAt ?? v.startsAt) }));
    const done = visits.filter((v) => v.on < quarter.endsBefore);
    const [next] = k.visits;
    out.push({
      id: k.id,
      name: k.name,
      visits: done.filter((v) => inQuarter(v.on)).map((v) => v.on),
      nextVisit: next ? day(next.startsAt) : null,
      finished: k.jobs.filter((j) => j.state === 'done' && j.closedAt && inQuarter(day(j.closedAt))).length,
      jobs: k.jobs
        .filter((j) => isOpen(j.state))
        .map((j) => ({ unitNames: j.units.map((u) => u.unit.name), what: j.what, urgency: j.urgency })),
      units: k.units.map((u) => ({
        id: u.id,
        name: u.name,
        days: done.filter((v) => inQuarter(v.on)).flatMap((v) => unitDay(v, u.id) ?? []),
        coil: done.map((v) => coilDay(v, u.id)).filter((d) => d.found !== null || d.cleaned),
        cost:
          done
            .filter((v) => inQuarter(v.on))
            .flatMap((v) => costThen(v, u.id) ?? [])
            .at(-1) ?? null,
        next: k.tasks
          .filter((t) => t.unitId === u.id)
          .map((t) => ({ kind: t.kindKey, task: t.kind.label, dueOn: toLocalDate(t.dueOn), rule: t.rule, ruleBefore: null })),
      })),
    });
  }
  return out;
}

async function visitsOf(db: Tx, kitchenId: string, { startsOn, endsBefore }: Quarter) {
  const visits = await db.visit.findMany({
    where: {
      kitchenId,
      status: 'done',
      // A day more on either side: which day it was is told by the kitchen's clock.
      startsAt: { gte: fromLocalDate(addDays(startsOn, -BACK_DAYS)), lt: fromLocalDate(addDays(endsBefore, 1)) },
    },
    orderBy: { startsAt: 'asc' },
    select: {
      startsAt: true,
      arrivedAt: true,
      findings: { where: { supersededAt: null, grade: { not: null } }, select: { unitId: true, aspect: true, grade: true, phase: true } },
      tasks: {
        where: { outcome: 'done' },
        select: { unitId: true, task: { select: { kindKey: true, kind: { select: { label: true } } } } },
      },
      outcomes: { select: { unitId: true, outcome: true } },
      readings: {
        where: { phase: 'before', supersededAt: null, estimate: { status: 'ok' } },
        orderBy: { at: 'asc' },
        select: { unitId: true, estimate: { select: { result: true } } },
      },
    },
  });
  return visits.map(({ findings, tasks, outcomes, readings, ...v }) => ({
    ...v,
    findings: groupBy(findings, (f) => f.unitId),
    tasks: groupBy(tasks, (t) => t.unitId),
    outcomes: new Map(outcomes.map((o) => [o.unitId, o.outcome])),
    readings: groupBy(readings, (r) => r.unitId),
  }));
}
type Done = Awaited<ReturnType<typeof visitsOf>>[number] & { on: LocalDate };

function unitDay({ on, findings, tasks, outcomes }: Done, unitId: string) {
  const outcome = outcomes.get(unitId);
  const found = (findings.get(unitId) ?? [])
    .filter((f) => f.phase === 'found')
    .flatMap((f) => (f.grade ? [{ aspect: f.aspect, grade: f.grade }] : []));
  const done = (tasks.get(unitId) ?? []).map((t) => ({ kind: t.task.kindKey, label: t.task.kind.label }));
  const reached = outcome !== 'could_not_reach';
  return found.length + done.length > 0 || !reached ? { on, found, done, reached } : null;
}

function coilDay({ on, findings, tasks }: Done, unitId: string): CoilDay {
  const found = (findings.get(unitId) ?? []).find((f) => f.aspect === 'coil' && f.phase === 'found')?.grade ?? null;
  return { on, found, cleaned: (tasks.get(unitId) ?? []).some((t) => t.task.kindKey === COIL_CLEANING) };
}

function costThen({ on, readings }: Done, unitId: string) {
  const estimate = STORED_ESTIMATE.readOrNull((readings.get(unitId) ?? []).at(-1)?.estimate?.result);
  const cost = estimate?.status === 'ok' ? estimate.extraCostPerDay : null;
  return cost ? { value: cost.value, lo: cost.lo, hi: cost.hi, currency: cost.currency, on } : null;
}
