import 'server-only';
import { labelOf } from '../../../core/typed/closed-set';
import { STORED_ENTRY_DETAIL, STORED_QUESTIONED } from '../../../database/stored/records';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';
import { ENTRY_LABEL } from '../../../core/tablet';
import type { VisitReport } from '../../../core/tablet/visit-report';
import { toLocalDate } from '../../../core/calendar/date-column';
import { groupBy } from '../../../core/numerics/group-by';
import type { Tx } from '../../../database/client';
import { readingValues } from '../../tablet/reads/rows';
import { jobsOfVisit } from '../../jobs/reads/of-visit';
import { unitsSaid } from './units-said';

/** One visit with everything that came of it, superseded entries included. Null when it is not on file. */
export async function visitReport(db: Tx, id: string): Promise<VisitReport | null> {
  const visit = await db.visit.findUnique({
    where: { id },
    include: {
      kitchen: { include: { customer: { select: { id: true, name: true } } } },
      technician: { select: { id: true, name: true } },
      tasks: { include: { task: { include: { kind: true } } } },
      outcomes: true,
      photos: { orderBy: { takenAt: 'asc' } },
      parts: { orderBy: { at: 'asc' } },
      foodWarnings: { orderBy: { toldAt: 'asc' } },
      findings: { orderBy: { at: 'asc' } },
      readings: { orderBy: { at: 'asc' }, include: { estimate: true } },
      events: { orderBy: { at: 'desc' } },
    },
  });
  if (!visit) return null;
  const people = new Map((await db.user.findMany({ select: { id: true, name: true } })).map((u) => [u.id, u.name]));
  const by = (userId: string | null) => (userId ? (people.get(userId) ?? 'someone') : 'the program');
  const jobs = await jobsOfVisit(db, id);
  const followUps = jobs.flatMap((j) => j.units.map(({ unitId }) => ({ ...j, unitId })));
  const unitEvents = await db.unitEvent.findMany({ where: { visitId: id }, orderBy: { at: 'asc' } });
  const units = await db.unit.findMany({
    where: { id: { in: [...unitsSaid({ ...visit, unitEvents, followUps })] } },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  const entries = await db.entry.findMany({
    where: { visitId: id },
    omit: { payload: true },
    orderBy: [{ receivedAt: 'asc' }, { deviceSeq: 'asc' }],
    include: { device: { select: { name: true } } },
  });
  const changes = await db.ruleChange.findMany({
    where: { visitId: id },
    orderBy: { at: 'asc' },
    include: { task: { include: { kind: true, unit: { select: { id: true, name: true } } } } },
  });
  const findings = groupBy(visit.findings, (f) => f.unitId);
  const readings = groupBy(visit.readings, (r) => r.unitId);
  const photos = groupBy(
    visit.photos.map(({ id, unitId, fileId, aspect, phase, takenAt }) => ({
      id,
      unitId,
      fileId,
      aspect,
      phase,
      takenAt: takenAt.getTime(),
    })),
    (p) => p.unitId,
  );
  const parts = visit.parts.map(({ id, unitId, what, quantity, place }) => ({ id, unitId, what, quantity, place }));
  const foodWarnings = visit.foodWarnings.map((w) => ({
    id: w.id,
    unitId: w.unitId,
    boxK: w.boxK,
    toldTo: w.toldTo,
    toldAt: w.toldAt.getTime(),
    note: w.note,
  }));
  return {
    id,
    status: visit.status,
    startsAt: visit.startsAt.getTime(),
    endsAt: visit.endsAt.getTime(),
    arrivedAt: visit.arrivedAt?.getTime() ?? null,
    leftAt: visit.leftAt?.getTime() ?? null,
    cancelReason: visit.cancelReason,
    technician: visit.technician,
    kitchen: { id: visit.kitchenId, name: visit.kitchen.name, timeZone: visit.kitchen.timeZone, customer: visit.kitchen.customer },
    signature: visit.nobodyThere
      ? { nobody: true as const }
      : visit.signaturePng
        ? { nobody: false as const, by: visit.signedBy, png: Buffer.from(visit.signaturePng).toString('base64') }
        : null,
    parts,
    foodWarnings,
    photos: photos.get(null) ?? [],
    notRevised: visit.events.find((e) => e.kind === 'not_revised' || e.kind === 'revised')?.kind === 'not_revised',
    units: units.map((u) => ({
      id: u.id,
      name: u.name,
      archived: u.archivedAt !== null,
      outcome: visit.outcomes.find((o) => o.unitId === u.id) ?? null,
      tasks: visit.tasks
        .filter((t) => t.unitId === u.id)
        .map((t) => ({ id: t.id, kind: t.task.kindKey, label: t.task.kind.label, outcome: t.outcome, reason: t.reason })),
      findings: (findings.get(u.id) ?? []).map((f) => ({
        id: f.id,
        aspect: f.aspect,
        grade: f.grade,
        why: f.notLookedWhy,
        phase: f.phase,
        note: f.note,
        at: f.at.getTime(),
        by: by(f.byUserId),
        superseded: f.supersededAt !== null,
      })),
      readings: (readings.get(u.id) ?? []).map((r) => ({
        id: r.id,
        phase: r.phase,
        at: r.at.getTime(),
        by: by(r.byUserId),
        superseded: r.supersededAt !== null,
        values: readingValues(r),
        questioned: [...STORED_QUESTIONED.read(r.questioned)],
        estimate: STORED_ESTIMATE.readOrNull(r.estimate?.result),
      })),
      photos: photos.get(u.id) ?? [],
      followUps: followUps.filter((f) => f.unitId === u.id).map((f) => ({ id: f.id, number: f.number, what: f.what, state: f.state })),
      events: unitEvents.filter((e) => e.unitId === u.id).map((e) => ({ id: e.id, kind: e.kind, note: e.note, cause: e.cause })),
      parts: parts.filter((p) => p.unitId === u.id),
      foodWarnings: foodWarnings.filter((w) => w.unitId === u.id),
    })),
    changes: changes.map((c) => ({
      id: c.id,
      unit: c.task.unit,
      task: c.task.kind.label,
      fromRule: c.fromRule,
      toRule: c.toRule,
      toDueOn: c.toDueOn && toLocalDate(c.toDueOn),
      reason: c.reason,
    })),
    entries: entries.map((o) => {
      const detail = STORED_ENTRY_DETAIL.read(o.detail);
      return {
        id: o.id,
        what: labelOf(ENTRY_LABEL, o.kind),
        by: by(o.userId),
        device: o.device.name || 'tablet',
        madeAt: o.madeAt.getTime(),
        receivedAt: o.receivedAt.getTime(),
        outcome: o.outcome,
        note: detail.note ?? '',
        correctedMs: detail.clockCorrectedMs ?? 0,
      };
    }),
  };
}
