import 'server-only';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';
import { COIL_CLEANING } from '../../../core/tasks';
import { daysBetween, todayIn, type LocalDate } from '../../../core/calendar';
import type { Estimate, Reading } from '../../../core/condenser';
import { readingOf } from '../../../core/condenser/from-record';
import {
  course,
  extraEnergyToday,
  fanAhead,
  fanDays,
  kitchenBeliefs,
  limitDates,
  lnKOf,
  lostToday,
  ownLimits,
  reviseTask,
  setAsideWhy,
  timesPrice,
} from '../../../core/evidence';
import { isStopped } from '../../../core/findings/grades';
import type { UnitFile } from '../../../core/evidence';
import type { TaskFile, TaskRevision } from '../../../core/evidence/revise-task';
import type { TaskShown, UnitEvidenceShown, VisitShown } from '../../../core/evidence/shown';
import { cyclePicture, headPicture } from '../../../core/evidence/pictures';
import { toLocalDate } from '../../../core/calendar/date-column';
import { unitFiles, visitDate } from './findings-history';
import { fleetBelief, kitchenMessages, policyOnFile } from './fouling';
import type { Tx } from '../../../database/client';

/** Of the history of visits, unless all are asked for. */
const LATEST_VISITS = 10;
const MOST_VISITS = 200;

type Which = { id: string; kitchenId: string; timeZone: string };

/** Everything that the evidence section of a unit shows; null when the unit is not in service. `visits`: how much of its history. */
export async function unitEvidence(
  db: Tx,
  { id: unitId, kitchenId, timeZone }: Which,
  now: Date,
  visits: 'latest' | 'all' | 'none' = 'latest',
): Promise<UnitEvidenceShown | null> {
  const most = { latest: LATEST_VISITS, all: MOST_VISITS, none: 0 }[visits];
  // None rests on another: side by side they take as long as the longest.
  const [[file], fleet, rules, tasks, latest, heads, history] = await Promise.all([
    unitFiles(db, { unitIds: [unitId] }),
    fleetBelief(db),
    policyOnFile(db),
    unitTasks(db, unitId),
    latestReading(db, unitId, timeZone),
    headReadings(db, unitId),
    visitHistory(db, unitId, timeZone, most),
  ]);
  if (!file) return null;
  const today = todayIn(timeZone, now.getTime());
  const neighbours = await kitchenMessages(db, kitchenId, fleet.fouling.modelVersion);
  const [belief] = kitchenBeliefs([file], fleet, neighbours);
  if (!belief) return null;
  const own = ownLimits(file.unit, belief.evidence.baseline, file.conditions, rules.ownLimits);
  const coil = tasks.find((t) => t.shown.kindKey === COIL_CLEANING) ?? null;
  const limits = own && own.limits.length > 0 ? own.limits : rules.limits;
  const { baseline } = belief.evidence;
  const { rate, lnK, asOf } = belief.fouling;
  const standing = { ratePerDay: rate.mean, rateSdPerDay: rate.sd, lnK: lnK.mean, lnKSd: lnK.sd, days: daysBetween(asOf, today), own };
  const todayKwh = extraEnergyToday([standing]);
  const revised = coilAnew(coil, (file) => reviseTask(file, belief, own, rules, fleet.fouling, null));
  const fan = fanAhead(belief.fouling, today, fanDays(today, coil?.shown.dueOn ?? null));
  return {
    today,
    unit: file.unit,
    conditions: file.conditions,
    baseline,
    fouling: {
      rate: belief.fouling.rate,
      lnK: belief.fouling.lnK,
      restore: belief.fouling.restore,
      evidence: belief.fouling.evidence,
      lastCleanedOn: belief.fouling.lastCleanedOn,
      asOf: belief.fouling.asOf,
      modelVersion: belief.fouling.modelVersion,
    },
    ownLimits: own,
    todayLost: lostToday(standing),
    todayKwh,
    todayMoney: timesPrice(todayKwh, file.conditions.priceKnown ? file.conditions.energyPricePerKwh : null),
    course: course(belief, fleet),
    fan,
    limitDates: limitDates(belief.fouling, limits, today),
    readings: file.readings.flatMap((r) => {
      const seen = lnKOf(r, baseline);
      return seen ? [{ on: r.on, phase: r.phase, ...seen, setAside: setAsideWhy(r) }] : [];
    }),
    cleanings: file.cleanings,
    grades: file.findings.filter((f) => f.aspect === 'coil'),
    tasks: tasks.map((t) => t.shown),
    stays: staysWhy(file, coil, revised.stays ?? null),
    washThrough: revised.deepClean ?? null,
    latest: latest && { on: latest.on, estimate: latest.estimate, reading: latest.reading },
    head: fan[0] ? headPicture(file, baseline, fan[0], heads) : null,
    cycle: latest ? cyclePicture(file.unit, latest.reading) : null,
    visits: history.shown,
    moreVisits: history.more,
  };
}
/** What all that is on file of a coil would say of its task today; nothing where it was never done. */
const coilAnew = (coil: UnitTask | null, revise: (file: TaskFile) => TaskRevision | null): Partial<TaskRevision> =>
  (coil?.file && revise({ ...coil.file, newsSince: null })) ?? {};

