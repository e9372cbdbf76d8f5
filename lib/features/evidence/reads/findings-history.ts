import 'server-only';
import { chargedAnew } from '../../sealed/reads/steps';
import { priced } from '../../shop/reads/energy-price';
import { COIL_CLEANING } from '../../../core/tasks';
import { todayIn, type LocalDate } from '../../../core/calendar';
import { condenserUnitOf, conditionsOf } from '../../../core/condenser/from-record';
import type { CauseId, Figure, Verdict } from '../../../core/condenser';
import type { FindingFact, ReadingFact, UnitFile } from '../../../core/evidence';
import type { UnitEventKind } from '../../../core/entries/entries';
import type { TripCause } from '../../../core/findings/trip-causes';
import { fanDead, seenAt } from '../../../core/findings/seen';
import { toLocalDate } from '../../../core/calendar/date-column';
import { groupBy } from '../../../core/numerics/group-by';
import { Prisma, type Tx } from '../../../database/client';

/** A visit's date is the day the technician came, in the kitchen's own zone. */
export const visitDate = (v: { arrivedAt: Date | null; startsAt: Date }, timeZone: string): LocalDate =>
  todayIn(timeZone, (v.arrivedAt ?? v.startsAt).getTime());

/** A cleaning before our first visit, known from when the unit was put on file. */
export const CLEANED_BEFORE = 'coil_cleaned_before';

type Which = { kitchenId: string } | { kitchenIds: readonly string[] } | { unitIds: readonly string[] };

type More = {
  /** A visit that counts although it is not closed yet. */
  withVisit?: string;
  /** A visit whose readings are left out, to be estimated anew. */
  withoutReadings?: string;
  /** Units wanted although they were archived. */
  evenArchived?: readonly string[];
};

/**
 * What lies on file about units still in service: of closed visits, without superseded entries.
 */
