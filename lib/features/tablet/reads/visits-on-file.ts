import 'server-only';
import { priced } from '../../shop/reads/energy-price';
import { shopSettings } from '../../shop/reads/settings';
import { utcOffsetMinutes } from '../../../core/calendar';
import type { Entries, UnitOnFile, VisitOnFile } from '../../../core/tablet';
import { groupBy } from '../../../core/numerics/group-by';
import type { Tx } from '../../../database/client';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Prisma } from '../../../database/generated/client';
import { LATEST_RECORD, openRecord, sealedEntry, STANDING_STEPS } from '../../sealed/reads/steps';
import { unitsSaid } from '../../visits/reads/units-said';
import { NOTHING_OF_UNIT, pastOfUnits } from './past';
import { findingEntry, iso, isoOrNull, OLD_DEPOSIT, OPEN_JOBS, readingEntry, STANDING_TASKS, unitOnFile } from './rows';
import { jobsToDo } from './jobs-to-do';
import { workWanted } from './work-wanted';

const WHOLE = {
  kitchen: { include: { customer: { select: { name: true } } } },
  technician: { select: { name: true } },
  tasks: { include: { task: { include: { kind: true } } } },
  findings: { where: { supersededAt: null } },
  readings: { where: { supersededAt: null, phase: { not: 'log' } } },
  outcomes: { orderBy: { unitId: 'asc' } },
  photos: { orderBy: [{ takenAt: 'asc' }, { id: 'asc' }] },
  parts: true,
  jobOutcomes: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
  foodWarnings: { orderBy: [{ toldAt: 'asc' }, { id: 'asc' }] },
  sealedSteps: STANDING_STEPS,
} as const satisfies Prisma.VisitInclude;
type VisitRow = Prisma.VisitGetPayload<{ include: typeof WHOLE; omit: { signaturePng: true } }>;

/**
 * Visits with everything a tablet needs of them, as `forUserId` should see them, in the order of their start.
 * Units of the kitchen that a visit says something about come with it even when they were archived meanwhile.
 * Few statements, however many visits: `shop` where it has been read already.
 */