/** Why the newest look, at a coil stopped up, moved no date; null where it was another, or has a change of its own. */
function staysWhy(file: UnitFile, coil: UnitTask | null, stays: string | null) {
  const [last] = file.findings.filter((f) => f.aspect === 'coil' && f.phase === 'found').sort((a, b) => (a.on < b.on ? 1 : -1));
  const change = coil?.shown.changes[0];
  if (!last || !isStopped('coil', last.grade)) return null;
  if (change && change.at >= new Date(`${last.on}T00:00:00Z`)) return null;
  return stays;
}

type UnitTask = { shown: TaskShown; file: Omit<TaskFile, 'newsSince'> | null };

async function unitTasks(db: Tx, unitId: string): Promise<UnitTask[]> {
  const rows = await db.task.findMany({
    where: { unitId, active: true },
    orderBy: { kind: { sort: 'asc' } },
    include: { kind: { select: { label: true } }, changes: { orderBy: { at: 'desc' }, take: 12 } },
  });
  return rows.map((t) => ({
    file: t.lastDoneOn && {
      taskId: t.id, unitId, kindKey: t.kindKey, rule: t.rule, anchor: t.anchor, anchorDate: toLocalDate(t.anchorDate), lastDoneOn: toLocalDate(t.lastDoneOn),
      locked: t.locked, minWeeks: t.minWeeks, maxWeeks: t.maxWeeks,
    },
    shown: {
    id: t.id, kindKey: t.kindKey, label: t.kind.label, rule: t.rule, anchor: t.anchor, locked: t.locked, dueOn: toLocalDate(t.dueOn), lastDoneOn: t.lastDoneOn && toLocalDate(t.lastDoneOn),
    changes: t.changes.map((c) => ({ id: c.id, at: c.at, kind: c.kind, fromRule: c.fromRule, toRule: c.toRule, reason: c.reason, review: c.review, modelVersion: c.modelVersion })),
    },
  })); // prettier-ignore
}

/** The newest reading that could say something, or else the newest at all, with its estimate. */
async function latestReading(
  db: Tx,
  unitId: string,
  timeZone: string,
): Promise<{ on: LocalDate; estimate: Estimate; reading: Reading } | null> {
  const row = await db.estimate.findFirst({
    where: { unitId, reading: { supersededAt: null } },
    // What could say something comes first among the states.
    orderBy: [{ status: 'asc' }, { at: 'desc' }],
    include: { reading: true },
  });
  if (!row) return null;
  return {
    on: todayIn(timeZone, row.reading.at.getTime()),
    estimate: STORED_ESTIMATE.read(row.result),
    reading: readingOf(row.reading),
  };
}

/** Head (or bend temperature) against coil air, of readings that could say something. */
async function headReadings(db: Tx, unitId: string) {
  const rows = await db.reading.findMany({
    where: { unitId, supersededAt: null, airInK: { not: null }, estimate: { status: 'ok' } },
    orderBy: { at: 'asc' },
    select: { at: true, phase: true, headPaGauge: true, condensingClampK: true, airInK: true },
  });
  return rows.map((r) => ({
    at: r.at.getTime(),
    phase: r.phase,
    airK: r.airInK as number,
    headPaGauge: r.headPaGauge,
    clampK: r.condensingClampK,
  }));
}

/** Visits to the unit, newest first: what was found, read and done; and whether there are more. */
async function visitHistory(db: Tx, unitId: string, timeZone: string, most: number): Promise<{ shown: VisitShown[]; more: boolean }> {
  if (most === 0) return { shown: [], more: false };
  // From the unit to its visits: the other way round every visit of the shop would be gone through.
  const seen = await db.$queryRaw<{ id: string }[]>`
    SELECT v.id FROM "Visit" v WHERE v.status IN ('started', 'done') AND v.id IN (
      SELECT "visitId" FROM "Finding" WHERE "unitId" = ${unitId}::uuid
      UNION SELECT "visitId" FROM "Reading" WHERE "unitId" = ${unitId}::uuid
      UNION SELECT "visitId" FROM "VisitTask" WHERE "unitId" = ${unitId}::uuid)
    ORDER BY v."startsAt" DESC, v.id LIMIT ${most + 1}`;
  const rows = await db.visit.findMany({
    where: { id: { in: seen.slice(0, most).map((v) => v.id) } },
    orderBy: [{ startsAt: 'desc' }, { id: 'asc' }],
    include: {
      technician: { select: { name: true } },
      findings: { where: { unitId, supersededAt: null } },
      readings: { where: { unitId, supersededAt: null }, include: { estimate: true }, orderBy: { at: 'asc' } },
      tasks: { where: { unitId }, include: { task: { include: { kind: { select: { label: true } } } } } },
      outcomes: { where: { unitId } },
    },
  });
  const shown = rows.map((v) => ({
    id: v.id,
    on: visitDate(v, timeZone),
    technician: v.technician.name,
    outcome: v.outcomes[0] ? { outcome: v.outcomes[0].outcome, reason: v.outcomes[0].reason } : null,
    done: v.tasks.filter((t) => t.outcome === 'done').map((t) => t.task.kind.label),
    findings: v.findings.map((f) => ({ aspect: f.aspect, grade: f.grade, phase: f.phase, notLookedWhy: f.notLookedWhy, note: f.note })),
    readings: v.readings.map((r) => ({ phase: r.phase, estimate: STORED_ESTIMATE.readOrNull(r.estimate?.result) })),
  }));
  return { shown, more: seen.length > most };
}