export async function unitFiles(db: Tx, which: Which, more: More = {}): Promise<UnitFile[]> {
  const { withVisit, withoutReadings, evenArchived = [] } = more;
  const where =
    'kitchenId' in which
      ? { kitchenId: which.kitchenId }
      : 'kitchenIds' in which
        ? { kitchenId: { in: [...which.kitchenIds] } }
        : { id: { in: [...which.unitIds] } };
  const units = await db.unit.findMany({
    where: { ...where, OR: [{ archivedAt: null }, { id: { in: [...evenArchived] } }] },
    include: { kitchen: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  if (units.length === 0) return [];
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { currency: true, energyPricePerKwh: true } });
  const ids = units.map((u) => u.id);
  const counted = { OR: [{ status: 'done' as const }, ...(withVisit ? [{ id: withVisit }] : [])] };
  const visit = { select: { arrivedAt: true, startsAt: true } };
  const [findings, cleanings, events, readings] = [
    await db.finding.findMany({
      where: { unitId: { in: ids }, supersededAt: null, grade: { not: null }, visit: counted },
      select: { unitId: true, aspect: true, grade: true, phase: true, visitId: true, byUserId: true, visit },
      orderBy: [{ at: 'asc' }, { id: 'asc' }],
    }),
    await db.visitTask.findMany({
      where: { unitId: { in: ids }, outcome: 'done', task: { kindKey: COIL_CLEANING }, visit: counted },
      select: { unitId: true, visit },
    }),
    await db.unitEvent.findMany({
      where: { unitId: { in: ids }, kind: { in: ['high_pressure_trip', CLEANED_BEFORE, 'washed_through', 'fouls_more', 'fouls_less'] } },
      select: { unitId: true, at: true, kind: true, cause: true },
    }),
    (await estimateFacts(db, ids)).filter((e) => withoutReadings === undefined || e.visitId !== withoutReadings),
  ];
  const onFile = await db.task.findMany({
    where: { unitId: { in: ids }, kindKey: COIL_CLEANING, lastDoneOn: { not: null } },
    select: { unitId: true, lastDoneOn: true },
  });
  const anew = await chargedAnew(db, ids);
  const zone = new Map(units.map((u) => [u.id, u.kitchen.timeZone]));
  const on = (unitId: string, v: { arrivedAt: Date | null; startsAt: Date }) => visitDate(v, zone.get(unitId) as string);
  const looksOf = groupBy(findings, (f) => `${f.visitId} ${f.unitId}`);
  const byUnit = <T extends { unitId: string }>(rows: readonly T[]) => groupBy(rows, (r) => r.unitId);
  const found = byUnit(findings);
  const cleaned = byUnit(cleanings);
  const happened = byUnit(events);
  const lastOnFile = new Map(onFile.map((t) => [t.unitId, toLocalDate(t.lastDoneOn as Date)]));
  // A circuit that was opened and charged is another machine: what was read before says nothing of how it runs clean.
  const read = byUnit(readings.filter((r) => r.at >= (anew.get(r.unitId) ?? r.at)));
  return units.map((u): UnitFile => {
    const unit = condenserUnitOf(u, u.kitchen);
    const happenedHere = (happened.get(u.id) ?? []).map((e) => ({ ...e, on: todayIn(u.kitchen.timeZone, e.at.getTime()) }));
    const dates = (kind: UnitEventKind) => happenedHere.filter((e) => e.kind === kind).map((e) => e.on);
    const last = lastOnFile.get(u.id);
    return {
      unitId: u.id,
      kitchenId: u.kitchenId,
      unit,
      conditions: conditionsOf(unit, priced(u.kitchen, shop), shop?.currency ?? 'USD'),
      startedOn: todayIn(u.kitchen.timeZone, u.createdAt.getTime()),
      cleanings: [
        ...new Set([...(cleaned.get(u.id) ?? []).map((c) => on(u.id, c.visit)), ...dates(CLEANED_BEFORE), ...(last ? [last] : [])]),
      ].sort(),
      findings: (found.get(u.id) ?? []).map((f): FindingFact => ({
        on: on(u.id, f.visit),
        aspect: f.aspect,
        grade: f.grade as string,
        phase: f.phase,
        ...(f.byUserId ? { by: f.byUserId } : {}),
      })),
      trips: tripsOf(happenedHere),
      washed: [...new Set(dates('washed_through'))].sort(),
      changes: [
        ...dates('fouls_more').map((day) => ({ on: day, said: 'more' as const })),
        ...dates('fouls_less').map((day) => ({ on: day, said: 'less' as const })),
      ],
      readings: (read.get(u.id) ?? []).map((r): ReadingFact => ({
        at: r.at.getTime(),
        on: r.startsAt ? on(u.id, { arrivedAt: r.arrivedAt, startsAt: r.startsAt }) : todayIn(u.kitchen.timeZone, r.at.getTime()),
        phase: r.phase,
        designRiseK: r.rise,
        verdict: r.verdict,
        leading: r.leading as CauseId | null,
        fanFailed: fanDead(seenAt(looksOf.get(`${r.visitId} ${u.id}`) ?? [], r.phase)),
      })),
    };
  });
}

/** One trip a day; a cause that somebody found stands over none. */
function tripsOf(happened: readonly { kind: UnitEventKind; on: LocalDate; cause: TripCause | null }[]): UnitFile['trips'] {
  const byDay = new Map<LocalDate, TripCause | null>();
  for (const e of happened) if (e.kind === 'high_pressure_trip') byDay.set(e.on, e.cause ?? byDay.get(e.on) ?? null);
  return [...byDay].sort(([a], [b]) => (a < b ? -1 : 1)).map(([on, cause]) => ({ on, cause }));
}

type EstimateRow = {
  unitId: string; visitId: string | null; at: Date; phase: 'before' | 'after' | 'log'; verdict: Verdict;
  rise: Figure | null; leading: string | null; arrivedAt: Date | null; startsAt: Date | null;
}; // prettier-ignore

/** Only what learning needs of each estimate: the whole result is some kilobytes. */
function estimateFacts(db: Tx, unitIds: readonly string[]): Promise<EstimateRow[]> {
  return db.$queryRaw<EstimateRow[]>(Prisma.sql`
    SELECT e."unitId", r."visitId", e.at, r.phase::text AS phase, e.verdict::text AS verdict, e.result->'designRiseK' AS rise,
           e.result->'causes'->0->>'id' AS leading, v."arrivedAt", v."startsAt"
    FROM "Estimate" e JOIN "Reading" r ON r.id = e."readingId" LEFT JOIN "Visit" v ON v.id = r."visitId"
    WHERE e."unitId" = ANY(${[...unitIds]}::uuid[]) AND r."supersededAt" IS NULL
    ORDER BY e.at, e.id`);
}
