import 'server-only';
import { randomUUID } from 'node:crypto';
import { returnCause, type Decision, type EstimatedReading, type VisitOutcome } from '../../../core/evidence';
import { COIL_CLEANING } from '../../../core/tasks';
import { Prisma, type Tx } from '../../../database/client';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';
import { keepCleaningBefore } from './cleaning-before';
import { saveBeliefs } from '../../evidence/verbs/save-belief';
import { changeRow } from './save-change';
import { foundAgain, foundRight } from '../../jobs/verbs/after-visit';
import { openJobs } from '../../jobs/verbs/open-job';
import type { visitToRevise } from '../reads/rule-changes';

type Visit = NonNullable<Awaited<ReturnType<typeof visitToRevise>>>;
type Said = { visit: Visit; by: string | null; now: Date };

/** Estimates of some readings, each in place of an earlier one, in one statement. */
export async function saveEstimates(tx: Tx, made: readonly EstimatedReading[]): Promise<void> {
  if (made.length === 0) return;
  const rows = made.map(({ readingId, unitId, at, columns, result }) => ({
    ...columns,
    id: randomUUID(),
    readingId,
    unitId,
    at: new Date(at),
    result: STORED_ESTIMATE.write(result),
  }));
  await tx.$executeRaw(Prisma.sql`
    INSERT INTO "Estimate" (id, "readingId", "unitId", at, "modelVersion", status, verdict, "lnK", "lnKSd", result)
    SELECT id, "readingId", "unitId", at, "modelVersion", status, verdict, "lnK", "lnKSd", result
    FROM jsonb_populate_recordset(null::"Estimate", ${JSON.stringify(rows)}::jsonb)
    ON CONFLICT ("readingId") DO UPDATE SET "unitId" = excluded."unitId", at = excluded.at, "modelVersion" = excluded."modelVersion",
      status = excluded.status, verdict = excluded.verdict, "lnK" = excluded."lnK", "lnKSd" = excluded."lnKSd", result = excluded.result`);
}

/** What was expected stands as it was first written; what was met follows the entries. */
async function saveForesights(tx: Tx, outcome: VisitOutcome, { visit, by, now }: Said): Promise<void> {
  if (outcome.foresights.length === 0) return;
  const rows = outcome.foresights.map(({ foundBy, ...f }) => ({
    ...f,
    visitId: visit.id,
    madeAt: now,
    foundById: f.found ? (foundBy ?? by) : null,
  }));
  await tx.$executeRaw(Prisma.sql`
    INSERT INTO "Foresight" SELECT * FROM jsonb_populate_recordset(null::"Foresight", ${JSON.stringify(rows)}::jsonb)
    ON CONFLICT ("visitId", "unitId") DO UPDATE SET found = excluded.found, "foundById" = excluded."foundById", "readLnK" = excluded."readLnK", "readLnKSd" = excluded."readLnKSd"`);
}

async function saveTasks(tx: Tx, decisions: readonly Decision[]): Promise<void> {
  const rows = decisions
    .filter((d) => !d.settled)
    .map((d) => ({ id: d.taskId, rule: d.rule, dueOn: d.dueOn, lastDoneOn: d.lastDoneOn, active: d.dueOn !== null }));
  if (rows.length === 0) return;
  await tx.$executeRaw(Prisma.sql`
    UPDATE "Task" t SET rule = r.rule, "dueOn" = coalesce(r."dueOn", t."dueOn"), "lastDoneOn" = r."lastDoneOn", active = r.active, version = t.version + 1
    FROM jsonb_populate_recordset(null::"Task", ${JSON.stringify(rows)}::jsonb) r WHERE t.id = r.id`);
}

/** Of the coils cleaned there: what plain cleaning left, said at the coil the next time. */
async function saveOldDeposit(tx: Tx, decisions: readonly Decision[]): Promise<void> {
  const rows = decisions
    .filter((d) => d.kindKey === COIL_CLEANING && d.shown)
    .map(({ unitId, deepClean }) => ({ unitId, oldDeposit: deepClean }));
  if (rows.length === 0) return;
  await tx.$executeRaw(Prisma.sql`
    UPDATE "UnitFouling" f SET "oldDeposit" = r."oldDeposit"
    FROM jsonb_populate_recordset(null::"UnitFouling", ${JSON.stringify(rows)}::jsonb) r WHERE f."unitId" = r."unitId"`);
}

/** Everything that follows from a visit, written in a handful of statements. Returns the new jobs. */
export async function saveConsequences(tx: Tx, outcome: VisitOutcome, { visit, by, now }: Said): Promise<string[]> {
  for (const { unitId, on } of outcome.cleanedBefore) await keepCleaningBefore(tx, unitId, on, visit.kitchen.timeZone);
  await saveBeliefs(tx, outcome.beliefs, now);
  await saveOldDeposit(tx, outcome.decisions);
  await saveForesights(tx, outcome, { visit, by, now });
  await saveTasks(tx, outcome.decisions);
  const changes = outcome.decisions.flatMap(({ taskId, record, held }) => [record, held].flatMap((c) => (c ? [{ taskId, ...c }] : [])));
  if (changes.length > 0)
    await tx.ruleChange.createMany({ data: changes.map((c) => changeRow({ ...c, at: now, byUserId: by, visitId: visit.id })) });
  const there = { visitId: visit.id, by, at: now };
  await foundRight(tx, outcome.met, 'Found right at a visit.', there);
  await foundAgain(tx, outcome.again, there);
  const asked = outcome.goBack.map(({ unitId, what, note, cause, dueOn }) => ({
    kitchenId: visit.kitchenId, unitIds: [unitId], source: 'finding' as const, urgency: 'week' as const, what, note,
    cause: returnCause(cause), dueOn: fromLocalDate(dueOn), foundVisitId: visit.id,
  })); // prettier-ignore
  return openJobs(tx, asked, { by, at: now });
}
