import 'server-only';
import { SEALED_STEPS } from '../../../core/sealed';
import type { Tx } from '../../../database/client';
import { STORED_SEALED_WORK } from '../../../database/stored/sealed';

/** Repair records of a unit, the latest first, each with its standing steps in the order of the work. */
export async function recordsOfUnit(db: Tx, unitId: string) {
  const records = await db.sealedRecord.findMany({
    where: { unitId },
    orderBy: [{ begunAt: 'desc' }, { id: 'asc' }],
    include: {
      steps: {
        where: { supersededAt: null },
        include: { by: { select: { name: true } }, certificate: { select: { kind: true, number: true } } },
      },
    },
  });
  const all = await db.cylinder.findMany({ select: { id: true, label: true } });
  const cylinders: Record<string, string | undefined> = Object.fromEntries(all.map((c) => [c.id, c.label]));
  return records.map((r) => ({
    id: r.id,
    begunAt: r.begunAt,
    cylinders,
    steps: r.steps
      .map(({ by, work, ...s }) => ({ ...s, by: by.name, work: STORED_SEALED_WORK.readOrNull(work) }))
      .sort((a, b) => SEALED_STEPS.indexOf(a.step) - SEALED_STEPS.indexOf(b.step)),
  }));
}