export async function visitsOnFile(
  db: Tx,
  ids: readonly string[],
  forUserId: string | null,
  given?: { shop: { energyPricePerKwh: number | null } | null },
): Promise<VisitOnFile[]> {
  const visits = await db.visit.findMany({
    where: { id: { in: [...ids] } },
    include: WHOLE,
    omit: { signaturePng: true },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  const events = await db.unitEvent.findMany({ where: { visitId: { in: [...ids] } }, orderBy: [{ at: 'asc' }, { id: 'asc' }] });
  const followUps = await workWanted(db, ids);
  const eventsBy = groupBy(events, (e) => e.visitId);
  const followUpsBy = groupBy(followUps, (f) => f.visitId);
  const said = new Map(
    visits.map((v) => [
      v.id,
      unitsSaid({ ...v, sealed: v.sealedSteps, unitEvents: eventsBy.get(v.id) ?? [], followUps: followUpsBy.get(v.id) ?? [] }),
    ]),
  );
  const units = await db.unit.findMany({
    where: {
      OR: [
        { kitchenId: { in: visits.map((v) => v.kitchenId) }, archivedAt: null },
        { id: { in: [...said.values()].flatMap((ids) => [...ids]) } },
      ],
    },
    include: { ...OPEN_JOBS, ...STANDING_TASKS, ...OLD_DEPOSIT, kitchen: { select: { altitudeM: true } }, sealedRecords: LATEST_RECORD },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  const { shop } = given ?? { shop: await shopSettings(db) };
  // One after another: inside a transaction there is one connection.
  const past = await pastOfUnits(db, units);
  const unitsBy = groupBy(units, (u) => u.kitchenId);
  const whole = (u: (typeof units)[number]): UnitOnFile =>
    unitOnFile(u, { ...(past.get(u.id) ?? NOTHING_OF_UNIT), openSealed: openRecord(u.sealedRecords) });
  const jobs = await jobsToDo(db, visits);
  return visits.map((v) => ({
    ...visitHead({ ...v, kitchen: priced(v.kitchen, shop) }, forUserId),
    units: (unitsBy.get(v.kitchenId) ?? []).filter((u) => u.archivedAt === null || said.get(v.id)?.has(u.id)).map(whole),
    jobs: jobs(v),
    entries: {
      ...entriesOf(v),
      sealed: v.sealedSteps.map(sealedEntry),
      events: (eventsBy.get(v.id) ?? []).map((e) => ({
        id: e.id,
        unitId: e.unitId,
        kind: e.kind as never,
        cause: e.cause,
        at: iso(e.at),
        note: e.note,
      })),
      followUps: (followUpsBy.get(v.id) ?? []).map(({ visitId: _, ...f }) => f),
    },
  }));
}

function visitHead(v: VisitRow, forUserId: string | null): Omit<VisitOnFile, 'units' | 'entries'> {
  const k = v.kitchen;
  return {
    id: v.id,
    version: v.version,
    status: v.status,
    startsAt: iso(v.startsAt),
    endsAt: iso(v.endsAt),
    note: v.note,
    nowWith: forUserId === null || v.technicianId === forUserId ? null : v.technician.name,
    cancelReason: v.cancelReason,
    kitchen: {
      id: k.id,
      name: k.name,
      customer: k.customer.name,
      address: k.address,
      timeZone: k.timeZone,
      utcOffsetMinutes: utcOffsetMinutes(k.timeZone, v.startsAt.getTime()),
      altitudeM: k.altitudeM,
      accessNotes: k.accessNotes,
      contactName: k.contactName,
      contactPhone: k.contactPhone,
      energyPricePerKwh: k.energyPricePerKwh,
      hotDayAirK: k.hotDayAirK,
    },
    tasks: v.tasks
      .map((t) => ({
        taskId: t.taskId,
        unitId: t.unitId,
        kindKey: t.task.kindKey,
        label: t.task.kind.label,
        minutes: t.task.kind.minutes,
        lowSide: t.task.kind.lowSide,
        dueOn: toLocalDate(t.task.dueOn),
        outcome: t.outcome,
        reason: t.reason,
        sort: t.task.kind.sort,
      }))
      .sort((a, b) => a.sort - b.sort || a.taskId.localeCompare(b.taskId))
      .map(({ sort: _, ...t }) => t),
  };
}

function entriesOf(v: VisitRow): Omit<Entries, 'events' | 'followUps' | 'sealed'> {
  const byTime = <E extends { at: Date; id: string }>(list: E[]) =>
    [...list].sort((a, b) => a.at.getTime() - b.at.getTime() || a.id.localeCompare(b.id));
  return {
    arrivedAt: isoOrNull(v.arrivedAt),
    leftAt: isoOrNull(v.leftAt),
    findings: byTime(v.findings).map(findingEntry),
    readings: byTime(v.readings).map(readingEntry),
    outcomes: v.outcomes.map(({ unitId, outcome, reason }) => ({ unitId, outcome, reason })),
    photos: v.photos.map((p) => ({
      id: p.id,
      unitId: p.unitId,
      aspect: p.aspect,
      phase: p.phase,
      takenAt: iso(p.takenAt),
      sha256: p.sha256,
      fileId: p.fileId,
    })),
    parts: byTime(v.parts).map(({ id, unitId, what, quantity, partId, place }) => ({
      id,
      unitId,
      what,
      quantity,
      ...(partId ? { partId, place } : {}),
    })),
    jobOutcomes: v.jobOutcomes.map(({ id, at, jobId, outcome, note }) => ({ id, at: iso(at), jobId, outcome, note })),
    foodWarnings: v.foodWarnings.map((w) => ({
      id: w.id,
      unitId: w.unitId,
      boxK: w.boxK,
      toldTo: w.toldTo,
      toldAt: iso(w.toldAt),
      note: w.note,
    })),
    signature: v.nobodyThere || v.signedAt ? { signedBy: v.signedBy, nobodyThere: v.nobodyThere } : null,
  };
}
