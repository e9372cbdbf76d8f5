import 'server-only';
import { groupBy } from '../../../core/numerics/group-by';
import { SEALED_STEPS, type OpenRecord, type SealedStepEntry, type SealedWork } from '../../../core/sealed';
import type { Tx } from '../../../database/client';
import type { Prisma } from '../../../database/generated/client';

type Row = Prisma.SealedStepGetPayload<object>;

/** Held to its schema when it was taken in, and never changed since. */
const workOf = (work: Prisma.JsonValue): SealedWork | null => work as SealedWork | null;

const sealedEntry = (s: Row): SealedStepEntry => ({
  id: s.id,
  recordId: s.recordId,
  unitId: s.unitId,
  step: s.step,
  work: workOf(s.work),
  skippedWhy: s.skippedWhy,
  certificateId: s.certificateId,
  overruledBy: s.overruledBy,
  overruledWhy: s.overruledWhy,
  note: s.note,
  at: s.at.toISOString(),
});

const IN_TIME = [{ at: 'asc' }, { id: 'asc' }] as const;

/** The latest repair record of each unit where it is not finished: its standing steps. */
export async function openRecordsOf(db: Tx, unitIds: readonly string[]): Promise<Map<string, OpenRecord>> {
  const records = await db.sealedRecord.findMany({
    where: { unitId: { in: [...unitIds] } },
    orderBy: [{ begunAt: 'desc' }, { id: 'asc' }],
    distinct: ['unitId'],
    include: { steps: { where: { supersededAt: null }, orderBy: [...IN_TIME] } },
  });
  const open = records.filter((r) => r.steps.length > 0 && r.steps.length < SEALED_STEPS.length);
  return new Map(open.map((r) => [r.unitId, { recordId: r.id, steps: r.steps.map(sealedEntry) }]));
}

/** Standing steps by visit, in the order they were made. */
export async function sealedOfVisits(db: Tx, visitIds: readonly string[]): Promise<Map<string, SealedStepEntry[]>> {
  const rows = await db.sealedStep.findMany({ where: { visitId: { in: [...visitIds] }, supersededAt: null }, orderBy: [...IN_TIME] });
  const by = groupBy(rows, (r) => r.visitId);
  return new Map([...by].map(([id, steps]) => [id, steps.map(sealedEntry)]));
}

/** When each unit's circuit was last charged anew: readings from before say nothing of how it runs clean today. */
export async function chargedAnew(db: Tx, unitIds: readonly string[]): Promise<Map<string, Date>> {
  const rows = await db.sealedStep.groupBy({
    by: ['unitId'],
    where: { unitId: { in: [...unitIds] }, step: 'charge', skippedWhy: '', supersededAt: null },
    _max: { at: true },
  });
  return new Map(rows.flatMap((r) => (r._max.at ? [[r.unitId, r._max.at] as const] : [])));
}
